package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/hair"
)

var formulaNeedlessStrength = Rule{
	ID:    "formula/needless-strength",
	Title: "a bowl that only deposits is no stronger than deposit needs",
	Why: "Above 3 % on the hair peroxide does more than develop the dye. With a shade no lighter than the hair there is nothing for it to " +
		"do but wear the hair; softening white hair is the one reason.",
	Source:   "common practice, no source; the strengths on the hair of medium blondes and darker in a hair-science textbook are 3 %",
	Severity: diag.Warning,
	Before:   "kind: permanent\ncolour: 30 g 6N\ndeveloper: 20 vol\nratio: 1:1.5\nhair: 6 coloured",
	After:    "kind: permanent\ncolour: 30 g 6N\ndeveloper: 10 vol\nratio: 1:1.5\nhair: 6 coloured",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		if !f.Hair.Set() || !f.Bowl.HasLevel || !deposits(f.Kind.Value) || !f.Hair.Value.White.IsZero() {
			return
		}
		if liftsHair(f.Kind.Value) && onNatural(f) && f.Target.Set() {
			return // formula/over-strength says more
		}
		if !hair.Needless(f.Hair.Value.Level, f.Bowl.Level.High, f.Bowl.Strength) {
			return
		}
		p.Reportf(f.Developer.Span, "take a weaker developer",
			"%s on the hair is more than a shade no lighter than the hair has use for (common practice)", f.Bowl.Strength)
	},
}
