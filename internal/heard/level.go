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

// levelArticle reads "she is a natural six", "it lifted to an eight" where levels are
// what is spoken of.
func levelArticle(t *talk, at int) ([]Fact, int) {
	if w := t.text(at); w != "a" && w != "an" {
		return nil, 0
	}
	i := at + 1
	natural, look := t.text(i) == "natural", looks[t.text(i)]
	if natural || look {
		i++
	}
	number, ok := t.numberAt(i)
	read := reads[t.text(at-1)] || look && (t.text(at-1) == "like" || t.text(at-1) == "mean") // "like a creamy nine", but not "like a seven"
	if !ok || !isLevel(number) || !read || !natural && !t.levelsLately(at) {
		return nil, 0
	}
	if next := t.text(i + 1); !t.closes(i) && !afterNumber[next] && !afterLevel[next] {
		return nil, 0
	}
	return []Fact{{Kind: Level, Number: number}}, i + 1 - at
}

// Words around a level that goes without its name.
var (
	reads      = set("is its to at around thats shes hes theyre reads about youre as be")                           // it is read off hair or aimed at
	looks      = set(`solid creamy clean cool warm light dark soft true pale deep red orange yellow golden brassy`) // how it looks
	afterLevel = set("natural now here not maybe all nice pale")
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
