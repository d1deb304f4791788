package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/hair"
	"plait/internal/shade"
)

var formulaLiftsColoured = Rule{
	ID:    "formula/lifts-coloured",
	Title: "colour is not asked to lift colour",
	Why: "Permanent colour lifts natural pigment. On hair that was coloured before it lifts the new growth and hardly the rest, and the " +
		"head ends in two levels. Old colour is taken out with a remover or a lightener, in a service of its own.",
	Source:   "common practice, no source",
	Severity: diag.Warning,
	Before:   "kind: permanent\ncolour: 30 g 8N\ndeveloper: 20 vol\nhair: 6 coloured\ntarget: 7",
	After:    "kind: permanent\ncolour: 30 g 8N\ndeveloper: 20 vol\nhair: 6 natural\ntarget: 7",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		wanted, ok := liftWanted(f)
		if !ok || wanted == 0 || f.Kind.Value != shade.Permanent || onNatural(f) {
			return
		}
		state, colour := f.Hair.Value.State, "colour does not lift colour"
		if state == hair.Lightened {
			colour = "colour lifts lightened hair no further"
		}
		p.Reportf(f.Target.Span, "lower the target, or plan the lightening as a service of its own: test a strand, ask, or refer",
			"from a %s %d to %d is a lift of %s, and %s (common practice)", state, f.Hair.Value.Level, f.Target.Value.Level, levels(wanted), colour)
	},
}
