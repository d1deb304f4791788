package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/measure"
	"plait/internal/shade"
	"plait/internal/timing"
)

var formulaUsualTime = Rule{
	ID:    "formula/usual-time",
	Title: "where the maker gives no time, the usual one holds",
	Why: "The maker's time goes before all others. Where the range file gives none, plait holds a card against the times that are usually " +
		"taught, and says where it leaves them.",
	Source:   "Hair Colour for Hairstylists: Level 2, BCcampus 2021, ch. 3.1 (permanent, demi, direct); the rest is common practice, no source",
	Severity: diag.Warning,
	Before:   "kind: toner\ncolour: 30 g 9V\ndeveloper: 6 vol\nratio: 1:2\ntime: 40 min from last section",
	After:    "kind: toner\ncolour: 30 g 9V\ndeveloper: 6 vol\nratio: 1:2\ntime: 15 min from last section",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		usual, ok := timing.Usual(f.Kind.Value)
		if !ok || !f.Time.Set() || f.Terms.Time.Max != 0 {
			return
		}
		if f.Kind.Value == shade.Permanent && !f.Hair.Value.White.IsZero() {
			usual.Max = timing.ResistantWhite.Max
		}
		if !usual.Contains(held(f.Time.Value)) {
			p.Reportf(f.Time.Span, "look into the maker's directions, and write the time into the range file",
				"%s colour usually stays %s, not %s; the range gives no time (common practice)", f.Kind.Value, usual, f.Time.Value)
		}
	},
}

// held returns the span that a typed time can be held to: of "up to" only its end
// counts.
func held(stated measure.Span) measure.Span {
	if stated.Min == 0 {
		stated.Min = stated.Max
	}
	return stated
}
