package check

import "plait/internal/derive"

var houseLongest = Rule{
	ID:    "house/longest",
	Title: "nothing stays on longer than the house allows",
	Why: "A salon may set a time after which everything comes off and is looked at anew, whatever the maker's span. It is never longer than " +
		"the maker's.",
	Source: "the house rules of the course",
	Before: "kind: high-lift\ncolour: 30 g 10N\ndeveloper: 30 vol\ntime: 55 min from last section",
	After:  "kind: high-lift\ncolour: 30 g 10N\ndeveloper: 30 vol\ntime: 45 min from last section",
	Since:  "1.0",
	Formula: func(p *Pass, f *derive.Formula) {
		limit := p.Course.House.Longest
		if !limit.Set() || !f.Time.Set() || f.Time.Longest() <= limit.Value {
			return
		}
		d := p.Reportf(f.Time.Span, "keep to the house rule, or change it", "%s is longer than the house's %s", f.Time.Value, limit.Span.Text())
		*d = d.WithNote(limit.Span, "the house rule")
	},
}
