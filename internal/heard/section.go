package heard

import (
	"slices"
	"strings"
)

// places are the names of places on the head as they are said, and the usual word
// for each.
var places = map[string]string{
	"root": "roots", "roots": "roots", "regrowth": "regrowth", "mid-lengths": "mid-lengths",
	"lengths": "lengths", "ends": "ends", "nape": "nape", "crown": "crown", "fringe": "fringe",
	"bangs": "fringe", "sideburns": "sideburns", "temple": "temples", "temples": "temples", "hairline": "hairline",
	// "The crown's somewhere in between."
	"crowns": "crown", "napes": "nape", "hairlines": "hairline",
}

// section reads a named place of the head. Words that are also directions (side,
// top, ear, face) count only in phrases in which they are places; a place that is to be
// kept free is none, and "a fringe" is a cut.
func section(t *talk, at int) ([]Fact, int) {
	place, n := t.placeName(at)
	if n == 0 || t.keptFree(at, n) || made[t.text(at+n)] && !t.closes(at+n-1) || t.text(at+n) == "without" || t.text(at-1) == "a" && n == 1 && place != "sides" {
		return nil, 0
	}
	return []Fact{{Kind: Section, Place: place}}, n
}

// keptFree reports whether a place is left out: "off the roots", "leave the ends for
// now". What is taken off a place is work on it.
func (t *talk) keptFree(at, n int) bool {
	before := at - 1
	if t.text(before) == "the" {
		before--
	}
	if w := t.text(before); before > 0 && (w == "of" && t.text(before-1) == "off" || w == "out" && leaving[t.text(before-1)]) {
		before-- // "off of the ears", "leave out the temples"
	}
	if next := t.text(at + n); !t.words[at+n-1].ends && (next == "im" || next == "i" || next == "we") && leaving[t.text(at+n+1)] {
		return true // "the fringe I'm leaving out"
	}
	switch w := t.text(before); {
	case w == "off":
		for i := max(0, before-5); i < before; i++ {
			if taking[t.text(i)] {
				return false
			}
		}
		return true
	case leaving[w] && t.text(before+1) == "out":
		return true
	case leaving[w]:
		behind := at + n
		if wholly[t.text(behind)] {
			behind++
		}
		next := t.text(behind)
		return t.closes(at+n-1) || next == "alone" || next == "out" || next == "for" && later[t.text(behind+1)]
	default:
		return free[w] || t.spared(before) || t.clippedAway(before, at+n)
	}
}

// spared reports whether the words up to a place say that nothing is done there: "nothing
// at the hairline", "I keep off the hair at the temples".
func (t *talk) spared(last int) bool {
	if !within[t.text(last)] {
		return false
	}
	for i := last - 1; i > last-4 && i >= 0 && !t.closes(i); i-- {
		w := t.text(i)
		if w == "nothing" || w == "none" || (w == "off" || w == "away" || w == "clear") && keeping[t.text(i-1)] {
			return true
		}
	}
	return false
}

// clippedAway reports whether hair is put out of the way: "clip the crown up out of my way".
func (t *talk) clippedAway(verb, behind int) bool {
	return clipping[t.text(verb)] && !t.closes(behind-1) && outOfWay[t.text(behind)]
}

var (
	free     = set("avoid avoiding without touching skip skipping miss missing")
	keeping  = set("keep keeping kept stay staying steer")
	within   = set("at on in round around near from over of")
	clipping = set("clip clips clipping clipped pin pins pinning pinned tie tying tied")
	outOfWay = set("up away back out aside")

	// "Leave the ends for now", and "leave the temples completely out of this".
	later  = set("now later last afterwards the")
	wholly = set("completely totally entirely well right")

	leaving = set("leave leaving left")
	taking  = set("take takes taking took cut cutting")

	// made follow a place that only names a bowl: "where the root colour stops".
	made = set("colour mix bowl formula shadow")
)

// Places returns the usual words for the places of the head that a text names, each
// once and in its order: a formula's `on`, for example.
func Places(text string) []string {
	var out []string
	for _, w := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r == ' ' || r == ',' || r == ';' }) {
		if same, ok := spellings[w]; ok {
			w = same
		}
		place, ok := places[w]
		switch w {
		case "side", "sides":
			place, ok = "sides", true
		case "top":
			place, ok = "top", true
		}
		if ok && !slices.Contains(out, place) {
			out = append(out, place)
		}
	}
	return out
}

func (t *talk) placeName(at int) (place string, words int) {
	w, next := t.text(at), t.text(at+1)
	switch {
	case w == "mid" && (next == "lengths" || next == "length"):
		return "mid-lengths", 2
	case w == "occipital" && next == "bone":
		return "occipital bone", 2
	case w == "occipital":
		return "occipital bone", 1
	case w == "parietal" && next == "ridge":
		return "parietal ridge", 2
	case w == "sides" && (sidesAfter[t.text(at-1)] || next == "now" || next == "next" || t.punctuated && at == t.sentence(at)):
		return "sides", 1
	case w == "top" && t.text(at-1) == "the" && next == "section":
		return "top", 2
	case w == "top" && t.text(at-1) == "the" && next != "of" && topAfter[t.text(at-2)]:
		return "top", 1
	case w == "top" && t.text(at-1) == "up" && next != "of":
		return "top", 1
	case (w == "ear" || w == "ears") && (t.text(at-1) == "the" || t.text(at-1) == "one") && earAfter[t.text(at-2)] && t.text(at-4) != "out":
		return "ears", 1
	case w == "face" && t.text(at-1) == "the" && (t.text(at-2) == "round" || t.text(at-2) == "around") && !t.wished(at):
		return "face", 1
	case w == "parting" && t.colour && partingAfter[t.text(at-1)] && (on[t.text(at-2)] || at-1 == t.sentence(at) || t.closes(at-2) || t.text(at-2) == "and"):
		return "parting", 1
	case w == "ends" && !endsAfter[t.text(at-1)]:
		return "", 0
	}
	if p := places[w]; p != "" {
		return p, 1
	}
	return "", 0
}

// wished reports whether "round the face" only tells of the look that is wanted.
func (t *talk) wished(at int) bool {
	for i := at - 3; i >= at-5 && i >= 0 && !t.words[i].ends; i-- {
		if wishes[t.text(i)] {
			return true
		}
	}
	return false
}

// What stands two words before "top" and "ear", and one before "ends", where they
// are places.
var (
	topAfter = set("to and drop through on for let letting")
	earAfter = set("over round around above behind of at past")

	// wishes stand before "round the face" where it is a look that is meant, and not hair.
	wishes = set("something brightness bright brighter light softness movement frame framing shape soft up")

	// A parting is a place where colour goes on it; in a cut it is a line.
	partingAfter = set("the her his my your their")
	on           = set("at on onto along down round around over")

	sidesAfter = set("the two her his my your")
	endsAfter  = set("the those these her his my your their dry to and at")
)
