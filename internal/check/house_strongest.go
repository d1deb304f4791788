package check

import "plait/internal/derive"

var houseStrongest = Rule{
	ID:    "house/strongest",
	Title: "no developer is stronger than the house allows",
	Why: "A salon may be stricter than law and maker, for its apprentices above all. It is never looser: the strictest of the " +
		"three holds.",
	Source: "the house rules of the course",
	Before: "colour: 30 g 6N\ndeveloper: 40 vol\nkind: permanent",
	After:  "colour: 30 g 6N\ndeveloper: 20 vol\nkind: permanent",
	Since:  "1.0",
	Formula: func(p *Pass, f *derive.Formula) {
		limit := p.Course.House.Strongest
		if !limit.Set() {
			return
		}
		for _, s := range strengths(f) {
			if limit.Value.Cmp(s.Value) < 0 && s.Value.Cmp(p.Course.Limits().Peroxide) <= 0 { // above it the law has spoken, by formula/ceiling
				d := p.Reportf(s.Span, "take a weaker developer, or change the house rule", "a developer of %s is above the house's %s", s.Span.Text(), limit.Span.Text())
				*d = d.WithNote(limit.Span, "the house rule")
			}
		}
	},
}
