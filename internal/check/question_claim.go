package check

import (
	"plait/internal/answer"
	"plait/internal/derive"
	"plait/internal/lesson"
	"plait/internal/question"
)

var questionClaim = Rule{
	ID:    "question/claim",
	Title: "an answer that is typed beside find is the one that comes out",
	Why: "The answer is worked out from the bowl. One that is typed as well is checked: a learner who is marked wrong for being " +
		"right does not come back.",
	Source: "arithmetic",
	Of:     Question,
	Before: "find: developer\nanswer: 60 g",
	After:  "find: developer\nanswer: 45 g",
	Since:  "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		for _, q := range p.Derived.Questions(l) {
			if q.OK && q.Kind == question.Find && q.Answer.Value != "" {
				judgeClaim(p, q)
			}
		}
	},
}

func judgeClaim(p *Pass, q *derive.Question) {
	claimed, err := answer.Parse(q.Answer.Value, q.Key.Unit)
	switch {
	case err != nil:
		p.Reportf(q.Answer.Span, "the answer is "+q.Key.String()+"; write that, or leave it out", "%q is no answer to this question: %v", q.Answer.Value, err)
	case !q.Key.Agrees(claimed):
		d := p.Reportf(q.Answer.Span, "write "+q.Key.String()+", or leave it out: plait works it out",
			"the answer is %s, not %s", q.Key, q.Answer.Value)
		*d = d.WithEdit(q.Answer.Span, q.Key.String())
	}
}
