package check

import (
	"plait/internal/derive"
)

var formulaGrams = Rule{
	ID:    "formula/grams",
	Title: "grams in brackets agree with the parts",
	Why: "Parts and grams are two ways of saying one thing. Where a card gives both and they disagree, one apprentice " +
		"follows the parts and another the grams, and two heads get two colours. plait shares the amount out by the parts and " +
		"holds the grams against it.",
	Source: "arithmetic",
	Before: "colour: 2 parts 8N (20 g) + 1 part 8V (15 g)\ndeveloper: 6 vol\nkind: demi\namount: 30 g colour",
	After:  "colour: 2 parts 8N (20 g) + 1 part 8V (10 g)\ndeveloper: 6 vol\nkind: demi\namount: 30 g colour",
	Since:  "1.0",
	Formula: func(p *Pass, f *derive.Formula) {
		for i, it := range f.Colour {
			if it.Claim.Set() {
				p.claim(f, it.Code.Value, it.Claim, f.Bowl.Parts[i].Exact)
			}
		}
	},
}
