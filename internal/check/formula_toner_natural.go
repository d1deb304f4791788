package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/shade"
)

var formulaTonerNatural = Rule{
	ID:    "formula/toner-natural",
	Title: "an alkaline toner keeps off natural hair",
	Why: "An acid toner lays its dye on and leaves natural hair as it is. An alkaline one opens the hair to do its work, and where that is " +
		"natural it lifts a little and shows its warmth: the band of orange over a toned blonde. Where the card says only toner, nobody can " +
		"tell which of the two it will be.",
	Source:   "common practice, no source",
	Severity: diag.Warning,
	Before:   "kind: alkaline toner\ncolour: 30 g 7B\ndeveloper: 10 vol\nratio: 1:2\nhair: 7 natural",
	After:    "kind: acid toner\ncolour: 30 g 7B\ndeveloper: 6 vol\nratio: 1:2\nhair: 7 natural",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		if !onNatural(f) || f.Bowl.Developer.IsZero() {
			return
		}
		level := f.Hair.Value.Level
		var d *diag.Diagnostic
		switch f.Kind.Value {
		case shade.AlkalineToner:
			d = p.Reportf(f.Kind.Span, "take an acid toner there, or keep to the lightened hair",
				"an alkaline toner lifts natural hair a little and shows its warmth, %s at level %d (common practice)", undertone(f, level), level)
		case shade.Toner:
			d = p.Notef(f.Kind.Span, "write acid toner or alkaline toner, as its maker says",
				"on natural hair an alkaline toner lifts and shows warmth, and an acid one does not: the card does not say which this is (common practice)")
		default:
			return
		}
		*d = d.WithNote(f.Hair.Span, "the hair")
	},
}
