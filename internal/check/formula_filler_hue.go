package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/shade"
)

var formulaFillerHue = Rule{
	ID:    "formula/filler-hue",
	Title: "a filler brings the warmth that the target stands on",
	Why: "A filler puts back what lightening took: the underlying pigment of the level that the hair goes down to, or of the level above " +
		"it. Another hue fills nothing, and a cool one takes away what was to be put in.",
	Source:   "common practice, no source",
	Severity: diag.Warning,
	Before:   "kind: filler\ncolour: 30 g 8V\ndeveloper: 6 vol\nratio: 1:2\nhair: 9 lightened\ntarget: 6",
	After:    "kind: filler\ncolour: 30 g 7C\ndeveloper: 6 vol\nratio: 1:2\nhair: 9 lightened\ntarget: 6",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		if f.Kind.Value != shade.Filler || !f.Target.Set() || f.Range == nil {
			return
		}
		target := f.Target.Value.Level
		wanted, above := undertone(f, target), undertone(f, target+1)
		for _, b := range basesOf(f) {
			if b.hue.Near(wanted) || b.hue.Near(above) {
				return
			}
		}
		d := p.Reportf(shades(f), "take a shade with a "+wanted.String()+" base",
			"the warmth of level %d is %s, and no shade in this filler brings it (common practice)", target, wanted)
		*d = d.WithNote(f.Target.Span, "the target")
	},
}
