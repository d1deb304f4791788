package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/hair"
	"plait/internal/shade"
)

var formulaOverlap = Rule{
	ID:    "formula/overlap",
	Title: "lightener does not go over lightened hair",
	Why: "Hair that was lightened has little left to give, and where lightener overlaps it a second time it breaks. Lightener goes on what has " +
		"grown since; what is lightened is toned. On coloured hair nobody can say beforehand how far it lifts, so a strand is tested.",
	Source:   "common practice, no source",
	Severity: diag.Warning,
	Before:   "kind: lightener\ncolour: 30 g PW\ndeveloper: 20 vol\nratio: 1:2\nhair: 8 lightened",
	After:    "kind: lightener\ncolour: 30 g PW\ndeveloper: 20 vol\nratio: 1:2\nhair: 6 natural",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		if f.Kind.Value != shade.Lightener || !f.Hair.Set() {
			return
		}
		switch f.Hair.Value.State {
		case hair.Lightened:
			p.Reportf(f.Hair.Span, "keep to the hair that has grown since, or tone",
				"this hair is lightened already, and lightener over it can break it (common practice)")
		case hair.Coloured:
			p.Notef(f.Hair.Span, "test a strand first", "how far lightener lifts coloured hair cannot be told beforehand (common practice)")
		}
	},
}
