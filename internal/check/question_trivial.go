package check

import (
	"plait/internal/answer"
	"plait/internal/derive"
	"plait/internal/lesson"
)

var questionTrivial = Rule{
	ID:    "question/trivial",
	Title: "no variant of a question gives its answer away or repeats another",
	Why: "A variant whose answer stands among what is given can be answered without reckoning, and one that repeats another is no " +
		"practice.",
	Source: "arithmetic",
	Of:     Question,
	Before: "ask: At 1:2, how much developer for 40 g of colour?\ngiven: {colour: 40 g, ratio: 1:2}\nfind: developer\nvary: {ratio: [\"1:1\", \"1:1.5\"]}",
	After:  "ask: At 1:2, how much developer for 40 g of colour?\ngiven: {colour: 40 g, ratio: 1:2}\nfind: developer\nvary: {ratio: [\"1:1.5\", \"1:3\"]}",
	Since:  "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		for _, q := range p.Derived.Questions(l) {
			if q.OK && len(q.Vary) > 0 {
				judgeVariants(p, q)
			}
		}
	},
}

func judgeVariants(p *Pass, q *derive.Question) {
	at := q.Vary[0].Key.Span
	seen := map[string]bool{q.Ask: true}
	for _, v := range q.Variants {
		switch {
		case seen[v.Ask]:
			p.Reportf(at, "write each value once", "two variants ask the same: %q", v.Ask)
			return
		case givesAway(&v.Solution):
			p.Reportf(at, "leave that value out", "the answer of a variant, %s, is given: %q", v.Key, v.Ask)
			return
		}
		seen[v.Ask] = true
	}
}

// givesAway reports whether the answer of a question is nothing, or one of the figures
// that it gives in the same unit.
func givesAway(s *derive.Solution) bool {
	if len(s.Options) > 0 || s.Sought == "" {
		return false
	}
	if s.Key.Value.Number.IsZero() {
		return true
	}
	for _, e := range s.Given.Entries {
		unit, v, err := answer.Guess(e.Text.Value)
		if err == nil && unit == s.Key.Unit && s.Key.Agrees(v) {
			return true
		}
	}
	return false
}
