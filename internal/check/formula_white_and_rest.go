package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/hair"
	"plait/internal/shade"
)

// apartFrom is how many levels white hair and the rest lie apart when a bowl is worth a
// remark; the figure is the project's own.
var apartFrom = exact.Int(2)

// whiteFrom is the share of white hair from which it shows as more than single strands:
// that from which natural shades are usually mixed in (common practice).
var whiteFrom = exact.Of(1, 4)

var formulaWhiteAndRest = Rule{
	ID:    "formula/white-and-rest",
	Title: "white hair and the rest come out alike",
	Why: "White hair has nothing to lighten, so it takes the shade's own level. The natural hair beside it comes out half-way between itself and " +
		"the shade. Where the shade is much lighter than the hair, one head shows two levels.",
	Source:   "trade educators' averaging rule: half white, the rest at 3 and a shade of 7 make 7 and 5; the threshold of two levels is plait's own",
	Severity: diag.Note,
	Before:   "kind: permanent\ncolour: 30 g 7N\ndeveloper: 20 vol\nhair: 3 natural, 50 % white",
	After:    "kind: permanent\ncolour: 30 g 4N\ndeveloper: 20 vol\nhair: 3 natural, 50 % white",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		h := f.Hair.Value
		if f.Kind.Value != shade.Permanent || !onNatural(f) || !f.Bowl.HasLevel || h.White.Less(whiteFrom) {
			return
		}
		white, rest := hair.OnWhite(h.Level, f.Bowl.Level.High)
		if exact.Int(int64(white)).Sub(rest.Mean).Less(apartFrom) {
			return
		}
		d := p.Reportf(shades(f), "take a darker shade, or plan for two levels",
			"on the white hair these shades read %d, on the rest about %s (common practice)", white, derive.Reading(rest))
		*d = d.WithNote(f.Hair.Span, "the hair")
	},
}
