package browsertest

import (
	"testing"

	"github.com/chromedp/chromedp/kb"
)

const (
	headsPage = "lessons/white-third.html"
	headsRow  = `.legend tr[data-section="nape"]`
	headsPart = `.hd g[data-section="nape"]`
)

// A section that is pressed shows itself in every view and in the legend, with the bowl
// that goes on it; pressed again it goes back.
func TestSectionsAnswer(t *testing.T) {
	s := built(t)
	p := openPage(t, s, headsPage)
	expectCount(t, p, ".heads .on, .lit", 0)
	p.eval(`selector => document.querySelector(selector + " .t").dispatchEvent(new MouseEvent("click", {bubbles: true}))`, headsPart)
	expectChosen(t, p)
	p.eval(`selector => document.querySelector(selector).focus()`, headsRow+" button")
	p.press(kb.Enter)
	expectCount(t, p, ".heads .on, .lit, .legend [aria-pressed=true]", 0)
	p.press(kb.Enter)
	expectChosen(t, p)
}

func expectChosen(t *testing.T, p *page) {
	t.Helper()
	expectCount(t, p, headsRow+".on", 1)
	expectCount(t, p, headsPart+":not(.on)", 0)
	expectCount(t, p, headsRow+` [aria-pressed="true"]`, 1)
	expectCount(t, p, ".bowl.lit", 1)
	expectCount(t, p, ".step.lit", 1)
}

func expectCount(t *testing.T, p *page, selector string, want int) {
	t.Helper()
	if got := p.count(selector); got != want {
		t.Errorf("%d of %s, want %d", got, selector, want)
	}
}

// A bowl points at all sections that it goes on.
func TestBowlShowsItsSections(t *testing.T) {
	p := openPage(t, built(t), headsPage)
	p.click("#bowl_cover footer button:first-child")
	expectCount(t, p, ".legend tr.on", p.count(`.legend tr:has([data-bowl="bowl_cover"])`))
	if p.count(".legend tr.on") < 2 {
		t.Error("the bowl shows fewer than two sections")
	}
}

// Without scripts the legend says all of it, and nothing looks as if it could be
// pressed.
func TestHeadsWithoutScripts(t *testing.T) {
	p := openPage(t, built(t), headsPage, withoutScripts())
	expectWords(t, oneLine(p.text(".heads")), "nape", "88", "14.6", "603")
	expectCount(t, p, ".heads button", 0)
}
