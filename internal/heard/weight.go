package heard

import (
	"plait/internal/exact"
)

// weight reads "thirty grams of 6G" and "bond cream, five grams".
func weight(t *talk, at int) ([]Fact, int) {
	number, ok := t.numberAt(at)
	if !ok || t.text(at+1) != "grams" || number.IsZero() {
		return nil, 0
	}
	f := Fact{Kind: Weight, Number: number}
	n := 2
	if facts, words := t.oneAndOther(at+2, number); words > 0 {
		return facts, 2 + words
	}
	if !t.closes(at + 1) {
		if t.text(at+2) == "of" && t.text(at+3) == "each" || t.text(at+2) == "each" {
			return t.each(at, f, t.eachWords(at))
		}
		of, m := t.subject(at + 2)
		f.Of, n = of, n+m
	}
	if f.Of == "" {
		f.Of = t.before(at)
	}
	if f.Of == "" && t.closes(at+1) {
		f.Of = t.lastNamed(at)
	}
	if f.Of == "" {
		f.Of = t.unsaid(at)
	}
	facts := []Fact{f}
	if last := t.words[at+n-1]; last.code != "" {
		facts = append(facts, Fact{Kind: Shade, Code: last.code})
	}
	return facts, n
}

// eachWords returns how many words "fifteen grams of each" takes.
func (t *talk) eachWords(at int) int {
	if t.text(at+2) == "of" {
		return 4
	}
	return 3
}

// each gives a weight to the last two shades.
func (t *talk) each(at int, f Fact, words int) ([]Fact, int) {
	codes := t.lastCodes(at)
	if len(codes) < 2 {
		return []Fact{f}, words
	}
	a, b := f, f
	a.Of, b.Of = codes[0], codes[1]
	return []Fact{a, b}, words
}

// lastNamed returns what a short sentence names at its end, right before one that says nothing but
// a weight: "Bowl A is the powder. Forty grams."
func (t *talk) lastNamed(at int) string {
	if at == 0 || !t.words[at-1].ends || t.words[at-1].asked {
		return ""
	}
	return subjects[t.text(at-1)]
}

// before returns what stands in front of a weight, behind a comma: "bond cream, five
// grams".
func (t *talk) before(at int) string {
	at--
	for at > 0 && sparing[t.text(at)] {
		at-- // "0.11, only two grams"
	}
	if at < 0 || t.words[at].ends || !t.words[at].comma {
		return ""
	}
	w := t.words[at]
	switch {
	case w.code != "":
		return w.code
	case w.text == "cream" && at > 0:
		return t.text(at-1) + " cream"
	}
	return subjects[w.text]
}

// unsaid returns what a weight is of that leaves it out, where the words before have it: what was
// just brought out, the developer of a ratio, or what the weight before it was of.
func (t *talk) unsaid(at int) string {
	n := len(t.facts)
	for n > 0 && (t.facts[n-1].Kind == Shade || t.facts[n-1].Kind == Section) {
		n--
	}
	if n == 0 {
		return t.broughtOut(at)
	}
	last, away := t.facts[n-1], at-t.where[n-1]
	switch before := t.text(at - 1); {
	case last.Kind == Weight && before == "and" && away <= weightReach && t.text(at+3) == "the" && (t.text(at+2) == "in" || t.text(at+2) == "for"):
		return last.Of // "sixty of developer for the root and eighty grams in the toner"
	case last.Kind == Weight && (before == "that" || before == "it") && t.text(at-2) == "make" && away <= window:
		return last.Of // "make that twenty grams"
	case last.Kind == Ratio && makes[before] && away <= weightReach && !t.inAll(at+2):
		return Developer // "one to two, so that's a hundred grams"
	}
	return t.broughtOut(at)
}

// weightReach is how many words may lie between what a weight is of and the weight.
const weightReach = 12

// makes stand before a weight that follows from a ratio.
var makes = set("so thats its makes means is")

// inAll reports whether a weight is said to be that of everything together.
func (t *talk) inAll(at int) bool {
	for i := at; i < at+5 && !t.closes(i-1); i++ {
		if wholes[t.text(i)] {
			return true
		}
	}
	return false
}

var wholes = set("total altogether together all bowl mixed mix everything")

// broughtOut returns what was taken up shortly before a place, with nothing weighed since: "so
// this is the powder and I'm going to go fifty grams".
func (t *talk) broughtOut(at int) string {
	first := at - weightReach
	if n := len(t.facts); n > 0 {
		first = max(first, t.where[n-1]+1)
	}
	for i := at - 1; i >= max(first, 2); i-- {
		what := subjects[t.text(i)]
		if t.text(i) == "additive" {
			what = "additive"
		}
		if what == "" || what == Mixed {
			continue
		}
		for j := i - 1; j >= i-2 && j > 0; j-- {
			if articles[t.text(j)] && bringing[t.text(j-1)] {
				return what
			}
		}
	}
	return ""
}

// bringing stand before what is taken up to be weighed.
var bringing = set("is heres its thats got have take takes taking add adding")

// sparing may stand before a weight.
var sparing = set("only just about roughly maybe exactly say")

// tubes reads "half a tube of 7.1".
func tubes(t *talk, at int) ([]Fact, int) {
	number, ok := t.numberAt(at)
	i := at + 1
	switch t.text(at) {
	case "half":
		number, ok = exact.Half, true
	case "quarter":
		number, ok = exact.Of(1, 4), true
	case "a", "whole":
		number, ok = exact.One, true
	}
	if t.text(i) == "a" || t.text(i) == "whole" {
		i++
	}
	if !ok || t.text(i) != "tubes" || number.IsZero() || t.closes(i) {
		return nil, 0
	}
	of, n := t.subject(i + 1)
	if !t.isCodeName(of) && of != Colour {
		return nil, 0
	}
	facts := []Fact{{Kind: Weight, Number: number, Tubes: true, Of: of}}
	if last := t.words[i+n]; last.code != "" {
		facts = append(facts, Fact{Kind: Shade, Code: last.code})
	}
	return facts, i + 1 + n - at
}

// sameAgain reads the weight of another bowl that leaves out of what it is: "sixty grams of
// developer in the first bowl and ninety in the second".
func sameAgain(t *talk, at int) ([]Fact, int) {
	const reach = 12
	number, ok := t.numberAt(at)
	n := len(t.facts)
	if !ok || t.closes(at) || n == 0 || t.facts[n-1].Kind != Weight || at-t.where[n-1] > reach || number.Less(exact.Int(5)) ||
		t.text(at+1) != "in" && t.text(at+1) != "for" || t.text(at+2) != "the" || !otherBowl[t.text(at+3)] {
		return nil, 0
	}
	return []Fact{{Kind: Weight, Number: number, Of: t.facts[n-1].Of}}, 1
}

// oneAndOther reads behind a first weight "of the one and twenty-five of the other", which are the
// last two shades.
func (t *talk) oneAndOther(at int, first exact.Number) ([]Fact, int) {
	n := t.follows(at, "of the one")
	if n == 0 {
		return nil, 0
	}
	i := at + n
	if t.text(i) == "and" {
		i++
	}
	second, ok := t.numberAt(i)
	other := t.follows(i+1, "of the other")
	codes := t.lastCodes(at)
	if !ok || other == 0 || len(codes) < 2 {
		return nil, 0
	}
	return []Fact{{Kind: Weight, Number: first, Of: codes[0]}, {Kind: Weight, Number: second, Of: codes[1]}}, i + 1 + other - at
}

// otherBowl name a bowl beside the one before.
var otherBowl = set("second other next third big small")

// bareWeight reads "eighty of cream and eighty of peroxide", which leave the grams
// unsaid, and "fifteen of 9V".
func bareWeight(t *talk, at int) ([]Fact, int) {
	number, ok := t.numberAt(at)
	if !ok || t.closes(at) || t.text(at+1) != "of" || number.Less(exact.Int(5)) {
		return nil, 0
	}
	i := at + 2
	if t.text(i) == "the" {
		i++
	}
	if facts, n := strength(t, i); n > 0 && i == at+3 { // "sixteen of the four percent"
		return append([]Fact{{Kind: Weight, Number: number, Of: Developer}}, facts...), i + n - at
	}
	if i < len(t.words) && t.words[i].code != "" {
		code := t.words[i].code
		return []Fact{{Kind: Weight, Number: number, Of: code}, {Kind: Shade, Code: code}}, i + 1 - at
	}
	if facts, words := t.oneAndOther(at+1, number); words > 0 {
		return facts, 1 + words
	}
	of := subjects[t.text(i)]
	switch code := t.byTone(t.text(i)); {
	case code != "":
		of = code
	case t.text(i) == "cream":
		of = Colour
	}
	if of == "" || of == Mixed {
		return nil, 0
	}
	return []Fact{{Kind: Weight, Number: number, Of: of}}, i + 1 - at
}
