package heard

import (
	"strings"

	"plait/internal/caption"
	"plait/internal/shade"
)

// Unlisted returns what is said as the code of a shade and stands in none of the ranges, each once,
// where it fell first: who reads the talk would otherwise miss it without a sign. A number
// with a point is taken for a code only where it is dosed: "forty grams of 7.0".
func Unlisted(cues []caption.Cue, ranges []*shade.Range) []Fact {
	t := listen(cues, ranges)
	if len(ranges) == 0 || !t.aboutHair() {
		return nil
	}
	seen := map[string]bool{}
	for i, w := range t.words {
		code, to := t.typed(w), i+1
		if i+1 < len(t.words) && t.words[i+1].cue == w.cue && t.words[i+1].from == w.to { // "7C" is a number with its unit
			code, to = code+t.typed(t.words[i+1]), i+2
		}
		if w.code != "" || !lettersForm.MatchString(code) && !(w.number && isPointed(code) && t.isDosed(i)) || seen[code] || t.doubted(i) {
			continue
		}
		seen[code] = true
		t.add(Fact{Kind: Shade, Code: code}, i, to)
	}
	return t.facts
}

// isPointed reports whether a text is digits with a point between them.
func isPointed(text string) bool { return numberForm.MatchString(text) && strings.Contains(text, ".") }

// isDosed reports whether a dose of what stands at a place was said right before it, and the place
// itself says no dose.
func (t *talk) isDosed(at int) bool {
	i := at - 1
	for articles[t.text(i)] {
		i--
	}
	if t.text(i) != "of" {
		return false
	}
	dose, next := t.text(i-1), t.text(at+1)
	return (dose == "grams" || dose == "parts" || dose == "tubes") && next != "percent" && next != "volume" && next != "grams"
}
