package check

import (
	"maps"
	"slices"
	"strings"

	"plait/internal/derive"
	"plait/internal/diag"
)

var formulaTargetWord = Rule{
	ID:    "formula/target-word",
	Title: "the words of a target are spelt as plait knows them",
	Why: "A target that says cool is held against the bases in the bowl. Words of one's own may stand there too and are only shown, so a slip " +
		"of the hand would switch the comparison off without a sign.",
	Source:   "how plait reads a target",
	Severity: diag.Warning,
	Before:   "kind: demi\ncolour: 20 g 8N + 10 g 8V\ndeveloper: 6 vol\nhair: 8 lightened\ntarget: 8 cooll",
	After:    "kind: demi\ncolour: 20 g 8N + 10 g 8V\ndeveloper: 6 vol\nhair: 8 lightened\ntarget: 8 cool",
	Since:    "1.0",
	Formula: func(p *Pass, f *derive.Formula) {
		known := targetWords(f)
		for _, word := range strings.FieldsFunc(f.Target.Value.Tone, notInWord) {
			near := diag.DidYouMean(word, known)
			if near == "" || near == word {
				continue
			}
			d := p.Reportf(f.Target.Span, "did you mean "+near+"? Words of your own that are no slip can be accepted",
				"the target says %q, and no advice hangs on that word", word)
			*d = d.WithEdit(f.Target.Span, strings.Replace(f.Target.Span.Text(), word, near, 1))
			return
		}
	},
}

// targetWords are words that a target is likely to say: those that plait judges by, and those
// of the tones of the range.
func targetWords(f *derive.Formula) []string {
	words := append(slices.Clone(coolWords), "warm")
	if f.Range != nil {
		for _, code := range slices.Sorted(maps.Keys(f.Range.Tones)) {
			words = append(words, strings.FieldsFunc(f.Range.Tones[code].Name, notInWord)...)
		}
	}
	return words
}

// notInWord reports what stands between words.
func notInWord(r rune) bool { return r == ' ' || r == ',' }
