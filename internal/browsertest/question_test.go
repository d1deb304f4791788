package browsertest

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp/kb"
)

// hand is a way to answer: by mouse or by keys alone.
type hand struct {
	pick  func(p *page, id, option string) // of a list
	place func(p *page, id, section string)
	raise func(p *page, button string) // one thing of an order by one place
	check func(p *page, id string)
}

var mouse = hand{
	(*page).tick,
	func(p *page, id, section string) { p.click(id + " .places [data-section='" + section + "']") },
	(*page).click,
	func(p *page, id string) { p.click(id + " .acts .main") },
}

var keys = hand{
	(*page).pressOption,
	(*page).pressOption,
	func(p *page, button string) { p.focus(button); p.press(" ") },
	func(p *page, id string) { p.focus(id + " .acts .main"); p.press(kb.Enter) },
}

// pressOption chooses an option by key.
func (p *page) pressOption(id, option string) {
	p.t.Helper()
	p.focusOption(id, option)
	p.press(" ")
}

// asked is one question of the demo of each kind with a wrong answer and the right one,
// which was worked out by hand.
var asked = []struct {
	kind, page, id string
	wrong          func(p *page, by hand, id string)
	say            string // what the wrong answer is told
	right          func(p *page, by hand, id string)
}{
	{"number", glossPage, "question_weigh",
		func(p *page, _ hand, id string) { p.fill(id+" .line input", "52 g") }, "That is the answer at 1:1",
		func(p *page, _ hand, id string) { p.fill(id+" .line input", "104,0 grams") }},
	{"choose one", "lessons/strengths-and-ratios.html", "question_thinned",
		func(p *page, by hand, id string) { by.pick(p, id, "6 %") }, "the strength in the bottle",
		func(p *page, by hand, id string) { by.pick(p, id, "3.6 %") }},
	{"choose several", glossPage, "question_early",
		func(p *page, by hand, id string) { by.pick(p, id, "The gloss in the bowl has turned dark") }, "Only the hair tells",
		func(p *page, by hand, id string) {
			by.pick(p, id, "The gloss in the bowl has turned dark") // takes it back
			for _, option := range []string{"The strand shows a hint of yellow and no more", "The scalp burns or itches", "The wiped strand leans to lilac"} {
				by.pick(p, id, option)
			}
		}},
	{"order", "lessons/white-third.html", "question_begin",
		func(*page, hand, string) {}, "Not yet",
		func(p *page, by hand, id string) {
			p.sort(by, id, "Hairline and temples", "Top and crown", "Back", "Nape")
		}},
	{"pairs", "lessons/reading-levels.html", "question_facing",
		func(p *page, _ hand, id string) {
			p.pair(id, "red", "blue")
			p.pair(id, "orange", "blue")
			p.pair(id, "yellow", "violet")
		}, "One pair is wrong",
		func(p *page, _ hand, id string) { p.pair(id, "red", "green") }},
	{"level", "lessons/reading-levels.html", "question_mixture",
		func(p *page, by hand, id string) { by.pick(p, id, "5") }, "the first shade alone",
		func(p *page, by hand, id string) { by.pick(p, id, "6") }},
	{"place", "lessons/soft-graduation.html", "question_weight-under",
		func(p *page, by hand, id string) {
			by.place(p, id, "nape right")
			expectPlace(p.t, p, id, "nape right")
		}, "Not yet",
		func(p *page, by hand, id string) { by.place(p, id, "nape left"); expectPlace(p.t, p, id, "nape left") }},
}

// TestQuestions answers a question of every kind wrong and right, by mouse and by keys, on
// a wide window and on a phone, and has every state read by the accessibility checker.
func TestQuestions(t *testing.T) {
	s := built(t)
	axe := readAxe(t)
	for _, q := range asked {
		for _, at := range []struct {
			width int
			w, r  hand // of the wrong and of the right answer
		}{{1280, mouse, keys}, {320, keys, mouse}} {
			t.Run(fmt.Sprintf("%s at %d", q.kind, at.width), func(t *testing.T) {
				p := openPage(t, s, q.page, withWidth(at.width))
				id := "#" + q.id
				p.waitFor("the script of questions", "() => document.querySelector('"+id+"').dataset.ready === 'yes'")
				q.wrong(p, at.w, id)
				at.w.check(p, id)
				p.waitText(id+" .said", q.say)
				expectNoFault(t, barriers(p, axe))
				q.right(p, at.r, id)
				at.r.check(p, id)
				p.waitText(id+" .said", "Right.")
				expectNoFault(t, barriers(p, axe))
				p.keepShot(q.id, at.width)
			})
		}
	}
}

// keepShot writes a picture where PLAIT_SHOTS asks for some.
func (p *page) keepShot(title string, width int) {
	p.t.Helper()
	if dir := os.Getenv("PLAIT_SHOTS"); dir != "" {
		p.shot(filepath.Join(dir, fmt.Sprintf("%s-%d.png", title, width)), width)
	}
}

func expectNoFault(t *testing.T, faults []string) {
	t.Helper()
	for _, fault := range faults {
		t.Error(fault)
	}
}

// focus puts the focus on the first element that matches.
func (p *page) focus(selector string) {
	p.t.Helper()
	p.eval("s => document.querySelector(s).focus()", selector)
}

// optionOf finds the field of an option by its words.
const optionOf = `(id, text) => [...document.querySelectorAll(id + ' label')].find(l => l.textContent.trim().replace(/\s+/g, ' ') === text)`

// tick presses the mouse on an option.
func (p *page) tick(id, text string) {
	p.t.Helper()
	p.eval("(id, text) => ("+optionOf+")(id, text).setAttribute('data-test', 'tick')", id, text)
	p.click(id + " [data-test=tick]")
	p.eval("id => document.querySelector(id + ' [data-test=tick]').removeAttribute('data-test')", id)
}

func (p *page) focusOption(id, text string) {
	p.t.Helper()
	p.eval("(id, text) => ("+optionOf+")(id, text).querySelector('input').focus()", id, text)
}

// sort moves things up by their buttons until they stand in order.
func (p *page) sort(by hand, id string, order ...string) {
	p.t.Helper()
	for place, text := range order {
		for range order {
			at := evalTo[int](p, "(id, text) => [...document.querySelectorAll(id + ' .sort li')].findIndex(l => l.firstElementChild.textContent === text)", id, text)
			if at <= place {
				break
			}
			by.raise(p, fmt.Sprintf("%s .sort li:nth-of-type(%d) [data-do=up]", id, at+1))
		}
	}
}

// pair chooses a partner by the keys that find it in the list.
func (p *page) pair(id, left, right string) {
	p.t.Helper()
	p.eval("(id, left) => [...document.querySelectorAll(id + ' label')].find(l => l.textContent === left).nextElementSibling.focus()", id, left)
	p.press(right)
}

// TestAnotherLikeIt asks once more with other figures and answers those: 36 g at 1:2
// is 72 g.
func TestAnotherLikeIt(t *testing.T) {
	p := openPage(t, built(t), glossPage)
	const id = "#question_weigh"
	p.waitFor("the script of questions", "() => document.querySelector('"+id+"').dataset.ready === 'yes'")
	first := p.text(id + " h3")
	p.click(id + " [data-do=another]")
	ask := p.text(id + " h3")
	if ask == first {
		t.Fatalf("asked the same again: %q", ask)
	}
	var colour int
	if _, err := fmt.Sscanf(ask, "A gloss is mixed 1:2. You need %d g", &colour); err != nil {
		t.Fatalf("%q: %v", ask, err)
	}
	p.fill(id+" .line input", fmt.Sprint(2*colour))
	p.press(kb.Enter)
	p.waitText(id+" .said", "Right.")
	p.reload()
	p.waitText(id+" .tag", "Question")
	p.waitFor("the answer is remembered", "() => document.querySelector('"+id+"').classList.contains('known')")
}

// Cards of words, formulas and levels are kept as those of questions are.
func TestTurnedCardsAreKept(t *testing.T) {
	p := openPage(t, built(t), "revise.html", withClock())
	for _, kind := range []string{"words", "formulas", "levels"} {
		card := ".card[data-kind=" + kind + "] "
		p.click(card + "summary")
		p.click(card + "[data-do=forgot]")
	}
	p.reload()
	p.sleep(2 * 24 * 3600 * 1e9)
	p.eval("() => dispatchEvent(new HashChangeEvent('hashchange'))")
	p.waitText(".tally", "3 cards due")
}

// TestRevise answers a card in a lesson, finds it on the revise page, which the link's
// fragment tells of it in a browser that keeps a store for each page, takes the progress
// away as a file, forgets it and reads it in again.
func TestRevise(t *testing.T) {
	s := built(t)
	axe := readAxe(t)
	p := openPage(t, s, glossPage, withClock())
	const id = "#question_weigh"
	p.waitFor("the script of questions", "() => document.querySelector('"+id+"').dataset.ready === 'yes'")
	p.fill(id+" .line input", "104")
	p.press(kb.Enter)
	p.waitText(id+" .said", "Right.")
	p.eval("() => { const l = document.querySelector('a[href$=\"revise.html\"]'); l.dispatchEvent(new PointerEvent('pointerdown', {bubbles: true})); sessionStorage.went = l.hash; localStorage.clear() }")
	link := evalTo[string](p, "() => sessionStorage.went")
	p.goTo("revise.html" + link)
	p.waitText(".tally", "0 cards due")
	expectNoFault(t, barriers(p, axe))
	file := evalTo[string](p, "() => { for (let i = 0; i < localStorage.length; i++) { const k = localStorage.key(i); if (k.endsWith('/progress')) return localStorage.getItem(k) } return '' }")
	if file == "" {
		t.Fatal("the link carried nothing")
	}
	p.sleep(3 * 24 * 3600 * 1e9) // a right answer is looked at again after two days
	p.eval("() => dispatchEvent(new HashChangeEvent('hashchange'))")
	p.waitText(".tally", "1 card due")
	p.click("[data-do=wipe]")
	p.click("[data-do=wipe]")
	p.waitText(".kept", "is gone")
	p.waitText(".tally", "0 cards due")
	p.eval(`(text) => {
		const {reviews, signed} = JSON.parse(text), input = document.querySelector('input[type=file]'), list = new DataTransfer()
		const whole = JSON.stringify({plait: 'progress', version: 1, course: document.documentElement.dataset.course, reviews, signed})
		list.items.add(new File([whole], 'progress.json')); input.files = list.files
		input.dispatchEvent(new Event('change', {bubbles: true}))
	}`, file)
	p.waitText(".kept", "1 answer read in")
	p.waitText(".tally", "1 card due")
	p.click("[data-do=begin]")
	p.waitText(".card.now h3", "How much 6 vol")
	expectNoFault(t, barriers(p, axe))
	p.keepShot("revise", 1280)
	p.goTo("index.html")
	p.sleep(3 * 24 * 3600 * 1e9)
	p.eval("() => dispatchEvent(new HashChangeEvent('hashchange'))")
	p.waitText(".due p", "1 card is due")
}
