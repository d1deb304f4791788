package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
)

var formulaBlended = Rule{
	ID:    "formula/blended",
	Title: "a service takes a developer from the shelf, not a blend",
	Why: "Blending two developers, or watering one down, comes out right on paper. In the bottle it also thins what keeps the peroxide " +
		"stable and the cream thick, and many makers advise against it. As an exercise it is fine; for a client take the strength that is sold.",
	Source:   "mass balance for the arithmetic; that makers advise against it is common practice, no source",
	Severity: diag.Note,
	Before:   "developer: 20 vol from 30 vol and 10 vol",
	After:    "developer: 20 vol",
	Since:    "1.0",
	Formula: func(p *Pass, f *derive.Formula) {
		if len(f.Developer.From) > 0 {
			p.Reportf(f.Developer.Span, "take a strength that is sold, or accept it as an exercise",
				"a blended developer is against many makers' directions (common practice)")
		}
	},
}
