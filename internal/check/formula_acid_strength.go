package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/peroxide"
	"plait/internal/shade"
)

// acidMost is the strongest developer that an acid toner has use for: 7 volumes.
var acidMost = peroxide.Volumes(exact.Int(7))

var formulaAcidStrength = Rule{
	ID:    "formula/acid-strength",
	Title: "an acid toner takes a developer that only wakes the dye",
	Why: "An acid toner does not open the hair, so it lifts nothing, and peroxide beyond what its dye needs does nothing but dry. Where the " +
		"maker names strengths, those hold; where not, up to 7 vol is usual.",
	Source:   "common practice, no source",
	Severity: diag.Warning,
	Before:   "kind: acid toner\ncolour: 30 g 9V\ndeveloper: 20 vol\nratio: 1:2",
	After:    "kind: acid toner\ncolour: 30 g 9V\ndeveloper: 6 vol\nratio: 1:2",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		if f.Kind.Value != shade.AcidToner || len(f.Terms.Strengths) > 0 || f.Bowl.Bottle.Cmp(acidMost) <= 0 {
			return
		}
		p.Reportf(f.Developer.Span, "take a weaker developer, or write the maker's strengths into the range file",
			"%s is more than an acid toner has use for, which is %s at most (common practice)", strengthWords(f), acidMost.VolumesString())
	},
}
