package heard

import (
	"plait/internal/exact"
)

// highest is the end of the longest scale in use; most end at 10.
var highest = exact.Int(12)

// level reads "level six" and "a level of 6".
func level(t *talk, at int) ([]Fact, int) {
	if t.text(at) != "level" || t.closes(at) {
		return nil, 0
	}
	i := at + 1
	for t.text(i) == "of" || t.text(i) == "a" {
		i++
	}
	number, ok := t.numberAt(i)
	if !ok || !isLevel(number) || t.counts(i) || grades[t.text(i+1)] {
		return nil, 0
	}
	return []Fact{{Kind: Level, Number: number}}, i + 1 - at
}

// grades follow a level that is none of hair.
var grades = set("inches inch qualification student students diploma certificate course apprentice of")

func isLevel(n exact.Number) bool {
	return n.IsInt() && !n.IsZero() && !highest.Less(n)
}

// levelArticle reads "she is a natural six", "it lifted to an eight", "more of a seven" where
// levels are what is spoken of, or hair is looked at.
func levelArticle(t *talk, at int) ([]Fact, int) {
	if w := t.text(at); w != "a" && w != "an" {
		return nil, 0
	}
	i := at + 1
	natural := t.text(i) == "natural" || t.text(at-1) == "naturals" || t.text(at-1) == "bases"
	for ; t.describes(at, i); i++ {
		natural = natural || t.text(i+1) == "natural"
	}
	look := i > at+1
	number, ok := t.numberAt(i)
	if !ok || !isLevel(number) || t.text(i) == "one" || !t.readsLevel(at, look) || !natural && !t.levelsLately(at) && !t.looksAtHair(at, look) {
		return nil, 0
	}
	if next := t.text(i + 1); !t.closes(i) && !afterNumber[next] && !afterLevel[next] {
		return nil, 0
	}
	return []Fact{{Kind: Level, Number: number}}, i + 1 - at
}

// describes reports whether a word between an article and a level says how the level looks: a word
// of looks, one that weighs it ("a really clean six"), or a second one behind it ("a soft, beachy
// nine").
func (t *talk) describes(article, at int) bool {
	if at > article+mostLooks || at >= len(t.words) || t.words[at].number || t.text(at) == "level" {
		return false
	}
	return looks[t.text(at)] || degrees[t.text(at)] || at > article+1 && (looks[t.text(at-1)] || degrees[t.text(at-1)])
}

// mostLooks is how many words may say how a level looks.
const mostLooks = 3

// readsLevel reports whether the words before an article lead up to a level: "it is a", "more
// of a", "I'd call that a"; and "like a creamy", but not "like a seven".
func (t *talk) readsLevel(at int, look bool) bool {
	before, two := t.text(at-1), t.text(at-2)
	switch before {
	case "like", "mean":
		n := len(t.facts)
		return look || n > 0 && before == "like" && at-t.where[n-1] <= levelReach && t.levelAmongLast()
	case "of":
		return two == "more" || two == "bit" || two == "kind" || two == "sort"
	case "that", "it", "this", "them", "her", "him":
		if calls[two] {
			return true
		}
	}
	if before == "and" { // "a six at the root and a seven everywhere else"
		n := len(t.facts)
		return n > 0 && t.facts[n-1].Kind == Level && at-t.where[n-1] <= 10 || n > 1 && t.facts[n-2].Kind == Level && at-t.where[n-2] <= 10
	}
	return reads[before] || at > 0 && t.words[at-1].comma && t.compared(at)
}

// levelReach is how many words may lie between a level and the next that goes without its name.
const levelReach = 10

// levelAmongLast reports whether a level was heard last, or just before a place of the head.
func (t *talk) levelAmongLast() bool {
	n := len(t.facts)
	return n > 0 && t.facts[n-1].Kind == Level || n > 1 && t.facts[n-1].Kind == Section && t.facts[n-2].Kind == Level
}

// compared reports whether a level was just said to be deeper or lighter than another.
func (t *talk) compared(at int) bool {
	for i := max(t.sentence(at), at-6); i < at; i++ {
		if steps[t.text(i)] {
			return true
		}
	}
	return false
}

// looksAtHair reports whether the sentence, or the words just before, look at hair or say what
// is wanted of it: a place of the head, a colour of hair, an aim.
func (t *talk) looksAtHair(at int, look bool) bool {
	const before, behind = 20, 8
	if look || t.compared(at) {
		return true
	}
	for i := max(0, at-before); i < min(at+behind, len(t.words)); i++ {
		if _, n := t.placeName(i); n > 0 || aims[t.text(i)] {
			return true
		}
		if looks[t.text(i)] && looks[t.text(i+1)] {
			return true
		}
	}
	return false
}

// Words around a level that goes without its name.
var (
	reads   = set("is are still naturals bases its to at around thats shes hes theyre reads about youre as be see seeing aiming wants want target targets") // it is read off hair or aimed at
	calls   = set("call calls calling called")                                                                                                              // it is judged
	looks   = set(`natural solid creamy clean cool warm light dark soft true pale deep red orange yellow golden brassy sandy beige buttery`)                // how it looks
	degrees = set("very really real super nice honest pretty proper good clear lovely full")
	aims    = set("wants aim aiming target targets goal lift lifts lifted lifting aimed")
	steps   = set("deeper darker lighter lower")

	afterLevel = set("from down through under natural now here not maybe all nice pale kinda kind sort on or in right through across underneath where today which everywhere all")
)

// levelsLately reports whether levels are the subject: the word or a base is named
// before or just behind.
func (t *talk) levelsLately(at int) bool {
	for i := range t.words {
		if w := t.words[i].text; w == "level" || w == "depth" || w == "base" {
			return i < at+20
		}
	}
	return false
}

// shadeCode reads the code of a shade.
func shadeCode(t *talk, at int) ([]Fact, int) {
	w := t.words[at]
	if w.code == "" || w.number && t.text(at+1) == "percent" {
		return nil, 0
	}
	return []Fact{{Kind: Shade, Code: w.code}}, 1
}
