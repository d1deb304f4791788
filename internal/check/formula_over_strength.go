package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/hair"
)

var formulaOverStrength = Rule{
	ID:    "formula/over-strength",
	Title: "the developer lifts no more than the target asks for",
	Why: "A developer lifts natural hair at least so far, wanted or not, and what it opens on the way is warmth. From two levels too " +
		"much it is worth a warning; one level is usual where white hair is covered with 20 vol.",
	Source:   "derived from the lift usually taught for each developer; the threshold of two levels is plait's own; common practice",
	Severity: diag.Warning,
	Before:   "kind: permanent\ncolour: 30 g 6N\ndeveloper: 20 vol\nhair: 6 natural\ntarget: 6",
	After:    "kind: permanent\ncolour: 30 g 6N\ndeveloper: 10 vol\nhair: 6 natural\ntarget: 6",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		e := excess(f)
		if e.Levels == 0 {
			return
		}
		warmth := undertone(f, e.Opened)
		if e.Grave() {
			p.Reportf(f.Developer.Span, "take the weakest developer that will do",
				"%s lifts %s that nobody asked for and opens the warmth of level %d, %s (common practice)", strengthWords(f), levels(e.Levels), e.Opened, warmth)
			return
		}
		if f.Hair.Value.White.IsZero() {
			p.Notef(f.Developer.Span, "10 vol deposits; where the warmth is wanted, say so on the card",
				"%s lifts one level that nobody asked for; expect the warmth of level %d, %s, beneath the shade (common practice)", strengthWords(f), e.Opened, warmth)
		}
	},
}

// excess returns what the developer lifts beyond the target; nothing where hair or
// target is not stated or the colour does not lift it.
func excess(f *derive.Formula) hair.Excess {
	if _, ok := liftWanted(f); !ok || !liftsHair(f.Kind.Value) || !onNatural(f) {
		return hair.Excess{}
	}
	return hair.ExcessOf(f.Hair.Value.Level, f.Target.Value.Level, f.Bowl.Bottle)
}
