package check

import "plait/internal/derive"

var rangeRatio = Rule{
	ID:    "range/ratio",
	Title: "the ratio is the maker's own",
	Why: "The ratio is part of the product: it is printed on the pack because the law asks for it, and it sets how much dye and " +
		"how much peroxide reach the hair.",
	Source: "the range file of the course; Regulation (EC) No 1223/2009, Annex III asks for the mixing ratio on the label",
	Before: "colour: 30 g 8N\ndeveloper: 6 vol\nratio: 1:1\nkind: demi",
	After:  "colour: 30 g 8N\ndeveloper: 6 vol\nratio: 1:2\nkind: demi",
	Since:  "1.0",
	ByKind: true,
	Formula: func(p *Pass, f *derive.Formula) {
		own := f.Terms.Ratio
		if own.IsZero() || f.Bowl.Ratio.IsZero() || own.Equal(f.Bowl.Ratio) {
			return
		}
		at, whence := f.Ratio.Span, ""
		if !f.Ratio.Set() {
			at, whence = f.Developer.Span, ", by the weights,"
		}
		d := p.Reportf(at, "mix "+own.String(), "%s %s at %s, not%s at %s", makers(f, "mixes", "mix"), f.Kind.Value, own, whence, f.Bowl.Ratio)
		if f.Ratio.Set() {
			*d = d.WithEdit(f.Ratio.Span, own.String())
		}
	},
}
