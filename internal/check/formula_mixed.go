package check

import "plait/internal/derive"

var formulaMixed = Rule{
	ID:    "formula/mixed",
	Title: "the total agrees with what goes into the bowl",
	Why: "The total is the quickest check at the scale: when everything is in, the display shows it. A wrong total makes a " +
		"right bowl look wrong.",
	Source: "arithmetic",
	Before: "colour: 20 g 8N + 10 g 8V\ndeveloper: 6 vol\nratio: 1:2\nkind: demi\nmixed: 80 g",
	After:  "colour: 20 g 8N + 10 g 8V\ndeveloper: 6 vol\nratio: 1:2\nkind: demi\nmixed: 90 g",
	Since:  "1.0",
	Formula: func(p *Pass, f *derive.Formula) {
		if f.Mixed.Set() {
			p.claim(f, "everything in the bowl", f.Mixed, f.Bowl.Mixed)
		}
	},
}
