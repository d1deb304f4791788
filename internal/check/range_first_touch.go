package check

import (
	"plait/internal/derive"
	"plait/internal/formula"
	"plait/internal/measure"
	"plait/internal/shade"
)

var rangeFirstTouch = Rule{
	ID:    "range/first-touch",
	Title: "lightener is off within the maker's time from the first touch",
	Why: "A maker's longest time for lightener counts from the first touch. A card that counts from the last section adds the " +
		"whole application to it for the hair that was covered first, and that hair is where it breaks.",
	Source: "the range file of the course; that lightener counts from the first touch is common practice, no source",
	Before: "colour: 30 g PW\ndeveloper: 20 vol\nkind: lightener\napply: 20 min\ntime: up to 45 min from last section",
	After:  "colour: 30 g PW\ndeveloper: 20 vol\nkind: lightener\napply: 20 min\ntime: up to 45 min from first touch",
	Since:  "1.0",
	ByKind: true,
	Formula: func(p *Pass, f *derive.Formula) {
		longest := f.Terms.Time.Max
		if f.Kind.Value != shade.Lightener || longest == 0 || !f.Time.Set() || !f.Apply.Set() || f.Time.Zero != formula.LastSection {
			return
		}
		first := f.Apply.Value + f.Time.Longest()
		if first <= longest {
			return
		}
		d := p.Reportf(f.Time.Span, "count from the first touch, as in up to "+measure.Minutes(longest)+" from first touch",
			"the hair covered first would have lightener on it for %s, and %s %s", measure.Minutes(first), makers(f, "allows", "allow"), measure.Minutes(longest))
		*d = d.WithNote(f.Apply.Span, "the application comes on top")
	},
}
