package browsertest

import (
	"testing"

	cdpage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp/kb"
)

// withStore opens the page where its store fails: a full one, or a private window's.
func withStore(script string) setting {
	return func(p *page) {
		send(p, cdpage.AddScriptToEvaluateOnNewDocument, cdpage.AddScriptToEvaluateOnNewDocumentParams{Source: script})
	}
}

// Where nothing can be kept every page says so, and goes on working.
func TestNothingIsKept(t *testing.T) {
	for name, script := range map[string]string{
		"full":    "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError') }",
		"private": "Object.defineProperty(window, 'localStorage', {get() { throw new DOMException('denied', 'SecurityError') }})",
	} {
		t.Run(name, func(t *testing.T) {
			p := openPage(t, built(t), glossPage, withStore(script))
			const id = "#question_weigh"
			p.waitFor("the script of questions", "() => document.querySelector('"+id+"').dataset.ready === 'yes'")
			p.fill(id+" .line input", "104")
			p.press(kb.Enter)
			p.waitText(id+" .said", "Right.")
			p.waitText(id+" .said", "keeps nothing")
			p.goTo("revise.html")
			p.waitText(".kept", "keeps nothing")
			p.goTo(paperPage)
			p.fill("#exam_name", "Ada Thorn")
			p.press(kb.Enter)
			p.waitText(".said.live", "keeps nothing")
			expectWords(t, p.text(".exambar"), "0 of 12 answered")
		})
	}
}
