package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/shade"
)

// usualRatios is what kinds of colour are usually mixed at, the least and the most
// developer to one part of colour.
var usualRatios = map[shade.Kind][2]measure.Ratio{
	shade.Permanent: {oneTo(1, 1), oneTo(3, 2)}, // 1:1 in Hair Colour for Hairstylists: Level 2, BCcampus 2021, ch. 3.1; 1:1.5 common practice
	shade.HighLift:  {oneTo(2, 1), oneTo(2, 1)}, // common practice
	shade.Demi:      {oneTo(2, 1), oneTo(2, 1)}, // BCcampus 2021, ch. 3.1
	shade.Toner:     {oneTo(2, 1), oneTo(2, 1)}, // common practice
	shade.AcidToner: {oneTo(2, 1), oneTo(2, 1)}, // common practice
	shade.Lightener: {oneTo(1, 1), oneTo(3, 1)}, // common practice

	shade.AlkalineToner: {oneTo(1, 1), oneTo(2, 1)}, // common practice
}

// oneTo returns the ratio 1:n/of.
func oneTo(n, of int64) measure.Ratio {
	return measure.Ratio{Colour: exact.One, Developer: exact.Of(n, of)}
}

var formulaRatioUsual = Rule{
	ID:    "formula/ratio-usual",
	Title: "where the maker gives no ratio, the usual one holds",
	Why: "The ratio belongs on the pack, so a range file can always have it. Where it does not, plait holds a bowl against what is usual " +
		"for its kind. Oxidative colour is mixed from 1:1 to 1:3.",
	Source: "opinion of the European Scientific Committee on Consumer Products on toluene-2,5-diamine, 2 October 2007 (1:1 to 1:3); " +
		"Hair Colour for Hairstylists: Level 2, BCcampus 2021, ch. 3.1; common practice",
	Severity: diag.Warning,
	Before:   "kind: toner\ncolour: 30 g 9V\ndeveloper: 6 vol\nratio: 1:4",
	After:    "kind: toner\ncolour: 30 g 9V\ndeveloper: 6 vol\nratio: 1:2",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		usual, ok := usualRatios[f.Kind.Value]
		if !ok || f.Bowl.Ratio.IsZero() || !f.Terms.Ratio.IsZero() {
			return
		}
		have := f.Bowl.Ratio.PerColour()
		if !have.Less(usual[0].PerColour()) && !usual[1].PerColour().Less(have) {
			return
		}
		at := f.Ratio.Span
		if !f.Ratio.Set() {
			at = f.Developer.Span
		}
		words := usual[0].String()
		if !usual[0].Equal(usual[1]) {
			words += " to " + usual[1].String()
		}
		p.Reportf(at, "look into the maker's directions, and write the ratio into the range file",
			"%s colour is usually mixed at %s, not at %s; the range gives no ratio (common practice)", f.Kind.Value, words, f.Bowl.Ratio)
	},
}
