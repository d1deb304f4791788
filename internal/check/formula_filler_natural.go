package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/hair"
	"plait/internal/shade"
)

var formulaFillerNatural = Rule{
	ID:       "formula/filler-natural",
	Title:    "natural hair is not filled",
	Why:      "A filler replaces warmth that lightening took. Natural hair has all of its own, and goes darker without it.",
	Source:   "common practice, no source",
	Severity: diag.Warning,
	Before:   "kind: filler\ncolour: 30 g 7C\ndeveloper: 6 vol\nratio: 1:2\nhair: 9 natural\ntarget: 6",
	After:    "kind: filler\ncolour: 30 g 7C\ndeveloper: 6 vol\nratio: 1:2\nhair: 9 lightened\ntarget: 6",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		if f.Kind.Value != shade.Filler || !f.Hair.Set() || hair.SuitsFiller(f.Hair.Value.State) {
			return
		}
		d := p.Reportf(f.Kind.Span, "leave the filler out, or mend the hair", "a filler on natural hair has nothing to fill (common practice)")
		*d = d.WithNote(f.Hair.Span, "the hair")
	},
}
