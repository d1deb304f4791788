package check

import (
	"strings"

	"plait/internal/derive"
	"plait/internal/lesson"
)

var questionOneTrue = Rule{
	ID:     "question/one-true",
	Title:  "a list whose answer is worked out holds exactly one true answer",
	Why:    "With none of them true nobody can be right; with two, half the class is marked wrong.",
	Source: "arithmetic",
	Of:     Question,
	Before: "choose: {of: developer, from: [30 g, 60 g, 90 g]}",
	After:  "choose: {of: developer, from: [30 g, 45 g, 60 g]}",
	Since:  "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		for _, q := range p.Derived.Questions(l) {
			if !q.OK || q.Choose.Of.Value == "" {
				continue
			}
			switch right := rightOptions(&q.Solution); len(right) {
			case 0:
				p.Reportf(q.Choose.Of.Span, "the answer is "+q.Key.String()+"; put it into the list", "nothing in this list is true")
			case 1:
				judgeVariantLists(p, q)
			default:
				p.Reportf(q.Choose.Of.Span, "keep one of them, or make near smaller", "%s are all true", strings.Join(right, " and "))
			}
		}
	},
}

// judgeVariantLists holds the lists of the variants to the same.
func judgeVariantLists(p *Pass, q *derive.Question) {
	for i := range q.Variants {
		v := &q.Variants[i]
		if len(rightOptions(&v.Solution)) != 1 {
			p.Reportf(q.Choose.Of.Span, "ask with find instead, so that every variant has its own answer", "the list has no single true answer where the question is %q: %s", v.Ask, v.Key)
			return
		}
	}
}

func rightOptions(s *derive.Solution) []string {
	var out []string
	for _, o := range s.Options {
		if o.Right {
			out = append(out, o.Text)
		}
	}
	return out
}
