package heard

import (
	"strings"

	"plait/internal/exact"
	"plait/internal/measure"
)

// mostDeveloper is the largest share of developer in a ratio that is taken for one
// (common practice: makers print from 1:1 to 1:3).
var mostDeveloper = exact.Int(4)

// ratio reads "one to one and a half" and "1:1.5".
func ratio(t *talk, at int) ([]Fact, int) {
	colour, ok := t.numberAt(at)
	if !ok || t.closes(at) || t.text(at+1) != "to" {
		return nil, 0
	}
	developer, ok := t.numberAt(at + 2)
	if !ok || colour.IsZero() || developer.Less(colour) || mostDeveloper.Less(developer) {
		return nil, 0
	}
	if !colour.Equal(exact.One) && !t.mixes(at) || t.text(at-1) == "from" || t.counts(at+2) {
		return nil, 0
	}
	return []Fact{{Kind: Ratio, Ratio: measure.Ratio{Colour: colour, Developer: developer}}}, 3
}

// mixes reports whether one of the words before a place says that a ratio follows.
func (t *talk) mixes(at int) bool {
	for i := max(0, at-4); i < at; i++ {
		switch t.text(i) {
		case "ratio", "mix", "mixed", "mixing", "mixes":
			return true
		}
	}
	return false
}

// counts reports whether the number at a place counts what follows it: "one to two
// minutes", "one to two fingers". Many small words end in s as well.
func (t *talk) counts(at int) bool {
	if t.closes(at) {
		return false
	}
	next := t.text(at + 1)
	if next == "percent" || next == "volume" || next == "session" || next == "lesson" || next == "inch" || next == "level" {
		return true
	}
	return strings.HasSuffix(next, "s") && !smallWords[next]
}

var smallWords = set("is its this thats as so yes was has always plus us heres theres lets")

// ratioOfParts reads "one part powder, two parts developer".
func ratioOfParts(t *talk, at int) ([]Fact, int) {
	colour, next := t.partsOf(at)
	if next == 0 || t.isCodeName(colour.Of) {
		return nil, 0
	}
	i := at + next
	for t.text(i) == "to" || t.text(i) == "and" || t.text(i) == "with" {
		i++
	}
	developer, used := t.partsOf(i)
	if colour.Of == Developer && developer.Of != "" && developer.Of != Developer {
		colour, developer = developer, colour
	}
	if used == 0 || colour.Of == Developer || developer.Of != Developer || colour.Number.IsZero() || developer.Number.IsZero() {
		return nil, 0
	}
	r := measure.Ratio{Colour: colour.Number, Developer: developer.Number}
	return []Fact{{Kind: Ratio, Ratio: r}}, i + used - at
}
