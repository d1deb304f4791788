package check

import (
	"plait/internal/derive"
	"plait/internal/mix"
)

var formulaAmount = Rule{
	ID:    "formula/amount-weight",
	Title: "the amount agrees with the grams of the shades",
	Why: "Where the shades are given in grams their sum is the weight of the colour. An amount beside them says the same " +
		"again, and has to come to the same.",
	Source: "arithmetic",
	Before: "colour: 20 g 8N + 10 g 8V\ndeveloper: 6 vol\nkind: demi\namount: 40 g colour",
	After:  "colour: 20 g 8N + 10 g 8V\ndeveloper: 6 vol\nkind: demi\namount: 30 g colour",
	Since:  "1.0",
	Formula: func(p *Pass, f *derive.Formula) {
		if !f.Amount.Mass.Set() {
			return
		}
		if f.Amount.Of == mix.OfMixed {
			p.claim(f, "everything in the bowl", f.Amount.Mass, f.Bowl.Mixed)
			return
		}
		p.claim(f, "the colour", f.Amount.Mass, f.Bowl.Colour)
	},
}
