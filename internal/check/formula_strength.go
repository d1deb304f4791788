package check

import (
	"plait/internal/derive"
	"plait/internal/exact"
	"plait/internal/peroxide"
)

var formulaStrength = Rule{
	ID:    "formula/strength",
	Title: "the strength in the bowl agrees with developer and ratio",
	Why: "Colour, powder and additives hold no peroxide of their own, so they thin the developer: 6 % at 1:1 is 3 % in " +
		"the bowl and on the hair, at 1:2 it is 4 %. A bottle's strength written down as the bowl's is the usual slip.",
	Source: "mass balance; on-head strengths of 3, 4.5, 6 and 8 % in a hair-science textbook (Practical Modern Hair Science, title from memory, ch. 4) are " +
		"20 vol at 1:1, 30 vol at 1:1, 40 vol at 1:1 and 40 vol at 1:2",
	Before: "colour: 30 g 6N\ndeveloper: 20 vol\nratio: 1:1.5\nkind: permanent\nstrength: 6 %",
	After:  "colour: 30 g 6N\ndeveloper: 20 vol\nratio: 1:1.5\nkind: permanent\nstrength: 3.6 %",
	Since:  "1.0",
	Formula: func(p *Pass, f *derive.Formula) {
		if !f.Strength.Set() || SameStrength(f.Strength.Value, f.Bowl.Strength) {
			return
		}
		shown := f.Bowl.Strength.String()
		d := p.Reportf(f.Strength.Span, "write "+shown+", or change developer or ratio",
			"the strength in the bowl comes to %s, not %s", shown, f.Strength.Span.Text())
		if f.Strength.Value.Cmp(f.Bowl.Bottle) == 0 {
			*d = d.WithNote(f.Developer.Span, "%s is the strength in the bottle, before colour thins it", f.Strength.Span.Text())
		}
		*d = d.WithEdit(f.Strength.Span, shown)
	},
}

// SameStrength reports whether a typed strength is the true one as it is written
// to one or two decimal places.
func SameStrength(typed, truth peroxide.Strength) bool {
	for _, step := range []exact.Number{exact.Of(1, 100), exact.Of(1, 10)} {
		if typed.Percent().Equal(truth.Percent().Round(step)) {
			return true
		}
	}
	return typed.Cmp(truth) == 0
}
