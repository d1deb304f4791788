package browsertest

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"

	"plait/internal/answerfile"
	"plait/internal/paper"
	"plait/internal/question"
)

// tabTo presses Tab until an element that matches has the focus.
func (p *page) tabTo(selector string) {
	p.t.Helper()
	for range 300 {
		if evalTo[bool](p, "s => document.activeElement.matches(s)", selector) {
			return
		}
		p.press(kb.Tab)
	}
	p.t.Fatalf("Tab never reaches %s", selector)
}

// answerByKeys gives the right answer to what the paper asks, with the keyboard alone. The
// answer is read from the key that is printed for assessors.
func (p *page) answerByKeys(q *paper.Question, at paper.Asked) {
	p.t.Helper()
	f, key := q.Figures[at.Figures], q.Key(at.Figures)
	id := fmt.Sprintf("#question_%d_%d ", at.Question, at.Figures)
	choose := func(i, option int) {
		p.tabTo(id + fmt.Sprintf("li:nth-of-type(%d) select", i+1))
		p.press(strings.Repeat(kb.ArrowDown, option+1))
	}
	switch {
	case q.Kind == question.Order:
		for i, thing := range f.Shown {
			choose(i, slices.IndexFunc(key, func(line string) bool { return strings.HasSuffix(line, ". "+thing) }))
		}
	case q.Kind == question.Pairs:
		for i, left := range f.Shown {
			choose(i, slices.IndexFunc(f.Beside, func(right string) bool { return slices.Contains(key, left+" – "+right) }))
		}
	case f.Several():
		for i, option := range f.Shown {
			if slices.Contains(key, option) {
				p.tabTo(id + fmt.Sprintf("input[value='%d']", i))
				p.press(" ")
			}
		}
	case len(f.Shown) > 0:
		p.radio(id, slices.Index(f.Shown, key[0]))
	case q.Kind == question.Level:
		level, err := strconv.Atoi(f.Key.String())
		if err != nil {
			p.t.Fatal(err)
		}
		p.radio(id, level-1)
	default:
		p.tabTo(id + "input")
		p.press(f.Key.String())
	}
}

// radio chooses one of a group by the arrows, the first by the space bar.
func (p *page) radio(within string, n int) {
	p.t.Helper()
	p.tabTo(within + "input")
	p.press(" " + strings.Repeat(kb.ArrowDown, n))
}

// A paper is sat on a phone's width, over http, by the keyboard alone: every answer is
// right, the file is saved and is marked with all of them.
func TestSitPaperByKeys(t *testing.T) {
	p := openPage(t, served(t), paperPage, withWidth(360))
	p.eval(catchFiles)
	p.tabTo("#exam_name")
	p.press("Jun Park")
	p.press(kb.Tab)
	p.press("Tuesday" + kb.Enter)
	p.waitText(".exambar .learner", "Jun Park, Tuesday")
	of, book := paperOfDemo(t)
	drawn := of.Draw(of.Seed(answerfile.Learner{Name: "Jun Park", Class: "Tuesday"}))
	for _, at := range drawn {
		p.answerByKeys(of.Questions[at.Question], at)
	}
	expectWords(t, p.text(".exambar"), "12 of 12 answered")
	p.tabTo("[data-do=save]")
	p.press(kb.Enter)
	p.waitText(".said.live", "Saved as first-colours-tuesday-jun-park.json")
	file, _ := handedIn(t, p)
	s, err := book.Mark(file)
	if err != nil || file.Damaged || s.Right != len(drawn) || !s.Passed {
		t.Errorf("marked: %d of %d, %v, %+v", s.Right, len(drawn), err, s.Answers)
	}
}

// Every kind of question is answered over http and on a phone as it is from a folder.
func TestQuestionsServed(t *testing.T) {
	s := served(t)
	for _, q := range asked {
		t.Run(q.kind, func(t *testing.T) {
			p := openPage(t, s, q.page, withWidth(360))
			id := "#" + q.id
			p.waitFor("the script of questions", "() => document.querySelector('"+id+"').dataset.ready === 'yes'")
			if role := evalTo[string](p, "s => document.querySelector(s).getAttribute('role')", id+" .said"); role != "status" {
				t.Errorf("what is said has the role %q, and no reader of the screen hears it", role)
			}
			q.wrong(p, keys, id)
			keys.check(p, id)
			p.waitText(id+" .said", q.say)
			q.right(p, mouse, id)
			mouse.check(p, id)
			p.waitText(id+" .said", "Right.")
		})
	}
}
