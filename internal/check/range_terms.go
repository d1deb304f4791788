package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/shade"
)

var rangeTerms = Rule{
	ID:    "range/terms",
	Title: "the maker gives directions for this kind of colour",
	Why: "Without the maker's ratio, time and strengths nothing about the bowl can be held against the product itself. Either " +
		"the range is not sold as this kind, or its file is not complete.",
	Source:   "the range file of the course",
	Severity: diag.Warning,
	Before:   "colour: 30 g 8N\ndeveloper: 6 vol\nratio: 1:2\nkind: filler",
	After:    "colour: 30 g 8N\ndeveloper: 6 vol\nratio: 1:2\nkind: demi",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		for _, r := range f.Ranges() {
			if _, ok := r.Kinds[f.Kind.Value]; !ok {
				p.Reportf(f.Kind.Span, termsHelp(f.Kind.Value, r),
					"%s gives no directions for %s", r.Name, f.Kind.Value)
			}
		}
	},
}

// termsHelp says what to do about a kind that a range gives no directions for: a toner
// may be one of those that it does give.
func termsHelp(kind shade.Kind, r *shade.Range) string {
	help := "add the kind with ratio, time and strengths to the range file"
	for _, other := range r.OtherToners(kind) {
		help += "; it has " + string(other)
	}
	return help
}
