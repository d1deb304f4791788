package check

import (
	"strings"

	"plait/internal/derive"
	"plait/internal/lesson"
)

var questionTrueSlip = Rule{
	ID:    "question/true-slip",
	Title: "a slip is not the answer",
	Why: "What is said to a slip would be said to the right answer. A named slip can come out right by chance: at 1:1 nobody can " +
		"forget the ratio.",
	Source: "arithmetic",
	Of:     Question,
	Before: "find: developer\nslips: {45 g: You forgot the ratio.}",
	After:  "find: developer\nslips: {30 g: That is 1:1.}",
	Since:  "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		for _, q := range p.Derived.Questions(l) {
			if !q.OK {
				continue
			}
			for _, s := range q.Slips {
				if isTrue(&q.Solution, s) {
					p.Reportf(s.Span, "take it away, or change the figures of the question", "the slip %q comes to the right answer", s.Span.Text())
				}
			}
		}
	},
}

// isTrue reports whether a slip is a right answer.
func isTrue(sol *derive.Solution, s derive.Slip) bool {
	if len(sol.Options) == 0 {
		return sol.Key.Agrees(s.Value)
	}
	for _, o := range sol.Options {
		if o.Right && strings.EqualFold(o.Text, s.Text) {
			return true
		}
	}
	return false
}
