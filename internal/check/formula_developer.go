package check

import "plait/internal/derive"

var formulaDeveloperWeight = Rule{
	ID:    "formula/developer-weight",
	Title: "the weight of the developer agrees with the ratio",
	Why: "Once the colour is weighed, the ratio says how much developer goes in. Less makes the mixture stiff and the " +
		"colour uneven; more thins the dye and raises the peroxide in the bowl.",
	Source: "arithmetic",
	Before: "colour: 40 g 6N\ndeveloper: 55 g of 20 vol\nratio: 1:1.5\nkind: permanent",
	After:  "colour: 40 g 6N\ndeveloper: 60 g of 20 vol\nratio: 1:1.5\nkind: permanent",
	Since:  "1.0",
	Formula: func(p *Pass, f *derive.Formula) {
		if !f.Developer.Weight.Set() {
			return
		}
		d := p.claim(f, "the developer", f.Developer.Weight, f.Bowl.Developer)
		if d != nil && f.Ratio.Set() {
			*d = d.WithNote(f.Ratio.Span, "by this ratio, for %s of colour", f.Bowl.Colour)
		}
	},
}
