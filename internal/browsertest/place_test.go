package browsertest

import (
	"strings"
	"testing"
)

// tapSection taps the middle of a section of a question's drawing, by mouse or finger.
func (p *page) tapSection(within, name string) {
	p.t.Helper()
	p.eval(`(within, name) => {
		const shape = document.querySelector(within + ' .hd [data-section="' + name + '"] path')
		shape.scrollIntoView({block: 'center'})
		const box = shape.getBoundingClientRect()
		let hit
		for (let i = 1; i < 20 && !hit; i++) for (let j = 1; j < 20 && !hit; j++) {
			const e = document.elementFromPoint(box.left + box.width * i / 20, box.top + box.height * j / 20)
			if (e && e.closest('[data-section="' + name + '"]') && e.closest(within)) hit = e
		}
		hit.dispatchEvent(new MouseEvent('click', {bubbles: true}))
	}`, within, name)
}

// chosenPlace is what the drawing shows as chosen, and what the list does.
func chosenPlace(p *page, within string) [2]string {
	p.t.Helper()
	return evalTo[[2]string](p, `within => {
		const on = [...document.querySelectorAll(within + ' .hd .on')].map(g => g.dataset.section)
		const label = document.querySelector(within + ' .pick label:has(:checked)')
		return [[...new Set(on)].join(), label ? label.textContent.trim() : '']
	}`, within)
}

func expectPlace(t *testing.T, p *page, within, want string) {
	t.Helper()
	if got := chosenPlace(p, within); got != [2]string{want, want} {
		t.Errorf("the drawing and the list show %q, want %q", got, want)
	}
}

// A place is tapped among the cards to revise and on a paper as it is in a lesson, and
// the answer file holds what was tapped.
func TestTapPlace(t *testing.T) {
	p := openPage(t, built(t), "revise.html", withWidth(360))
	const card = "#question_soft-graduation_weight-under"
	for _, said := range p.texts(card + " desc") {
		if strings.Contains(said, "nape") || strings.Contains(said, "cm²") {
			t.Errorf("the drawing tells what is asked: %q", said)
		}
	}
	p.tapSection(card, "back right")
	expectPlace(t, p, card, "back right")
	p.tapSection(card, "nape left")
	expectPlace(t, p, card, "nape left")
	p.click(card + " .acts .main")
	p.waitText(card+" .said", "Right.")
}

func TestTapPlaceOnPaper(t *testing.T) {
	p := sitting(t)
	const place = ".asked:not([hidden]) .question:not([hidden]):has(.hd)"
	section := evalTo[string](p, "s => document.querySelector(s + ' .hd [data-section]').dataset.section", place)
	p.tapSection(place, section)
	expectPlace(t, p, place, section)
	expectWords(t, p.text(".exambar"), "1 of 12 answered")
	p.click("[data-do=save]")
	p.waitText(".said.live", "Saved as")
	file, text := handedIn(t, p)
	if len(file.Answers) != 1 || file.Answers[0].Given == "" {
		t.Errorf("handed in: %+v", file.Answers)
	}
	p.reload()
	open(p, text)
	p.waitText(".said.live", "Opened.")
	expectPlace(t, p, place, section)
}
