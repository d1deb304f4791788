package check

import (
	"slices"
	"strings"

	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/hair"
	"plait/internal/shade"
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
var scalpWords = []string{"root", "roots", "regrowth", "scalp", "head", "hairline"}

// touchesScalp reports whether a formula says that it goes on the scalp.
func touchesScalp(f *derive.Formula) bool {
	for _, place := range f.On {
		text := strings.ToLower(place.Value)
		if strings.Contains(text, "off the scalp") || strings.Contains(text, "off-scalp") {
			continue
		}
		words := strings.FieldsFunc(text, func(r rune) bool { return r < 'a' || r > 'z' })
		if slices.ContainsFunc(words, func(w string) bool { return slices.Contains(scalpWords, w) }) {
			return true
		}
	}
	return false
}
