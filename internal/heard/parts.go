package heard

import (
	"slices"
	"strings"

	"plait/internal/exact"
	"plait/internal/measure"
)

// parts reads "two parts of 6N".
func parts(t *talk, at int) ([]Fact, int) {
	f, n := t.partsOf(at)
	if n == 0 {
		return nil, 0
	}
	if f.Of == "" {
		return t.partsInTurn(at, f, n)
	}
	facts := []Fact{f}
	if last := t.words[at+n-1]; last.code != "" {
		facts = append(facts, Fact{Kind: Shade, Code: last.code})
	}
	return facts, n
}

// partsOf reads a number of parts and what they are of.
func (t *talk) partsOf(at int) (f Fact, words int) {
	number, ok := t.numberAt(at)
	if !ok || t.text(at+1) != "parts" || number.IsZero() {
		return f, 0
	}
	f = Fact{Kind: Parts, Number: number}
	if t.closes(at + 1) {
		return f, 2
	}
	of, n := t.subject(at + 2)
	f.Of = of
	return f, 2 + n
}

// partsInTurn reads "three parts to one part" behind two shades, which take them in
// the order in which they fell.
func (t *talk) partsInTurn(at int, first Fact, n int) ([]Fact, int) {
	codes := t.lastCodes(at)
	if t.text(at+n) != "to" || len(codes) < 2 {
		return []Fact{first}, n
	}
	second, m := t.partsOf(at + n + 1)
	if number, ok := t.numberAt(at + n + 1); m == 0 && ok && t.closes(at+n+1) {
		second, m = Fact{Kind: Parts, Number: number}, 1 // "three parts to one"
	}
	if m == 0 || second.Of != "" {
		return []Fact{first}, n
	}
	first.Of, second.Of = codes[0], codes[1]
	return []Fact{first, second}, n + 1 + m
}

// equals follow "equal" where two shades take the same.
var equals = set("parts halves amounts measures")

// equalParts reads "equal parts", "half and half": one part of each of two shades
// that follow in the sentence or fell before.
func equalParts(t *talk, at int) ([]Fact, int) {
	n := 0
	switch {
	case t.text(at) == "equal" && equals[t.text(at+1)]:
		n = 2
	case t.text(at) == "half" && t.text(at+1) == "and" && t.text(at+2) == "half":
		n = 3
	case t.text(at) == "half" && t.code(at+1) != "" && t.text(at+2) == "half" && t.code(at+3) != "":
		n = 1
	default:
		return nil, 0
	}
	if words := t.colourAndDeveloper(at + n); words > 0 {
		return []Fact{{Kind: Ratio, Ratio: measure.Ratio{Colour: exact.One, Developer: exact.One}}}, n + words
	}
	codes := t.lastCodes(at)
	if len(codes) < 2 {
		codes = t.nextCodes(at + n)
	}
	if len(codes) < 2 || t.partsFollow(at+n) {
		return nil, 0
	}
	return []Fact{
		{Kind: Parts, Number: exact.One, Of: codes[0]},
		{Kind: Parts, Number: exact.One, Of: codes[1]},
	}, n
}

// colourAndDeveloper returns how many words "of colour to developer" takes behind equal parts.
func (t *talk) colourAndDeveloper(at int) (words int) {
	i := at
	for t.text(i) == "of" || t.text(i) == "the" {
		i++
	}
	if first := subjects[t.text(i)]; first != Colour && first != Powder && t.text(i) != "cream" {
		return 0
	}
	i++
	if w := t.text(i); w != "and" && w != "to" && w != "with" {
		return 0
	}
	for i++; t.text(i) == "the" || t.text(i) == "my"; i++ {
	}
	if subjects[t.text(i)] != Developer {
		return 0
	}
	return i + 1 - at
}

// twice reads "twice as much developer" and "double the developer": one to two.
func twice(t *talk, at int) ([]Fact, int) {
	n := t.follows(at, "twice as much", "double the amount of", "twice the amount of", "double the", "twice the")
	if n == 0 || subjects[t.text(at+n)] != Developer {
		return nil, 0
	}
	return []Fact{{Kind: Ratio, Ratio: measure.Ratio{Colour: exact.One, Developer: exact.Int(2)}}}, n + 1
}

// partsFollow reports whether the same sentence goes on to count the parts: "half and
// half, one part of 6N to one part of 8V".
func (t *talk) partsFollow(at int) bool {
	for i := at; i < at+8 && !(i > at && t.closes(i-1)); i++ {
		if _, n := t.partsOf(i); n > 0 {
			return true
		}
	}
	return false
}

// near is how many words a shade may lie away from what is said of it without its
// name.
const near = 60

// lastCodes returns the two different shades that fell last, in the order in which
// they came up.
func (t *talk) lastCodes(at int) []string {
	var codes []string
	for i := len(t.facts) - 1; i >= 0 && at-t.where[i] <= near; i-- {
		f := t.facts[i]
		if f.Kind != Shade {
			continue
		}
		if known := slices.Index(codes, f.Code); known >= 0 {
			codes = append(slices.Delete(codes, known, known+1), f.Code) // it came up earlier still
		} else if len(codes) < 2 {
			codes = append(codes, f.Code)
		}
	}
	slices.Reverse(codes)
	return codes
}

// nextCodes returns the shades that follow in the same sentence.
func (t *talk) nextCodes(at int) []string {
	var codes []string
	for i := at; i < len(t.words) && i < at+12; i++ {
		if c := t.words[i].code; c != "" {
			codes = append(codes, c)
		}
		if t.words[i].ends {
			break
		}
	}
	return codes
}

// Words for what goes into a bowl.
var subjects = map[string]string{
	"developer": Developer, "peroxide": Developer,
	"colour": Colour, "tint": Colour, "dye": Colour, "toner": Colour, "gloss": Colour,
	"lightener": Powder, "powder": Powder, "bleach": Powder,
	"mix": Mixed, "mixture": Mixed, "product": Mixed,
}

// subject reads what a dose is of, behind its unit, and returns how many words that
// takes: "of the 6N", "6N", "of developer", "of the twenty volume", "of bond cream".
func (t *talk) subject(at int) (of string, words int) {
	i := at
	said := t.text(i) == "of"
	if said {
		i++
	}
	for t.text(i) == "the" || t.text(i) == "my" || t.text(i) == "this" {
		i++
	}
	if i >= len(t.words) {
		return "", 0
	}
	w := t.words[i]
	if w.code != "" {
		return w.code, i + 1 - at
	}
	if w.number && (t.text(i+1) == "volume" || t.text(i+1) == "percent") {
		return Developer, 0 // the strength itself is a fact of its own
	}
	if w.text == "natural" && t.text(i+1) == "shade" {
		i++
	}
	if code := t.byTone(w.text); code != "" {
		return code, i + 1 - at
	}
	if s, ok := subjects[w.text]; ok {
		return s, i + 1 - at
	}
	if s, ok := subjects[t.text(i+1)]; ok && !t.closes(i) && said && w.text != "to" {
		return s, i + 2 - at
	}
	if !said {
		return "", 0
	}
	if w.text == "that" || w.text == "it" {
		if what := t.broughtOut(at); what != "" {
			return what, i + 1 - at
		}
		return t.lastSubject(), i + 1 - at
	}
	return t.additive(i, at)
}

// additive reads the name of something else, one or two words long.
func (t *talk) additive(i, at int) (name string, words int) {
	name = t.text(i)
	if t.words[i].number || len(name) < 3 || counted[name] {
		return "", 0
	}
	if !t.closes(i) && t.text(i+1) == "cream" {
		return name + " cream", i + 2 - at
	}
	return name, i + 1 - at
}

// counted point at what was named before: "of the second one".
var counted = set("first second third last other same both all them these those")

// byTone returns the shade of a tone's name that fell last: "the copper".
func (t *talk) byTone(word string) string {
	for i := len(t.facts) - 1; i >= max(0, len(t.facts)-near); i-- {
		f := t.facts[i]
		if f.Kind == Shade && t.hasTone(f.Code, word) {
			return f.Code
		}
	}
	return ""
}

func (t *talk) hasTone(code, word string) bool {
	for _, r := range t.ranges {
		c, err := r.Find(code)
		if err != nil {
			continue
		}
		for _, tone := range c.Tones {
			if r.Tones[tone].Name == word {
				return true
			}
		}
	}
	return false
}

// lastSubject returns what was spoken of last: a shade, or the developer whose
// strength was said.
func (t *talk) lastSubject() string {
	for i := len(t.facts) - 1; i >= 0; i-- {
		switch f := t.facts[i]; f.Kind {
		case Strength:
			return Developer
		case Shade:
			return f.Code
		}
	}
	return ""
}

// isCodeName reports whether a subject is a shade.
func (t *talk) isCodeName(of string) bool {
	if of == "" || strings.Contains(of, " ") {
		return false
	}
	_, ok := t.findCode(of)
	return ok
}
