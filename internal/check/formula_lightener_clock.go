package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/formula"
	"plait/internal/shade"
)

var formulaLightenerClock = Rule{
	ID:    "formula/lightener-clock",
	Title: "the time of a lightener counts from the first touch",
	Why: "Lightener works from the moment it touches hair, and its time is a limit and no target. Counted from the end of application the " +
		"first section has it longer by all the time the application took.",
	Source:   "common practice, no source",
	Severity: diag.Warning,
	Before:   "kind: lightener\ncolour: 30 g PW\ndeveloper: 20 vol\nratio: 1:2\ntime: up to 45 min from last section",
	After:    "kind: lightener\ncolour: 30 g PW\ndeveloper: 20 vol\nratio: 1:2\ntime: up to 45 min from first touch",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		if f.Apply.Set() && f.Terms.Time.Max > 0 {
			return // range/first-touch knows how long it comes to
		}
		if f.Kind.Value == shade.Lightener && f.Time.Set() && f.Time.Zero == formula.LastSection {
			p.Reportf(f.Time.Span, "write from first touch", "the time of a lightener counts from the first touch, not from the last section (common practice)")
		}
	},
}
