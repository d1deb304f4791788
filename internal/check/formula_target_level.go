package check

import (
	"fmt"

	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/hair"
	"plait/internal/shade"
)

var formulaTargetLevel = Rule{
	ID:    "formula/target-level",
	Title: "the shades read the level that reaches the target",
	Why: "On natural hair a permanent colour lands half-way between the hair and the shade. To come out at the target T from " +
		"a natural level N the shade has to be 2T − N: from 4 to 7 it takes a 10. Without lift the shade is the target itself. Only " +
		"permanent colour lifts, only natural hair is lifted by colour, and no further than four levels.",
	Source: "a self-training guide for formulating colour (shade = target + (target − natural)); trade educators' averaging rule, " +
		"which is the same equation; common practice",
	Severity: diag.Warning,
	Before:   "colour: 30 g 7N\ndeveloper: 20 vol\nkind: permanent\nhair: 5 natural\ntarget: 7",
	After:    "colour: 30 g 9N\ndeveloper: 20 vol\nkind: permanent\nhair: 5 natural\ntarget: 7",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		if !f.Target.Set() || !f.Hair.Set() || !f.Bowl.HasLevel || !aimsAtTarget(f.Kind.Value) {
			return
		}
		natural, target := f.Hair.Value.Level, f.Target.Value.Level
		if target <= natural || !liftsHair(f.Kind.Value) {
			p.expectLevel(f, target, fmt.Sprintf("a target of %d without lift takes a shade of level %d (common practice)", target, target))
			return
		}
		if f.Kind.Value == shade.HighLift || hair.Judge(f.Hair.Value.State, natural, target, lightest(f)) != hair.Within {
			return // formula/lift and formula/lifts-coloured say why
		}
		needed := hair.ShadeFor(natural, target)
		p.expectLevel(f, needed, fmt.Sprintf("from a natural %d to %d takes a shade of level %d (2 × %d − %d, common practice)", natural, target, needed, target, natural))
	},
}

// aimsAtTarget reports whether a kind of colour is to leave the hair at the target
// itself. A lightener leaves no dye, and a filler puts back what the target will
// stand on, mostly a level above it (common practice).
func aimsAtTarget(kind shade.Kind) bool { return kind != shade.Lightener && kind != shade.Filler }

// expectLevel warns where the shades do not read the needed level; one level off is
// within what hair and a maker's own numbers vary by only where it is a tie.
func (p *Pass) expectLevel(f *derive.Formula, needed shade.Level, because string) {
	r := f.Bowl.Level
	if r.Low == needed || r.High == needed {
		return
	}
	d := p.Reportf(shades(f), "change the shades or the target, or accept it with a reason",
		"these shades read %s (average %s), but %s", derive.Reading(r), r.Mean.Round(exact.Of(1, 100)).Decimal(2), because)
	*d = d.WithNote(f.Target.Span, "the target").WithNote(f.Hair.Span, "the hair")
}
