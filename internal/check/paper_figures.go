package check

import (
	"plait/internal/derive"
	"plait/internal/lesson"
)

var paperFigures = Rule{
	ID:    "paper/figures",
	Title: "what papers ask is not practised",
	Why: "The pages tell the answers of what learners practise with. Figures that are kept for papers but stand in the question or " +
		"among its practice variants would come with their answer.",
	Source: "arithmetic",
	Of:     Question,
	Before: "ask: At 1:2, how much developer for 40 g of colour?\ngiven: {colour: 40 g, ratio: 1:2}\nfind: developer\nvary: {colour: 30 g to 60 g by 15 g}\npaper: {colour: 45 g to 75 g by 15 g}",
	After:  "ask: At 1:2, how much developer for 40 g of colour?\ngiven: {colour: 40 g, ratio: 1:2}\nfind: developer\nvary: {colour: 30 g to 60 g by 15 g}\npaper: {colour: 35 g to 65 g by 15 g}",
	Since:  "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		for _, q := range p.Derived.Questions(l) {
			if q.OK && len(q.Paper.Vary) > 0 {
				judgeKept(p, q)
			}
		}
	},
}

func judgeKept(p *Pass, q *derive.Question) {
	practised := map[string]bool{q.Ask: true}
	for _, v := range q.Practice() {
		practised[v.Ask] = true
	}
	kept := q.ForPapers()
	if len(kept) == 0 {
		p.Reportf(q.Paper.Span, "write figures that the question itself does not give", "nothing is kept for papers: these are the question's own figures")
		return
	}
	for _, v := range q.Paper.Vary {
		typed, _ := q.Given.Entry(v.Key.Value)
		for _, t := range v.Values {
			if len(q.Paper.Vary) == 1 && t.Value == typed.Value {
				p.Reportf(t.Span, "leave them to practice, and keep others for papers", "papers would ask with the figures of the question itself: %q", q.Ask)
				return
			}
		}
	}
	for _, s := range kept {
		if practised[s.Ask] {
			p.Reportf(q.Paper.Vary[0].Key.Span, "take values that vary does not have", "papers would ask what is practised: %q", s.Ask)
			return
		}
		if givesAway(&s) {
			p.Reportf(q.Paper.Vary[0].Key.Span, "leave that value out", "the answer, %s, is given: %q", s.Key, s.Ask)
			return
		}
	}
}
