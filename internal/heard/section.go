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
	"bangs": "fringe", "temple": "temples", "temples": "temples", "hairline": "hairline",
}

// section reads a named place of the head. Words that are also directions (side,
// top, ear, face) count only in phrases in which they are places; a place that is to be
// kept free is none, and "a fringe" is a cut.
func section(t *talk, at int) ([]Fact, int) {
	if free[t.text(at-1)] || t.text(at-1) == "the" && free[t.text(at-2)] {
		return nil, 0
	}
	place, n := t.placeName(at)
	if n == 0 || t.text(at+n) == "without" || place == "fringe" && t.text(at-1) == "a" {
		return nil, 0
	}
	return []Fact{{Kind: Section, Place: place}}, n
}

// free stand before a place that is left out.
var free = set("off avoid without touching")

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
	case w == "occipital":
		return "occipital bone", 2
	case w == "parietal" && next == "ridge":
		return "parietal ridge", 2
	case w == "sides" && t.text(at-1) == "the":
		return "sides", 1
	case w == "top" && t.text(at-1) == "the" && next == "section":
		return "top", 2
	case w == "top" && t.text(at-1) == "the" && next != "of" && topAfter[t.text(at-2)]:
		return "top", 1
	case (w == "ear" || w == "ears") && (t.text(at-1) == "the" || t.text(at-1) == "one") && earAfter[t.text(at-2)] && t.text(at-3) != "from":
		return "ears", 1
	case w == "face" && t.text(at-1) == "the" && (t.text(at-2) == "round" || t.text(at-2) == "around"):
		return "face", 1
	case w == "ends" && !endsAfter[t.text(at-1)]:
		return "", 0
	}
	if p := places[w]; p != "" {
		return p, 1
	}
	return "", 0
}

// What stands two words before "top" and "ear", and one before "ends", where they
// are places.
var (
	topAfter  = set("to and drop at through on")
	earAfter  = set("over round around above behind of")
	endsAfter = set("the her his my your their dry to and at")
)
