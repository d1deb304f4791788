package heard

import (
	"plait/internal/exact"
	"plait/internal/peroxide"
)

// Bounds of what is taken for a developer: what is stronger is a slip of the ear or
// a rule's to report, and what is beyond these is something else.
var (
	mostVolumes = exact.Int(60)
	mostPercent = exact.Int(18)
)

// strength reads "twenty volume", "a ten developer" and "six percent" where the
// developer is spoken of.
func strength(t *talk, at int) ([]Fact, int) {
	number, ok := t.numberAt(at)
	if ok && t.bottle(at, number) {
		return []Fact{{Kind: Strength, Strength: peroxide.Percent(number), Percent: true}}, 1
	}
	if !ok || number.IsZero() || t.closes(at) {
		return nil, 0
	}
	switch t.text(at + 1) {
	case "volume":
		if !mostVolumes.Less(number) {
			return []Fact{{Kind: Strength, Strength: peroxide.Volumes(number)}}, 2
		}
	case "percent":
		if !mostPercent.Less(number) && (t.ofDeveloper(at) || t.sold(at, number) || !number.IsInt() && t.listed(number)) {
			return []Fact{{Kind: Strength, Strength: peroxide.Percent(number), Percent: true}}, 2
		}
	}
	return nil, 0
}

// ofDeveloper reports whether the developer or its volumes are spoken of close to a
// place.
func (t *talk) ofDeveloper(at int) bool {
	for i := max(0, at-10); i < min(len(t.words), at+6); i++ {
		switch t.text(i) {
		case "developer", "peroxide", "volume", "strength":
			return true
		}
	}
	return false
}

// bottle reports whether "the one point nine" names a developer by its strength alone: nothing
// else in a salon is called by such a number.
func (t *talk) bottle(at int, number exact.Number) bool {
	if t.words[at].code != "" || number.IsInt() || !t.closes(at) && !afterBottle[t.text(at+1)] {
		return false
	}
	return t.sold(at, number)
}

// afterBottle may follow a bottle that is called by its strength.
var afterBottle = set("and is in for on with its goes")

// sold reports whether "the four percent" is that of a developer: the article, or "your",
// stands for what was named before, the ranges sell that strength, and nothing is counted by it.
func (t *talk) sold(at int, percent exact.Number) bool {
	if next := t.text(at + 2); !held[t.text(at-1)] || !t.closes(at) && !t.closes(at+1) && (isWhite(next) || next == "dry" || next == "of" || next == "off") {
		return false
	}
	return t.listed(percent)
}

// listed reports whether a range is mixed with a developer of a strength.
func (t *talk) listed(percent exact.Number) bool {
	for _, r := range t.ranges {
		for _, terms := range r.Kinds {
			if len(terms.Strengths) > 0 && terms.Allows(peroxide.Percent(percent)) {
				return true
			}
		}
	}
	return false
}

// held stand before a bottle that was named before.
var held = set("the your my same")

// hundredth makes a share of a number of per cent.
var hundredth = exact.Of(1, 100)

// dry reads "eighty percent dry" and "half dry".
func dry(t *talk, at int) ([]Fact, int) {
	if t.text(at) == "half" && t.text(at+1) == "dry" {
		return []Fact{{Kind: Dry, Number: exact.Half}}, 2
	}
	number, ok := t.numberAt(at)
	if !ok || t.text(at+1) != "percent" || exact.Int(100).Less(number) {
		return nil, 0
	}
	share := []Fact{{Kind: Dry, Number: number.Mul(hundredth)}}
	switch {
	case t.text(at+2) == "dry":
		return share, 3
	case t.driedTo(at):
		return share, 2
	}
	return nil, 0
}

// driedTo reports whether hair is dried to a share: "I dry it to about eighty percent".
func (t *talk) driedTo(at int) bool {
	i := at - 1
	for about[t.text(i)] {
		i--
	}
	if w := t.text(i); w != "to" && w != "till" && w != "until" {
		return false
	}
	for j := i - 1; j >= i-4 && j >= 0 && !t.closes(j); j-- {
		if w := t.text(j); w == "dry" || w == "dried" || w == "drying" || w == "dries" {
			return true
		}
	}
	return false
}

// white reads "thirty percent white", "a quarter of the front is white", and shares
// said after it: "the white: seventy round the hairline, and twenty percent at most".
func white(t *talk, at int) ([]Fact, int) {
	if number, ok := t.numberAt(at); ok && t.text(at+1) == "percent" && !exact.Int(100).Less(number) {
		for i := at + 2; i <= at+4 && !t.closes(i-1); i++ {
			if isWhite(t.text(i)) {
				return []Fact{{Kind: White, Number: number.Mul(hundredth)}}, i + 1 - at
			}
		}
		if t.whiteLately(at) && (t.closes(at+1) || afterShare[t.text(at+2)]) && !t.ofDeveloper(at) {
			return []Fact{{Kind: White, Number: number.Mul(hundredth)}}, 2
		}
		return nil, 0
	}
	if share, ok := t.bareShare(at); ok {
		return []Fact{{Kind: White, Number: share}}, 1
	}
	share, n := t.share(at)
	if n == 0 {
		return nil, 0
	}
	if isWhite(t.text(at + n)) {
		return []Fact{{Kind: White, Number: share}}, n + 1
	}
	for i := at + n; i < at+8 && (i == at+n || !t.closes(i-1)); i++ {
		if isWhite(t.text(i)) && turnsWhite[t.text(i-1)] {
			return []Fact{{Kind: White, Number: share}}, i + 1 - at
		}
	}
	return nil, 0
}

// turnsWhite stand before "white" where it is said of a share.
var turnsWhite = set("is its are gone went turned")

// share reads "a quarter of", "half" and "three quarters".
func (t *talk) share(at int) (share exact.Number, words int) {
	number, ok := t.numberAt(at)
	if part, isPart := fractions[t.text(at)]; isPart && !ok {
		return part, 1
	}
	switch next := t.text(at + 1); {
	case ok && next == "quarters" && number.Equal(exact.Int(3)):
		return exact.Of(3, 4), 2
	case ok && next == "thirds" && number.Equal(exact.Int(2)):
		return exact.Of(2, 3), 2
	}
	return share, 0
}

// bareShare reads a share of white that leaves its unit out, at the end of a clause: "the
// sides are fifty percent, and in the temples, eighty".
func (t *talk) bareShare(at int) (share exact.Number, ok bool) {
	const reach = 20
	number, ok := t.numberAt(at)
	ten := exact.Int(10)
	if n := len(t.facts); !ok || !t.closes(at) && !afterNumber[t.text(at+1)] || n < 2 || number.Less(ten) || exact.Int(100).Less(number) || !number.Quo(exact.Int(5)).IsInt() ||
		t.facts[n-1].Kind != Section || t.facts[n-2].Kind != White || at-t.where[n-2] > reach {
		return share, false
	}
	return number.Mul(hundredth), true
}

// whiteLately reports whether white hair is what was spoken of shortly before.
func (t *talk) whiteLately(at int) bool {
	for i := max(0, at-35); i < at; i++ {
		if isWhite(t.text(i)) {
			return true
		}
	}
	return false
}

// afterShare is what may follow a share that names nothing.
var afterShare = set("at perhaps maybe there here and all if or if but")

func isWhite(word string) bool { return whites[word] }

// whites are the words for white hair, also in "her grey's about forty percent".
var whites = set("white grey whites greys grays")
