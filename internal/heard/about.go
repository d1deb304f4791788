package heard

import (
	"slices"
	"strings"
)

// set returns some words as a set.
func set(words string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.Fields(words) {
		out[w] = true
	}
	return out
}

// Words by which talk is known to be about hair and about colouring it. Words that
// other trades use as well (tone, level, crown, ends, colour) are not among them.
var (
	hairWords = set(`hair haircut fringe bangs nape regrowth scalp shampoo shampooed conditioner hairline highlights highlighted
		foils balayage tint tinted toner lightener bleach bleached developer peroxide blonde brunette stylist salon
		mid-lengths lengths roots lightened demi cowlick parting layers strand strands`)
	// sureWords are those of them that wool, wood and gardens have not.
	sureWords = set(`hair haircut fringe bangs nape scalp hairline blonde brunette stylist salon balayage cowlick`)

	colourWords = set(`developer peroxide volume tint tinted toner lightener bleach demi permanent gloss highlights foils
		regrowth balayage`)
)

// aboutHair reports whether at least two different words of the trade fall, and one of them
// that no other trade has. The code of a shade of the course's own ranges is one of the two.
func (t *talk) aboutHair() bool {
	n := t.different(hairWords)
	if len(t.ranges) > 0 && t.namesShade() {
		n++
	}
	return n >= 2 && t.different(sureWords) > 0
}

// aboutColour reports whether hair is coloured: a word of it falls, or a code.
func (t *talk) aboutColour() bool { return t.namesShade() || t.different(colourWords) > 0 }

func (t *talk) namesShade() bool {
	return slices.ContainsFunc(t.words, func(w word) bool { return w.code != "" })
}

// different counts the different words of a set that fall in the talk.
func (t *talk) different(words map[string]bool) int {
	seen := map[string]bool{}
	for _, w := range t.words {
		if words[w.text] {
			seen[w.text] = true
		}
	}
	return len(seen)
}
