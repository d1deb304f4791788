package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/measure"
	"plait/internal/shade"
	"plait/internal/timing"
)

var formulaClock = Rule{
	ID:    "formula/clock",
	Title: "a bowl says how long it stays, and from when that counts",
	Why: "A card without a time leaves it to whoever holds the brush, and a lightener without one has no end. From the last section or from " +
		"the first touch are two times that lie the whole application apart, so a card names which it means. A lightener counts from the " +
		"first touch unless it says otherwise.",
	Source:   "common practice, no source",
	Severity: diag.Warning,
	Before:   "kind: permanent\ncolour: 30 g 6N\ndeveloper: 20 vol\nratio: 1:1.5\ntime: 35 min",
	After:    "kind: permanent\ncolour: 30 g 6N\ndeveloper: 20 vol\nratio: 1:1.5\ntime: 35 min from last section",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		lightener := f.Kind.Value == shade.Lightener
		switch _, timed := timing.Usual(f.Kind.Value); {
		case f.Lesson == nil: // a bowl to be weighed, on no head yet
		case f.Time.Set():
			if !f.Time.ZeroStated && !lightener {
				p.Reportf(f.Time.Span, "write from last section, which the page assumes, or from first touch",
					"%s from when? the first touch and the last section lie the whole application apart", f.Time.Value)
			}
		case lightener:
			p.Reportf(f.Kind.Span, timeHelp(f, "up to ", " from first touch"),
				"nothing says when this lightener must be off (common practice)")
		case timed:
			p.Notef(f.Kind.Span, timeHelp(f, "", " from last section"),
				"nothing says how long this bowl stays on the hair")
		}
	},
}

// timeHelp says what to write for a time: what the maker allows, where that is known.
func timeHelp(f *derive.Formula, before, after string) string {
	if f.Terms.Time.Max == 0 {
		return "write the maker's time, as in time: " + before + "30 min" + after
	}
	allowed := f.Terms.Time.String()
	if before != "" {
		allowed = before + measure.Minutes(f.Terms.Time.Max)
	}
	return makers(f, "allows", "allow") + " " + f.Terms.Time.String() + ": write time: " + allowed + after
}
