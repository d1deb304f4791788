package check

import (
	"plait/internal/derive"
	"plait/internal/exact"
)

var formulaReads = Rule{
	ID:    "formula/reads",
	Title: "the level agrees with the average of the shades",
	Why: "The average level of a mixture, weighted by its parts, is what the trade reckons with. It is a teaching figure: " +
		"dark dye outweighs light dye, so hair tends to read darker. Clears and mixers add weight but no level.",
	Source: "arithmetic; that mixtures lean darker is common practice, no source",
	Before: "colour: 2 parts 5N + 1 part 7N\ndeveloper: 6 vol\nkind: demi\namount: 30 g colour\nlevel: 7",
	After:  "colour: 2 parts 5N + 1 part 7N\ndeveloper: 6 vol\nkind: demi\namount: 30 g colour\nlevel: 6",
	Since:  "1.0",
	Formula: func(p *Pass, f *derive.Formula) {
		if !f.Level.Set() {
			return
		}
		if !f.Bowl.HasLevel {
			p.Reportf(f.Level.Span, "delete it", "no shade in this bowl has a level")
			return
		}
		r := f.Bowl.Level
		typed := f.Level.Value
		whole, isWhole := typed.Int64()
		switch {
		case isWhole && (whole == int64(r.Low) || whole == int64(r.High)):
			if r.Tie() {
				p.Notef(f.Level.Span, "say that it lies between the two; hair usually reads the darker (common practice)",
					"the shades average %s, half-way between %d and %d", r.Mean.Decimal(2), r.Low, r.High)
			}
			return
		case typed.Round(exact.Of(1, 100)).Equal(r.Mean.Round(exact.Of(1, 100))), typed.Equal(r.Mean.Round(exact.Of(1, 10))):
			return
		}
		p.Reportf(f.Level.Span, "write "+derive.Reading(r)+", or change the shades",
			"the shades average %s, which reads %s, not %s", r.Mean.Decimal(2), derive.Reading(r), typed)
	},
}
