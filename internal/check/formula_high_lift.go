package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/hair"
	"plait/internal/shade"
)

var formulaHighLift = Rule{
	ID:    "formula/high-lift",
	Title: "high-lift colour goes on natural hair of level 6 or lighter",
	Why: "High-lift colour is made to lift light natural hair and to cool it in one go. On darker hair it stops at orange, and on hair that " +
		"was coloured before it lifts the growth alone.",
	Source:   "common practice, no source",
	Severity: diag.Warning,
	Before:   "kind: high-lift\ncolour: 30 g 10N\ndeveloper: 30 vol\nhair: 5 natural",
	After:    "kind: high-lift\ncolour: 30 g 10N\ndeveloper: 30 vol\nhair: 6 natural",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		if f.Kind.Value != shade.HighLift || !f.Hair.Set() {
			return
		}
		h := f.Hair.Value
		if hair.SuitsHighLift(h.State, h.Level) {
			return
		}
		d := p.Reportf(f.Kind.Span, "test a strand, ask, or refer: it may be work for a lightener",
			"high-lift colour is meant for natural hair of level %d or lighter, and this is a %s %d (common practice)", hair.HighLiftFrom, h.State, h.Level)
		*d = d.WithNote(f.Hair.Span, "the hair")
	},
}
