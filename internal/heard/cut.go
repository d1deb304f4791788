package heard

import (
	"strings"
	"time"

	"plait/internal/caption"
	"plait/internal/exact"
)

// CutKind says what was heard of a cut.
type CutKind uint8

// What can be heard of a cut.
const (
	Parting   CutKind = iota // a parting by its usual name
	Elevation                // degrees from the head, 0 for natural fall
	Travels                  // the guide goes along
	Fixed                    // the guide does not move
	Length                   // centimetres of hair that is left
	Measure                  // other centimetres: of a section, of what comes off
)

// CutFact is one thing that was said of a cut.
type CutFact struct {
	Kind    CutKind
	Cue     int           // index of the cue in which it begins
	At      time.Duration // when that cue begins
	Said    string        // in the words of the talk
	Parting string        // "centre", "ear to ear"
	Number  exact.Number  // degrees or cm
	Floor   bool          // degrees were said to count from the floor
}

// Cuts returns what is heard of partings, elevations, guides and lengths in talk
// about hair, in its order.
func Cuts(cues []caption.Cue) []CutFact {
	t := listen(cues, nil)
	if !t.aboutHair() {
		return nil
	}
	var facts []CutFact
	for i := 0; i < len(t.words); {
		if right, n := t.otherLength(i, facts); n > 0 {
			facts[len(facts)-1] = right
			i += n
			continue
		}
		f, n := t.cut(i)
		if n > 0 && !t.doubted(i) && !t.onlyCould(i) {
			f.Cue = t.words[i].cue
			f.At, f.Said = t.cues[f.Cue].From, t.said(i, i+n)
			facts = append(facts, f)
		}
		i += max(1, n)
	}
	return facts
}

// onlyCould reports whether the words before a place allow what follows, or liken something to
// it: "you can go up to 135", "it hangs like a triangle".
func (t *talk) onlyCould(at int) bool {
	if t.text(at-1) == "like" || t.text(at-1) == "a" && t.text(at-2) == "like" {
		return true
	}
	for i := at - 1; i > at-5 && i > 0 && !t.closes(i); i-- {
		if w := t.text(i - 1); t.text(i) == "go" && (w == "can" || w == "could" || w == "may") {
			return true
		}
	}
	return false
}

// cut reads what is said of a cut at a word, and returns how many words that takes.
func (t *talk) cut(at int) (f CutFact, words int) {
	if name, n := t.parting(at); n > 0 {
		return CutFact{Kind: Parting, Parting: name}, n
	}
	if n := t.natural(at); n > 0 {
		return CutFact{Kind: Elevation}, n
	}
	if n := t.follows(at, "travelling guide", "traveling guide", "moving guide"); n > 0 {
		return CutFact{Kind: Travels}, n
	}
	if n := t.follows(at, "stationary guide", "fixed guide", "does not move", "doesnt move"); n > 0 {
		return CutFact{Kind: Fixed}, n
	}
	if number, ok := t.numberAt(at); ok && t.text(at+1) == "degrees" && !exact.Int(180).Less(number) {
		return CutFact{Kind: Elevation, Number: number, Floor: t.fromFloor(at + 2)}, 2
	}
	cm, n := t.centimetres(at)
	if n == 0 {
		return f, 0
	}
	f = CutFact{Kind: Measure, Number: cm}
	if t.lengthOfHair(at, at+n) {
		f.Kind = Length
	}
	return f, n
}

// fractions of a unit or of a whole by their words.
var fractions = map[string]exact.Number{"half": exact.Half, "quarter": exact.Of(1, 4), "third": exact.Of(1, 3)}

// centimetres reads a length and returns how many words it takes: "seven centimetres", "an
// inch and a half", "half a centimetre", "quarter of an inch".
func (t *talk) centimetres(at int) (cm exact.Number, words int) {
	number, ok := t.numberAt(at)
	i := at
	switch part, isPart := fractions[t.text(at)]; {
	case isPart && !ok:
		number = part
		if t.text(i+1) == "of" {
			i++
		}
		if w := t.text(i + 1); w == "a" || w == "an" {
			i++
		}
	case ok:
	case t.text(at) == "a" || t.text(at) == "an":
		number = exact.One
	default:
		return cm, 0
	}
	each := unitOfLength(t.text(i + 1))
	if each.IsZero() || i > at && t.closes(at) {
		return cm, 0
	}
	n := i + 2 - at
	if t.follows(at+n, "and a half") > 0 && number.IsInt() {
		number, n = number.Add(exact.Half), n+3
	}
	return number.Mul(each), n
}

// follows returns how many words the one of some phrases takes that stands at a place.
func (t *talk) follows(at int, phrases ...string) int {
	for _, p := range phrases {
		n := 0
		for more := true; more; n++ {
			var w string
			if w, p, more = strings.Cut(p, " "); t.text(at+n) != w {
				n = -1
				break
			}
		}
		if n > 0 {
			return n
		}
	}
	return 0
}

// parting reads the name of a parting.
func (t *talk) parting(at int) (name string, words int) {
	for _, p := range []struct {
		name    string
		phrases []string
	}{
		{"centre", []string{"centre parting", "center parting", "center part", "middle parting", "middle part", "straight down the middle"}},
		{"ear to ear", []string{"ear to ear"}},
		{"horseshoe", []string{"horseshoe"}},
		{"triangle", []string{"triangle"}},
		{"side", []string{"side parting", "side part"}},
	} {
		if n := t.follows(at, p.phrases...); n > 0 {
			return p.name, n
		}
	}
	_, counted := t.numberAt(at - 1)
	if w := t.text(at); !counted && (w == "parts" || w == "split" || w == "divide") { // "part" and "parts" are one word here
		for i := at + 1; i <= at+3; i++ {
			if n := t.follows(i, "in the middle", "down the middle", "through the middle"); n > 0 {
				return "centre", i + n - at
			}
		}
	}
	return "", 0
}

// natural reads what says that hair is not lifted.
func (t *talk) natural(at int) int {
	return t.follows(at, "no elevation", "zero elevation", "elevation zero", "elevation is zero", "zero degrees", "natural fall")
}

// fromFloor reports whether degrees are said to be counted from the floor.
func (t *talk) fromFloor(at int) bool {
	for i := at; i < at+6; i++ {
		switch {
		case t.text(i) == "not":
			return false
		case t.follows(i, "from the floor", "to the floor") > 0:
			return true
		}
	}
	return false
}

// unitOfLength returns the centimetres of a unit; zero for what is none. An inch is
// 2.54 cm exactly (the international inch of 1959).
func unitOfLength(word string) exact.Number {
	switch word {
	case "centimetres", "centimetre", "centimeters", "centimeter", "cm", "centis":
		return exact.One
	case "millimetres", "millimetre", "millimeters", "millimeter", "mm", "mil":
		return exact.Of(1, 10)
	case "inches", "inch":
		return exact.Of(254, 100)
	}
	return exact.Zero
}

// lengthOfHair reports whether the words round a measure, which stands in the words from at up
// to end, make it one of hair that is left, and not of a section or of what comes off.
func (t *talk) lengthOfHair(at, end int) bool {
	for i := end; i < end+4; i++ {
		switch t.text(i) {
		case "off", "wide", "deep", "back", "above", "section", "slice", "longer", "shorter":
			return false
		}
		if t.closes(i) {
			break
		}
	}
	for i := at - 1; i >= max(t.sentence(at), at-12); i-- {
		switch t.text(i) {
		case "off", "down", "section", "slice", "about":
			return false
		case "shortest", "longest", "length", "leave", "leaving", "guide", "layer", "be", "stays", "long":
			return true
		}
	}
	return false
}

// otherLength reads "did I say seven? I mean eight" behind a length.
func (t *talk) otherLength(at int, facts []CutFact) (right CutFact, words int) {
	const reach = 6
	wrong, said := t.numberAt(at + 3)
	if t.follows(at, "did i say") == 0 || !said || len(facts) == 0 {
		return right, 0
	}
	right = facts[len(facts)-1]
	for i := at + 4; i < at+4+reach; i++ {
		number, ok := t.numberAt(i)
		if before := t.text(i - 1); !ok || before != "mean" && before != "meant" {
			continue
		}
		for _, each := range []exact.Number{exact.One, exact.Of(254, 100), exact.Of(1, 10)} {
			if right.Kind >= Length && wrong.Mul(each).Equal(right.Number) {
				right.Number = number.Mul(each)
				right.Said += " … " + t.said(at, i+1)
				return right, i + 1 - at
			}
		}
	}
	return right, 0
}
