package check

import (
	"slices"

	"plait/internal/paper"
)

var paperFew = Rule{
	ID:    "paper/few",
	Title: "a paper finds as many questions as it draws",
	Why: "Each learner is asked other questions, drawn by lot from those that lessons keep for papers. A question is asked once, so " +
		"one draw can leave too few for another.",
	Source: "arithmetic",
	Of:     Paper,
	Before: "draw: [{questions: 2, lesson: gloss}, {questions: 1, lesson: gloss}]",
	After:  "draw: [{questions: 1, lesson: gloss}, {questions: 1, lesson: gloss}]",
	Since:  "1.0",
	Course: func(p *Pass) {
		p.eachPaper(func(of *paper.Paper) {
			for i, d := range of.Draws {
				left := len(d.Pool) - mostTaken(of.Draws[:i], d.Pool)
				if left < d.Questions.Value {
					p.Reportf(d.Questions.Span,
						"ask for fewer, or keep more for papers: paper: yes in a question block, or figures of their own as in paper: {colour: 40 g to 80 g by 20 g}",
						"the draw asks for %d, and lessons keep %d for it", d.Questions.Value, max(left, 0))
				}
			}
		})
	},
}

// mostTaken returns how many of a pool earlier draws can take.
func mostTaken(draws []paper.Draw, pool []int) int {
	most := 0
	for _, d := range draws {
		shared := 0
		for _, q := range d.Pool {
			if slices.Contains(pool, q) {
				shared++
			}
		}
		most += min(shared, d.Questions.Value)
	}
	return most
}

// eachPaper calls a function with every paper that could be read.
func (p *Pass) eachPaper(each func(*paper.Paper)) {
	for _, written := range p.Course.Papers {
		if !written.Partial && !p.brokenQuestions() {
			each(paper.Make(p.Course, p.Derived, written))
		}
	}
}

// brokenQuestions reports whether questions that are kept for papers have errors of their own:
// what they are worth to a paper is not known.
func (p *Pass) brokenQuestions() bool {
	for _, l := range p.Course.Lessons {
		for _, q := range p.Derived.Questions(l) {
			if !q.OK && q.Paper.Span.Valid() {
				return true
			}
		}
	}
	return false
}
