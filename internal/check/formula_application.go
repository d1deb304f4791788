package check

import (
	"plait/internal/derive"
	"plait/internal/formula"
	"plait/internal/measure"
)

var formulaApplication = Rule{
	ID:    "formula/application",
	Title: "the application is done before the time is over",
	Why: "A time from the first touch runs while the brush is still at work. Where the application takes longer, the bowl would " +
		"have to come off before the last section is covered.",
	Source: "arithmetic",
	Before: "colour: 30 g PW\ndeveloper: 20 vol\nkind: lightener\napply: 50 min\ntime: up to 45 min from first touch",
	After:  "colour: 30 g PW\ndeveloper: 20 vol\nkind: lightener\napply: 20 min\ntime: up to 45 min from first touch",
	Since:  "1.0",
	Formula: func(p *Pass, f *derive.Formula) {
		if !f.Apply.Set() || !f.Time.Set() || f.Time.Zero != formula.FirstTouch || f.Apply.Value <= f.Time.Longest() {
			return
		}
		d := p.Reportf(f.Apply.Span, "work with two bowls, or take a smaller part of the head at a time",
			"the application takes %s, and the bowl must be off %s after the first touch",
			measure.Minutes(f.Apply.Value), measure.Minutes(f.Time.Longest()))
		*d = d.WithNote(f.Time.Span, "the time on the hair")
	},
}
