package check

import (
	"slices"
	"strings"

	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/hair"
	"plait/internal/shade"
	"plait/internal/source"
)

var formulaLightener = Rule{
	ID:    "formula/lightener",
	Title: "lightener on the scalp is mixed with 6 % or weaker",
	Why: "Against the skin lightener is warmer and works faster, and persulphates make it far stronger than its per cent on paper. " +
		"6 % is the usual end on the scalp; what is made for foils stays off it.",
	Source:   "common practice, no source; some makers go to 9 % and say so in their directions",
	Severity: diag.Warning,
	Before:   "on: [roots]\nkind: lightener\ncolour: 30 g PW\ndeveloper: 30 vol\nratio: 1:2",
	After:    "on: [roots]\nkind: lightener\ncolour: 30 g PW\ndeveloper: 20 vol\nratio: 1:2",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		if f.Kind.Value != shade.Lightener || f.Bowl.Bottle.Cmp(hair.OnScalpLimit) <= 0 {
			return
		}
		at := f.Developer.Span
		switch {
		case touchesScalp(f):
			p.Reportf(at, "take a weaker developer, and the weakest that will do",
				"%s with lightener on the scalp is stronger than the usual end, %s (common practice)", strengthWords(f), hair.OnScalpLimit)
		case len(f.On) == 0:
			p.Notef(at, "say with on: where it goes",
				"lightener with %s stays off the scalp (common practice)", strengthWords(f))
		}
	},
}

// scalpWords are words for places where a colour touches the scalp.
var scalpWords = []string{"root", "roots", "regrowth", "scalp", "head", "hairline", "everywhere"}

// touchesScalp reports whether a formula says that it goes on the scalp.
func touchesScalp(f *derive.Formula) bool {
	return slices.ContainsFunc(f.On, func(place source.Text) bool {
		words := strings.FieldsFunc(strings.ToLower(place.Value), func(r rune) bool { return r < 'a' || r > 'z' })
		text := strings.Join(words, " ")
		return !staysOff(text) && (text == "all" || strings.Contains(text, "all over") ||
			slices.ContainsFunc(words, func(w string) bool { return slices.Contains(scalpWords, w) }))
	})
}

// staysOff reports whether words for a place plainly say that it is off the scalp; where
// they deny it, they do not.
func staysOff(text string) bool {
	before, _, off := strings.Cut(strings.ReplaceAll(text, "off the scalp", "off scalp"), "off scalp")
	denied := slices.ContainsFunc(strings.Fields(before), func(w string) bool { return w == "not" || w == "never" })
	return off && !denied
}
