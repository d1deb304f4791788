package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/exact"
)

// driftLimit is the share by which the weighed ratio may differ from the one
// wanted: 5 %.
var driftLimit = exact.Of(5, 100)

var formulaDrift = Rule{
	ID:    "formula/drift",
	Title: "the bowl is large enough for the scale",
	Why: "A scale shows whole steps. In a small bowl rounding to them moves the ratio: 5 g at 1:1.5 on a scale of whole grams " +
		"is 2 and 3. From 5 % on the mixture is no longer the one on the card.",
	Source:   "arithmetic; the limit of 5 % is common practice, no source",
	Severity: diag.Warning,
	Before:   "colour: 0.3 g 6N\ndeveloper: 20 vol\nratio: 1:1.5\nkind: permanent",
	After:    "colour: 30 g 6N\ndeveloper: 20 vol\nratio: 1:1.5\nkind: permanent",
	Since:    "1.0",
	Formula: func(p *Pass, f *derive.Formula) {
		if !driftLimit.Less(f.Bowl.Drift().Abs()) {
			return
		}
		p.Reportf(sizeAt(f), "mix more, or weigh on a finer scale",
			"on a scale of %s this bowl weighs %s, not %s", p.Course.Scale, f.Bowl.Weighed, f.Bowl.Ratio)
	},
}
