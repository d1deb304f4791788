package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/hair"
	"plait/internal/lesson"
	"plait/internal/shade"
)

var formulaFilling = Rule{
	ID:    "formula/filling",
	Title: "lightened hair is filled before it goes much darker",
	Why: "Lightening took the warmth that a darker colour stands on. Without it the colour goes flat and greenish and washes out in days. " +
		"Over more than two levels the missing warmth is put back first, with a filler: a bowl of its own in the same lesson.",
	Source:   "common practice, no source; some courses begin at three levels",
	Severity: diag.Warning,
	Before:   "kind: demi\ncolour: 30 g 6N\ndeveloper: 6 vol\nhair: 9 lightened\ntarget: 6",
	After:    "kind: demi\ncolour: 30 g 7N\ndeveloper: 6 vol\nhair: 9 lightened\ntarget: 7",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		kind := f.Kind.Value
		if !f.Hair.Set() || !f.Target.Set() || kind == shade.Filler || kind == shade.Lightener || hasFiller(f.Lesson) {
			return
		}
		h, target := f.Hair.Value, f.Target.Value.Level
		if !hair.NeedsFilling(h.State, h.Level, target, hair.FillBeyond) {
			return
		}
		filling := hair.FillingFor(h.Level, target, func(l shade.Level) shade.Hue { return undertone(f, l) })
		help := "fill with " + filling.Hue.String() + " first, in a bowl of the kind filler"
		if filling.TwoSteps {
			help += ", and go down in two steps"
		}
		p.Reportf(f.Target.Span, help, "from a lightened %d to %d is %s darker, and nothing puts the missing warmth back (common practice)",
			h.Level, target, levels(int(h.Level-target)))
	},
}

// hasFiller reports whether one of a lesson's bowls fills.
func hasFiller(l *lesson.Lesson) bool {
	if l == nil {
		return false
	}
	for _, f := range l.Formulas {
		if f.Kind.Value == shade.Filler {
			return true
		}
	}
	return false
}
