package check

import (
	"slices"

	"plait/internal/paper"
	"plait/internal/source"
)

var paperMust = Rule{
	ID:    "paper/must",
	Title: "what must be right is asked of everybody",
	Why: "An outcome under must stands for what can hurt somebody: who gets it wrong does not pass, whatever the rest is worth. That is " +
		"only fair, and only safe, where the draw always asks it.",
	Source: "what the paper itself says must be right",
	Of:     Paper,
	Before: "must: [gloss/shows-safety]\ndraw: [{questions: 1, lesson: gloss}]",
	After:  "must: [gloss/shows-safety]\ndraw: [{questions: 1, outcome: gloss/shows-safety}]",
	Since:  "1.0",
	Course: func(p *Pass) {
		p.eachPaper(func(of *paper.Paper) {
			for _, t := range of.Must {
				if !alwaysAsked(of, t) {
					p.Reportf(t.Span, "add a draw of its own, as in {questions: 1, outcome: "+t.Value+"}", "the paper can be drawn without a question on %q", t.Value)
				}
			}
		})
	},
}

// alwaysAsked reports whether some draw has nothing but questions on an outcome.
func alwaysAsked(of *paper.Paper, outcome source.Text) bool {
	return slices.ContainsFunc(of.Draws, func(d paper.Draw) bool {
		return len(d.Pool) > 0 && !slices.ContainsFunc(d.Pool, func(i int) bool {
			q := of.Questions[i]
			return q.Lesson.Name+"/"+q.Tests.Value != outcome.Value
		})
	})
}
