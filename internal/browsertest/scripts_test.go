package browsertest

import (
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp/kb"
)

// Parts of a card that the script adds or changes.
const (
	glossBowl    = "#bowl_gloss "
	glossWeighed = glossBowl + ".weigh tbody td:nth-child(2)"
	glossSays    = glossBowl + "output"
	dock         = ".dock "
)

func expectTexts(t *testing.T, p *page, selector string, want ...string) {
	t.Helper()
	got := p.texts(selector)
	if strings.Join(got, " | ") != strings.Join(want, " | ") {
		t.Errorf("%s reads %q, want %q", selector, got, want)
	}
}

// way chooses one of the ways to weigh a bowl again.
func way(p *page, name string) {
	p.t.Helper()
	p.click(glossBowl + ".ways input[value=" + name + "]")
}

// The weights are worked out by hand from 2 parts 8N + 1 part 8V at 1:2.
func TestWeighAgain(t *testing.T) {
	p := openPage(t, built(t), glossPage)
	expectTexts(t, p, glossWeighed, glossWeights...)

	p.fill(glossBowl+"[data-way=colour] input", "52")
	expectTexts(t, p, glossWeighed, "34.7 g", "17.3 g", "104 g")
	expectWords(t, p.text(glossBowl+".weigh tfoot"), "52 g colour", "104 g developer", "156 g")
	p.click(glossBowl + ".more") // the next 5 g: 55 g
	expectTexts(t, p, glossWeighed, "36.7 g", "18.3 g", "110 g")
	p.click(glossBowl + ".again .card")
	expectTexts(t, p, glossWeighed, glossWeights...)

	way(p, "left")
	p.eval("s => { const e = document.querySelector(s); e.value = '1'; e.dispatchEvent(new Event('input', {bubbles: true})) }", glossBowl+"[data-way=left] select")
	p.fill(glossBowl+"[data-way=left] input", "14")
	expectTexts(t, p, glossWeighed, "28 g", "14 g", "84 g")
	expectWords(t, p.text(glossSays), "14 g of 8V", "126 g")
}

func TestPouredTooMuch(t *testing.T) {
	p := openPage(t, built(t), glossPage)
	way(p, "over")
	field := glossBowl + "[data-way=over] input"
	p.fill(field, "24") // of 8N, a fifth too much: a fifth more of everything
	expectTexts(t, p, glossWeighed, "24 g", "12 g", "72 g")
	expectWords(t, p.text(glossSays), "Leave the 8N", "8V to 12 g", "6 vol to 72 g", "108 g")

	p.fill(field, "18")
	expectTexts(t, p, glossWeighed, glossWeights...)
	expectWords(t, p.text(glossSays), "not too much", "2 g")

	p.fill(field, "50") // the bowl would be 225 g
	expectWords(t, p.text(glossSays), "Start again", "90 g", "225 g")

	for _, nonsense := range []string{"0", "-3", "ten", "1e9", "20/0"} {
		p.fill(field, nonsense)
		expectWords(t, p.text(glossSays), "Write a weight in grams")
		expectTexts(t, p, glossWeighed, glossWeights...)
	}
	p.fill(field, "20,5") // a decimal comma is read
	expectWords(t, p.text(glossSays), "Leave the 8N")
}

// The text of a card is what a colleague gets in a message: all weights and the
// strength, and who has the last word.
func TestCopyCard(t *testing.T) {
	p := openPage(t, built(t), glossPage)
	p.eval(`() => {
		globalThis.copied = []
		Object.defineProperty(navigator, "clipboard", {value: {writeText: text => { copied.push(text); return Promise.resolve() }}})
		Object.defineProperty(globalThis, "isSecureContext", {value: true})
	}`)
	p.fill(glossBowl+"[data-way=colour] input", "60")
	p.click(glossBowl + "[data-do=copy]")
	p.waitText(glossBowl+"[data-do=copy]", "Copied")
	text := evalTo[string](p, "() => copied[0].replaceAll('\u00a0', ' ')")
	expectWords(t, text, "Gloss: 2 parts 8N + 1 part 8V", "8N: 40 g, running total 40 g", "8V: 20 g", "6 vol: 120 g", "180 g", "Strength: 1.2 %",
		"Local codes, licensed practice and the maker’s directions rule")
	p.waitText(glossBowl+"[data-do=copy]", "Copy the card")
}

// Where the browser lets no script write to its clipboard the button says so.
func TestCopyRefused(t *testing.T) {
	p := openPage(t, built(t), glossPage)
	p.eval(`() => {
		Object.defineProperty(navigator, "clipboard", {value: undefined})
		document.execCommand = () => false
	}`)
	p.click(glossBowl + "[data-do=copy]")
	p.waitText(glossBowl+"[data-do=copy]", "Could not copy")
}

func TestPrintCard(t *testing.T) {
	const rootBowl = "#bowl_root " // of a lesson with two bowls and a service in time
	p := openPage(t, built(t), "lessons/regrowth-demi.html")
	p.eval("() => { globalThis.print = () => {} }")
	p.click(rootBowl + "[data-do=card]")
	p.setPrint(true)
	if n := len(p.shown(".bowl")); n != 1 {
		t.Errorf("%d bowls are printed, want one", n)
	}
	for _, other := range []string{".lesson > .care", ".lesson .head", ".step h2", ".side", ".clock", ".columns > div > p", ".neighbours", ".bowl footer"} {
		if n := len(p.shown(other)); n != 0 {
			t.Errorf("%s is printed with a card", other)
		}
	}
	if n := len(p.shown(".foot p")); n == 0 {
		t.Error("a card is printed without who has the last word")
	}
	p.setPrint(false)
	p.eval(`() => dispatchEvent(new Event("afterprint"))`)
	if n := len(p.shown(".step")); n != p.count(".step") {
		t.Errorf("%d steps are shown after printing, want all", n)
	}
}

// A timer keeps true time through sleep and through a page that was closed.
func TestTimers(t *testing.T) {
	p := openPage(t, built(t), glossPage, withClock())
	start := glossBowl + "[data-do=timer]"
	p.click(start)
	p.waitText(dock+".left", "15:00")
	expectWords(t, p.text(dock), "Gloss", "from the last section", "kitchen timer")
	p.waitText(dock+".left", "14:5")

	p.sleep(10 * time.Minute)
	p.waitText(dock+".left", "4:5")
	p.click(dock + ".minute")
	p.waitText(dock+".left", "5:5")
	p.click(dock + ".hold")
	held := p.text(dock + ".left")
	p.sleep(time.Hour)
	expectTexts(t, p, dock+".left", held)
	p.click(dock + ".hold")

	p.click(start) // a second one beside it
	if n := p.count(dock + "li"); n != 2 {
		t.Fatalf("%d timers run, want 2", n)
	}
	p.sleep(16 * time.Minute)
	p.waitText(dock+".over .of", "Time is up")
	expectWords(t, p.text("title"), "Time is up")
	p.click(dock + "li:first-child .end")
	p.click(dock + "li .end")
	if n := p.count(dock + "li"); n != 0 {
		t.Errorf("%d timers are left, want none", n)
	}
}

func TestTimerOutlivesThePage(t *testing.T) {
	p := openPage(t, built(t), glossPage)
	p.click(glossBowl + "[data-do=timer]")
	p.waitText(dock+".left", "15:00")
	p.reload()
	p.waitText(dock+".left", "14:5")
	expectWords(t, p.text(dock+".of"), "Gloss", "from the last section")
	// A running timer stops at the second press only.
	p.click(dock + ".end")
	expectWords(t, p.text(dock+".end"), "Really stop?")
	p.click(dock + ".end")
	if n := p.count(dock + "li"); n != 0 {
		t.Errorf("%d timers are left, want none", n)
	}
}

func TestStepView(t *testing.T) {
	p := openPage(t, built(t), glossPage)
	p.click("[data-do=steps]")
	shown := func(want string) {
		t.Helper()
		p.waitText(".stepbar p", want)
		if n := len(p.shown(".step")); n != 1 {
			t.Errorf("%s: %d steps are shown, want one", want, n)
		}
	}
	shown("Step 1 of")
	p.press(kb.ArrowRight)
	shown("Step 2 of")
	p.click("[data-do=on]")
	shown("Step 3 of")
	p.press(kb.ArrowLeft)
	shown("Step 2 of")
	if focus := evalTo[string](p, "() => document.activeElement.tagName"); focus != "H2" {
		t.Errorf("the focus is on %s, want the heading of the step", focus)
	}
	p.press(kb.Escape)
	p.soonShown(".step", p.count(".step"))
	if n := len(p.shown(".stepbar")); n != 0 {
		t.Error("the bar of the step view is still there")
	}
}

// A finger that goes far enough to the side turns the page; one that scrolls does not.
func TestSwipe(t *testing.T) {
	p := openPage(t, built(t), glossPage, withWidth(390))
	swipe := func(x, y int) {
		t.Helper()
		p.eval(`(x, y) => {
			const at = (x, y) => new Touch({identifier: 1, target: document.body, clientX: x, clientY: y})
			document.body.dispatchEvent(new TouchEvent("touchstart", {touches: [at(200, 300)], changedTouches: [at(200, 300)], bubbles: true}))
			document.body.dispatchEvent(new TouchEvent("touchend", {touches: [], changedTouches: [at(200 + x, 300 + y)], bubbles: true}))
		}`, x, y)
	}
	swipe(-120, 0) // nothing to turn yet
	p.click("[data-do=steps]")
	p.waitText(".stepbar p", "Step 1 of")
	swipe(-120, 10)
	p.waitText(".stepbar p", "Step 2 of")
	swipe(-30, 0)
	swipe(-120, 200)
	swipe(0, -300)
	p.waitText(".stepbar p", "Step 2 of")
	swipe(120, -10)
	p.waitText(".stepbar p", "Step 1 of")
}

// soonShown waits until that many elements are shown.
func (p *page) soonShown(selector string, want int) {
	p.t.Helper()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		if len(p.shown(selector)) == want {
			return
		}
	}
	p.t.Errorf("%d of %s are shown, want %d", len(p.shown(selector)), selector, want)
}

func TestFind(t *testing.T) {
	p := openPage(t, built(t), "find.html")
	p.fill("#find_field", "8v")
	p.waitText(".found", "Mix the gloss")
	p.fill("#find_field", "parietal")
	p.waitText(".found", "parietal ridge")
	p.fill("#find_field", "xyzzy")
	p.waitText("[role=status]", "Nothing found")
	p.fill("#find_field", "gloss brassy")
	p.waitText(".found li:first-child a", "A gloss over brassy lengths")
	p.click(".found li:first-child a")
	p.waitText("h1", "A gloss over brassy lengths")
}
