package check

import "plait/internal/derive"

var rangeTime = Rule{
	ID:    "range/time",
	Title: "the time lies within the maker's span",
	Why: "Too short leaves dye that has not developed; too long hurts hair and scalp and gains nothing. The maker has timed it, " +
		"and plait holds the card to that.",
	Source: "the range file of the course",
	Before: "colour: 30 g 8N\ndeveloper: 6 vol\nkind: demi\ntime: 45 min",
	After:  "colour: 30 g 8N\ndeveloper: 6 vol\nkind: demi\ntime: 15 min",
	Since:  "1.0",
	ByKind: true,
	Formula: func(p *Pass, f *derive.Formula) {
		own := f.Terms.Time
		if !f.Time.Set() || own.Max == 0 {
			return
		}
		if !own.Contains(held(f.Time.Value)) {
			p.Reportf(f.Time.Span, "write "+own.String()+", or a time within it", "%s %s %s, not %s", makers(f, "gives", "give"), f.Kind.Value, own, f.Time.Value)
		}
	},
}
