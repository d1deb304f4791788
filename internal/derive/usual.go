package derive

import (
	"slices"
	"strings"

	"plait/internal/amount"
	"plait/internal/shade"
)

// Usual is how much mixed product the hair that a bowl goes on usually takes.
type Usual struct {
	amount.Estimate
	Whole bool // it goes on the whole head; else on a part of what the estimate is for
}

// The words for where a bowl goes that tell how much hair it is for.
var (
	wholePhrases = []string{"whole head", "all over"}
	lengthWords  = []string{"lengths", "mids", "ends"}
	rootWords    = []string{"regrowth", "roots", "root"}
)

// Usual returns how much mix the bowl's hair usually takes, by the length and density
// in the lesson's header. ok is false where they are not stated, or where nothing
// tells whether the bowl goes on the lengths or the regrowth.
func (f *Formula) Usual() (usual Usual, ok bool) {
	if f.Lesson == nil {
		return Usual{}, false
	}
	head, ok := f.Lesson.Hair.Head()
	if !ok {
		return Usual{}, false
	}
	head.Lightener = f.Kind.Value == shade.Lightener
	switch {
	case f.goesOn(strings.Contains, wholePhrases):
		usual.Whole = true
	case f.goesOn(speaksOf, lengthWords):
	case f.goesOn(speaksOf, rootWords):
		head.Length = amount.Regrowth
	default:
		return Usual{}, false
	}
	usual.Estimate, ok = amount.PerHead(head)
	return usual, ok
}

// goesOn reports whether a place of the formula speaks of one of the words.
func (f *Formula) goesOn(speaks func(text, word string) bool, words []string) bool {
	for _, place := range f.On {
		text := strings.ToLower(place.Value)
		if slices.ContainsFunc(words, func(w string) bool { return speaks(text, w) }) {
			return true
		}
	}
	return false
}

// Zone returns the part of the hair that a formula says it is for: "roots" or
// "lengths", or nothing.
func (f *Formula) Zone() string {
	roots, lengths := f.goesOn(speaksOf, rootWords), f.goesOn(speaksOf, lengthWords)
	switch {
	case roots == lengths:
		return ""
	case roots:
		return "roots"
	}
	return "lengths"
}
