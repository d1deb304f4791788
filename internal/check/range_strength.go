package check

import (
	"strings"

	"plait/internal/derive"
	"plait/internal/peroxide"
	"plait/internal/source"
)

var rangeStrength = Rule{
	ID:    "range/strength",
	Title: "the developer is one the maker names for this kind of colour",
	Why: "A maker makes a colour for certain strengths. A demi with 20 vol is no longer a demi: it lifts what nobody asked it " +
		"to. The maker's directions go before anything plait knows in general.",
	Source: "the range file of the course",
	Before: "colour: 30 g 8N\ndeveloper: 20 vol\nkind: demi",
	After:  "colour: 30 g 8N\ndeveloper: 6 vol\nkind: demi",
	Since:  "1.0",
	ByKind: true,
	Formula: func(p *Pass, f *derive.Formula) {
		strength := f.Developer.Strength.Value
		if f.Developer.None || f.Range == nil || f.Terms.Allows(strength) {
			return
		}
		if p.Course.Limits().Peroxide.Cmp(strength) < 0 {
			return // the law has spoken, by formula/ceiling
		}
		p.Reportf(f.Developer.Strength.Span, "use "+strengthList(f.Terms.Strengths),
			"%s no %s for %s", makers(f, "names", "name"), f.Developer.Strength.Span.Text(), f.Kind.Value)
	},
}

func strengthList(list []peroxide.Strength) string {
	out := make([]string, len(list))
	for i, s := range list {
		out[i] = bothUnits(s)
	}
	return strings.Join(out, ", ")
}

// bothUnits prints a strength in per cent and volumes, "6 % (20 vol)".
func bothUnits(s peroxide.Strength) string { return s.String() + " (" + s.VolumesString() + ")" }

// strengths returns every strength a formula names, the one wanted and those it is
// blended from.
func strengths(f *derive.Formula) []source.Stated[peroxide.Strength] {
	if f.Developer.None {
		return nil
	}
	return append([]source.Stated[peroxide.Strength]{f.Developer.Strength}, f.Developer.From...)
}
