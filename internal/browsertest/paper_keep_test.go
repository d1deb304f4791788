package browsertest

import (
	"testing"

	"github.com/chromedp/chromedp/kb"
)

// begun has a paper answered on this device and not handed in, and comes back to its page.
func begun(t *testing.T) *page {
	t.Helper()
	p := sitting(t)
	p.eval(answerAll)
	p.waitText(".exambar .done", "12 of 12 answered")
	p.goTo(paperPage)
	return p
}

// Who writes the same name goes on with what is there.
func TestPaperGoesOnByName(t *testing.T) {
	p := begun(t)
	p.fill("#exam_name", "Zoë Quill")
	p.press(kb.Tab)
	p.press("Tuesday")
	p.press(kb.Enter)
	p.waitText(".exambar .learner", "Zoë Quill, Tuesday")
	expectWords(t, p.text(".exambar"), "12 of 12 answered")
}

// Another learner is told whose answers would be lost, and draws after a second press.
func TestPaperOfAnotherIsNotLostUnasked(t *testing.T) {
	p := begun(t)
	p.fill("#exam_name", "Ada Thorn")
	p.press(kb.Enter)
	p.waitText(".who .said", "Zoë Quill has answered here and not handed in.")
	p.press(kb.Enter)
	p.waitText(".exambar .learner", "Ada Thorn")
	expectWords(t, p.text(".exambar"), "0 of 12 answered")
}

// A file that is no answer file leaves what is on the device alone.
func TestPaperRefusesAFileWhole(t *testing.T) {
	p := begun(t)
	p.eval(`() => {
		const name = Object.keys(localStorage).find((k) => k.includes('/paper/'))
		const content = {...JSON.parse(localStorage.getItem(name)), learner: {class: '', name: 'Nobody'}, answers: [null]}
		const list = new DataTransfer(), input = document.querySelector('#exam_file')
		list.items.add(new File([JSON.stringify(content)], 'odd.json'))
		input.files = list.files
		input.dispatchEvent(new Event('change'))
	}`)
	p.waitText(".who .said", "This is not an answer file.")
	p.eval("() => document.querySelector('[data-do=resume]').click()")
	p.waitText(".exambar .learner", "Zoë Quill, Tuesday")
	expectWords(t, p.text(".exambar"), "12 of 12 answered")
}
