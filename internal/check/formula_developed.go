package check

import (
	"slices"

	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/shade"
)

var formulaDeveloped = Rule{
	ID:    "formula/developed",
	Title: "colour that must be developed has a developer, and direct dye has none",
	Why: "Permanent colour, demi, high-lift colour and lightener are half of a pair: without peroxide they do little, and nobody can say what. " +
		"Direct dye is finished as it leaves the tube; a developer only thins it and wears the hair.",
	Source: "Hair Colour for Hairstylists: Level 2, BCcampus 2021, ch. 3.1 (which kinds are mixed with developer); " +
		"the range file where it names strengths",
	Severity: diag.Warning,
	Before:   "kind: permanent\ncolour: 30 g 6N\ndeveloper: none",
	After:    "kind: permanent\ncolour: 30 g 6N\ndeveloper: 20 vol\nratio: 1:1.5",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		kind := f.Kind.Value
		none := f.Bowl.Bottle.IsZero()
		switch {
		case !f.Developer.None && !f.Terms.Allows(f.Developer.Strength.Value): // range/strength says more
		case none && slices.Contains(developed, kind):
			help := "write the developer that the maker names"
			if len(f.Terms.Strengths) > 0 {
				help = "use " + strengthList(f.Terms.Strengths)
			}
			p.Reportf(f.Developer.Span, help, "%s without peroxide is not developed", mixedKind(kind))
		case !none && kind == shade.Direct:
			p.Reportf(f.Developer.Span, "write developer: none, or name the kind of colour that it is", "direct dye takes no developer")
		}
	},
}

// mixedKind names what is mixed by its kind.
func mixedKind(kind shade.Kind) string {
	if kind == shade.Lightener {
		return string(kind)
	}
	return string(kind) + " colour"
}

// developed are the kinds of colour that nothing comes of without peroxide.
var developed = []shade.Kind{shade.Permanent, shade.Demi, shade.HighLift, shade.Lightener}
