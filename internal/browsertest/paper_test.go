package browsertest

import (
	"context"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp/kb"

	"plait/internal/answerfile"
	"plait/internal/build"
	"plait/internal/paper"
	"plait/layouts"
)

const paperPage = "papers/first-colours.html"

// catchFiles keeps what the page lets the browser save, as a text.
const catchFiles = `() => {
	globalThis.saved = []
	URL.createObjectURL = blob => { saved.push(blob); return '#' }
	HTMLAnchorElement.prototype.click = () => {}
}`

// answerAll answers what is asked, all alike: 1 into fields, the first of each choice, the
// places of an order from the last, and the first for each pair.
const answerAll = `() => {
	const all = (s, e) => [...e.querySelectorAll(s)]
	for (const q of all('.asked:not([hidden]) > :not([hidden])', document)) {
		const field = q.querySelector('input[type=text]'), choice = q.querySelector('input:not([type=text])')
		if (field) field.value = '1 g'
		else if (choice) choice.click()
		else all('select', q).forEach((s, i, list) => { s.value = q.dataset.kind === 'order' ? String(list.length - 1 - i) : '0' })
		q.dispatchEvent(new Event('input', {bubbles: true}))
	}
}`

// sitting opens the paper and has it drawn for a learner, with the keyboard alone.
func sitting(t *testing.T, settings ...setting) *page {
	p := openPage(t, built(t), paperPage, settings...)
	p.eval(catchFiles)
	p.fill("#exam_name", "  Zoë   Quill ")
	p.press(kb.Tab)
	p.press("Tuesday")
	p.press(kb.Enter)
	p.waitText(".exambar .learner", "Zoë Quill, Tuesday")
	return p
}

// handedIn is the last file that the page saved, as the program reads it.
func handedIn(t *testing.T, p *page) (*answerfile.File, string) {
	t.Helper()
	text := evalTo[string](p, "() => saved.at(-1).text()")
	file, err := answerfile.Read("zoe.json", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return file, text
}

func paperOfDemo(t *testing.T) (*paper.Paper, *paper.Book) {
	t.Helper()
	result, err := build.Read(context.Background(), build.Options{Files: os.DirFS(repository()), Layouts: layouts.FS})
	if err != nil {
		t.Fatal(err)
	}
	papers := paper.All(result.Course, result.Derived)
	return papers[0], paper.NewBook(result.Course, papers)
}

// A paper that is sat on the page is drawn as the program draws it, and its file is whole.
func TestSitPaper(t *testing.T) {
	p := sitting(t)
	of, book := paperOfDemo(t)
	drawn := of.Draw(of.Seed(answerfile.Learner{Name: "Zoë Quill", Class: "Tuesday"}))
	if n := len(p.shown(".asked .question")); n != len(drawn) {
		t.Errorf("%d questions are asked, want %d", n, len(drawn))
	}
	bar := p.text(".exambar")
	if !regexp.MustCompile(`40:00|39:[0-5]\d`).MatchString(bar) {
		t.Errorf("the clock of 40 minutes is not shown: %q", bar)
	}
	expectWords(t, bar, "left", "0 of 12 answered")
	p.eval(answerAll)
	expectWords(t, p.text(".exambar"), "12 of 12 answered")
	p.fill(".signed [data-field=assessor]", "M. Bell")
	p.eval("() => { document.querySelector('.signed [type=date]').value = '2026-05-12' }")
	p.click(".signed .ticks input")
	p.click(".signed .verdict input[value=shown]")
	p.click("[data-do=save]")
	p.waitText(".said.live", "Saved as first-colours-tuesday-zoe-quill.json")

	file, _ := handedIn(t, p)
	if file.Damaged || file.Learner.Name != "Zoë Quill" || file.Text != of.Text || len(file.SignOff) != 1 || file.SignOff[0].Assessor != "M. Bell" {
		t.Errorf("handed in: %+v", file)
	}
	for i, asked := range drawn {
		if a := file.Answers[i]; a.Question != of.Questions[asked.Question].ID() || a.Figures != asked.Figures || a.Given == "" {
			t.Errorf("answer %d is %+v, asked was %s with figures %d", i, a, of.Questions[asked.Question].ID(), asked.Figures)
		}
	}
	s, err := book.Mark(file)
	if err != nil || len(s.Doubts) > 0 || s.Of != 12 {
		t.Errorf("marked: %+v, %v", s, err)
	}
}

// open gives a file to the page as a learner does.
func open(p *page, text string) {
	p.t.Helper()
	p.eval(`text => {
		const field = document.querySelector('#exam_file'), files = new DataTransfer()
		files.items.add(new File([text], 'a.json', {type: 'application/json'}))
		field.files = files.files
		field.dispatchEvent(new Event('change'))
	}`, text)
}

// A saved file opens again with all that was answered; one that was changed says so, and
// what is no answer file opens nothing.
func TestOpenAnswerFile(t *testing.T) {
	p := sitting(t)
	p.eval(answerAll)
	p.click("[data-do=save]")
	first, text := handedIn(t, p)
	for _, c := range []struct{ file, says string }{
		{"{}", "not an answer file"},
		{"{\"seed\":", "not an answer file"},
		{strings.Replace(text, `"first-colours"`, `"second-colours"`, 1), "another paper"},
		{strings.Replace(text, first.Text, "0000000000000000", 1), "have changed"},
	} {
		p.reload()
		open(p, c.file)
		p.waitText(".who .said", c.says)
	}
	p.eval(catchFiles)
	open(p, text)
	p.waitText(".said.live", "Opened.")
	p.click("[data-do=save]")
	p.waitText(".said.live", "Saved as")
	again, _ := handedIn(t, p)
	if again.Damaged || len(again.Answers) != len(first.Answers) || again.Answers[3] != first.Answers[3] || !again.Started.Equal(first.Started) {
		t.Errorf("opened again: %+v, was %+v", again, first)
	}
	p.reload()
	open(p, strings.Replace(text, `"1 g"`, `"2 g"`, 1))
	p.waitText(".said.live", "damaged or changed")
}

// The clock tells what is left, and the device keeps a sitting through a reload.
func TestPaperGoesOn(t *testing.T) {
	p := sitting(t, withClock())
	p.eval(answerAll)
	p.sleep(36 * time.Minute)
	p.waitText(".said.live", "Five minutes are left")
	p.sleep(5 * time.Minute)
	p.waitText(".exambar .left", "over")
	p.waitText(".said.live", "time is up")
	p.reload()
	p.waitText(".resume", "Zoë Quill began here")
	p.click("[data-do=resume]")
	expectWords(t, p.text(".exambar"), "12 of 12 answered", "left")
}

// While it is sat the page keeps nobody out, prints as a sheet to write on, and fits a
// phone.
func TestSittingIsAccessible(t *testing.T) {
	axe := readAxe(t)
	p := sitting(t)
	p.eval("() => document.querySelectorAll('details').forEach(d => { d.open = true })")
	expectNone(t, "light", barriers(p, axe))
	p.setDark(true)
	expectNone(t, "dark", barriers(p, axe))
	p.setDark(false)
	p.setWidth(320)
	expectNone(t, "320 px wide", overhang(p))
	p.setWidth(1000)
	p.setPrint(true)
	if n := len(p.shown(".asked .question")); n != 12 {
		t.Errorf("%d questions are printed", n)
	}
	if n := len(p.shown(".exambar, .start, .said")); n != 0 {
		t.Errorf("%d parts of the screen are printed", n)
	}
	expectWords(t, p.text(".name-lines"), "Zoë Quill", "Tuesday")
}

// Without scripts the page shows every question it can ask, and says so.
func TestPaperWithoutScripts(t *testing.T) {
	p := openPage(t, built(t), paperPage, withoutScripts())
	of, _ := paperOfDemo(t)
	ways := 0
	for _, q := range of.Questions {
		ways += len(q.Figures)
	}
	if n := p.count(".asked .question"); n != ways {
		t.Errorf("%d questions, want %d", n, ways)
	}
}
