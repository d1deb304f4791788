// Package heard finds the facts of a service in talk: which shades, how many parts
// or grams, at which ratio and strength, for how long, at which level, where on the
// head, how dry.
//
// [Read] takes captions and returns what was said as fact, each with the cue it
// stands in. Numbers may be digits or words, in British or American use, with the
// punctuation of an edited text or without any, as machines write captions. What
// is denied, supposed, asked or told of somebody else is left out, and what is
// taken back later ("one to one … no, sorry, one to two") is marked as withdrawn.
//
// The rules are phrases of the trade, from memory and from invented talks; there is
// no statistics and no guess in them. They would rather miss a fact than make one
// up.
package heard

import (
	"time"

	"plait/internal/caption"
	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/peroxide"
	"plait/internal/shade"
	"plait/internal/source"
)

// Kind says what a fact is about.
type Kind uint8

// The kinds of facts.
const (
	Shade    Kind = iota // a shade by its code
	Parts                // parts of something
	Weight               // grams, or tubes, of something
	Ratio                // colour to developer
	Strength             // of the developer
	Time                 // how long something stays, runs or takes
	Level                // of hair, or of what is aimed at
	Section              // a named place of the head
	Dry                  // how dry the hair is, a share of one
	White                // the share of white hair, a fraction of one
)

var kindNames = [...]string{"shade", "parts", "weight", "ratio", "strength", "time", "level", "section", "dry", "white"}

// String returns the kind's name.
func (k Kind) String() string { return kindNames[k] }

// What parts and weights can be of, beside the code of a shade and the name of an
// additive.
const (
	Colour    = "colour"
	Developer = "developer"
	Powder    = "lightener"
	Mixed     = "mixed"
)

// Clock says what a time was said of.
type Clock uint8

// What a time can be of.
const (
	Stays   Clock = iota // how long something stays on, or it was not said
	Applies              // how long it takes to do
)

// Fact is one thing that was said. Which fields count depends on the kind.
type Fact struct {
	Kind Kind
	Cue  int           // index of the cue in which it begins
	At   time.Duration // when that cue begins
	Said string        // in the words of the talk
	Span source.Span   // where it stands in the captions

	Of       string            // of parts and weights: a code, one of the words above, an additive; empty for unsaid
	Code     string            // of a shade: as its range lists it
	Place    string            // of a section: the usual word for it
	Number   exact.Number      // of parts, weight in grams, level, dry and white
	Tubes    bool              // the weight is a number of tubes
	Ratio    measure.Ratio     // colour first
	Strength peroxide.Strength // of the developer
	Percent  bool              // the strength was said in per cent, not in volumes
	Time     measure.Span      // how long
	Clock    Clock
	Touch    bool // the time was said to count from the first touch
	Ended    bool // the time was said to count from the last section
	OfBowl   bool // the time was said of a bowl that stays on

	// Withdrawn is set where the talk takes the fact back later.
	Withdrawn bool
}

// Value prints what the fact says: "2 of 8N", "30 g of 6G", "1:1.5", "20 vol",
// "35 min", "nape", "80 %".
func (f Fact) Value() string {
	of := ""
	if f.Of != "" {
		of = " of " + f.Of
	}
	switch f.Kind {
	case Shade:
		return f.Code
	case Parts:
		return f.Number.String() + of
	case Weight:
		if f.Tubes {
			return f.Number.String() + " tube" + of
		}
		return f.Number.String() + " g" + of
	case Ratio:
		return f.Ratio.String()
	case Strength:
		if f.Percent {
			return f.Strength.String()
		}
		return f.Strength.VolumesString()
	case Time:
		return f.Time.String()
	case Section:
		return f.Place
	case Level:
		return f.Number.String()
	}
	return f.Number.Mul(exact.Int(100)).String() + " %"
}

// Read returns the facts that are heard in some cues, in their order, including
// those that are withdrawn later. Shades are known by the ranges of the course;
// without any, a number with one or two capitals behind it is taken for one. Talk
// that is not about hair has no facts.
func Read(cues []caption.Cue, ranges []*shade.Range) []Fact {
	t := listen(cues, ranges)
	if !t.aboutHair() {
		return nil
	}
	t.colour = t.aboutColour()
	for i := 0; i < len(t.words); {
		i += max(1, t.take(i))
	}
	t.withdraw()
	return t.facts
}

// phrase looks for a fact at a word and returns it with the number of words it
// takes, 0 for none.
type phrase struct {
	colour bool // means something only in talk about colour
	find   func(t *talk, at int) (facts []Fact, words int)
}

// phrases in the order they are tried; the first that fits wins.
var phrases = []phrase{
	{true, ratioOfParts},
	{true, parts},
	{true, equalParts},
	{true, twice},
	{true, weight},
	{true, tubes},
	{true, bareWeight},
	{true, sameAgain},
	{false, dry},
	{false, white},
	{true, strength},
	{false, minutes},
	{false, bareMinutes},
	{true, ratio},
	{false, level},
	{false, levelArticle},
	{true, shadeCode},
	{false, section},
}

// take adds the facts that begin at a word and returns how many words they take.
// Facts inside a phrase that is doubted are passed over with it.
func (t *talk) take(at int) (words int) {
	if n := t.recants(at); n > 0 {
		return n
	}
	t.tellsOfKind(at)
	facts, n := t.find(at, t.colour)
	if n == 0 {
		if right, ok := t.rights(at); ok {
			t.add(right, at, at+1)
			return 1
		}
	}
	if len(facts) > 0 && !t.doubted(at) {
		for _, f := range facts {
			t.add(f, at, at+n)
		}
	}
	return n
}

// find returns what the first phrase that fits at a word says, and how many words it
// takes.
func (t *talk) find(at int, colour bool) (facts []Fact, words int) {
	for _, p := range phrases {
		if p.colour && !colour {
			continue
		}
		if facts, n := p.find(t, at); n > 0 {
			return facts, n
		}
	}
	return nil, 0
}

// add keeps a fact that stands in the words from up to to.
func (t *talk) add(f Fact, from, to int) {
	f.Cue = t.words[from].cue
	f.At, f.Said, f.Span = t.cues[f.Cue].From, t.said(from, to), t.place(from, to)
	t.facts = append(t.facts, f)
	t.where = append(t.where, from)
}
