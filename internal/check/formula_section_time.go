package check

import (
	"plait/internal/diag"
	"plait/internal/lesson"
	"plait/internal/measure"
)

var formulaSectionTime = Rule{
	ID:    "formula/section-time",
	Title: "every section has the maker's time by itself",
	Why: "While the last section is painted the first is working already. Where the application is longer than the maker's span is wide, no " +
		"rinse is right for both: the first section is over its time before the last has had its own. Most makers count from the last section and " +
		"allow for that; where one says otherwise, a second brush or a smaller part of the head is the way.",
	Source:   "arithmetic; that most makers count from the last section is common practice, no source",
	Severity: diag.Note,
	Of:       Lesson,
	Before:   bySection("{nape: 9 min, crown: 10 min, front: 8 min}"),
	After:    bySection("{nape: 4 min, crown: 6 min, front: 5 min}"),
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		t := p.Derived.Timeline(l)
		if t == nil {
			return
		}
		for _, r := range t.Rows {
			if r.Even.Span.IsZero() || r.Even.OK {
				continue
			}
			first, last := r.Sections[0], r.Sections[len(r.Sections)-1]
			least := r.Even.Span.Min
			d := p.Reportf(r.Formula.Apply.Span, "ask what the maker counts from; else work with two brushes, or on a smaller part of the head at a time",
				"when %s has had %s, %s has had %s, and %s gives %s", last.Name, measure.Minutes(least), first.Name, measure.Minutes(least+r.Applied.Max-r.Applied.Min), r.Formula.Range.Name, r.Even.Span)
			*d = d.WithNote(r.Formula.Time.Span, "the time on the hair")
		}
	},
}
