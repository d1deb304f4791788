package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/hair"
	"plait/internal/shade"
)

var formulaNaturalShare = Rule{
	ID:    "formula/natural-share",
	Title: "there is enough of the natural series for the share of white hair",
	Why: "White hair has no pigment of its own, so a fashion shade on it shows nothing but the fashion: gold turns brassy, copper orange. " +
		"Natural shades bring what is missing. Under a quarter of white none is needed; from there a third of the colour, from a half one " +
		"half, from three quarters two thirds or more.",
	Source:   "a trade article takes half; the steps are common practice, no source",
	Severity: diag.Warning,
	Before:   "kind: permanent\ncolour: 5 g 6N + 40 g 6G\ndeveloper: 20 vol\nhair: 6 natural, 30 % white\ntarget: 6",
	After:    "kind: permanent\ncolour: 15 g 6N + 30 g 6G\ndeveloper: 20 vol\nhair: 6 natural, 30 % white\ntarget: 6",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		if f.Kind.Value != shade.Permanent || !f.Hair.Set() || f.Range == nil || f.Hair.Value.White.IsZero() {
			return
		}
		least, _ := hair.NaturalShare(f.Hair.Value.White)
		natural := naturalShare(f)
		if !natural.Less(least) {
			return
		}
		d := p.Reportf(shades(f), "take more of a natural shade of the same level",
			"%s of this colour is of the natural series; for %s white it is usually %s (common practice)",
			percent(natural), percent(f.Hair.Value.White), fraction(least))
		*d = d.WithNote(f.Hair.Span, "the hair")
	},
}

// naturalShare returns how much of the colour has a level and no tone but a natural
// one.
func naturalShare(f *derive.Formula) exact.Number {
	natural := exact.Zero
	for i := range f.Colour {
		part := f.Bowl.Parts[i]
		if part.Shade.Level != 0 && len(f.RangeOf(part.Shade).Bases(part.Shade)) == 0 {
			natural = natural.Add(part.Exact.Per(f.Bowl.Colour))
		}
	}
	return natural
}

// fraction names a share as the trade does.
func fraction(n exact.Number) string {
	switch {
	case n.Equal(exact.Of(1, 3)):
		return "a third"
	case n.Equal(exact.Half):
		return "a half"
	}
	return "two thirds or more"
}
