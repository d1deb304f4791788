package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/shade"
)

var formulaAsh = Rule{
	ID:    "formula/ash",
	Title: "ash is kept from white and from very porous hair",
	Why: "White hair has no warmth for an ash to cancel, and very porous hair takes more of it than was meant. Where nothing lies against it " +
		"a blue or green base shows as itself, flat or greenish.",
	Source:   "common practice, no source; from a quarter of white on, which is where natural shades begin to be added",
	Severity: diag.Warning,
	Before:   "kind: permanent\ncolour: 20 g 6N + 10 g 6B\ndeveloper: 20 vol\nratio: 1:1.5\nhair: 6 natural, 50 % white",
	After:    "kind: permanent\ncolour: 30 g 6N\ndeveloper: 20 vol\nratio: 1:1.5\nhair: 6 natural, 50 % white",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		white := f.Hair.Set() && !f.Hair.Value.White.Less(exact.Of(1, 4))
		porous := f.Lesson != nil && f.Lesson.Hair.Porous
		if !white && !porous || f.Range == nil {
			return
		}
		on := "very porous hair"
		if white {
			on = "hair that is " + percent(f.Hair.Value.White) + " white"
		}
		for _, b := range basesOf(f) {
			if b.hue == shade.Blue || b.hue == shade.BlueGreen || b.hue == shade.Green {
				p.Reportf(f.Colour[b.item].Span, "take less of it beside a natural or warm shade, and test a strand",
					"%s has a %s base, which can show flat or greenish on %s (common practice)", f.Colour[b.item].Code.Value, b.hue, on)
				return
			}
		}
	},
}
