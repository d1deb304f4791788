// Package formula is the notation of a bowl: what an author writes in a formula
// block or on one line.
//
//	colour: 2 parts 8N + 1 part 8V
//	developer: 6 vol
//	ratio: 1:2
//	amount: 30 g colour
//
// [Read] takes a block from YAML and [ParseLine] takes the short form
// "2 parts 8N + 1 part 8V, 6 vol at 1:2, 30 g"; both give a [Block], in which
// every value keeps its place and nothing is computed. [Block.Lower] turns it
// into a mix.Formula against a range of shades. What can be computed from the
// rest of a block but was typed all the same stays in the block as a claim, for
// the rules to hold against the truth.
package formula

import (
	"plait/internal/exact"
	"plait/internal/hair"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/peroxide"
	"plait/internal/shade"
	"plait/internal/source"
)

// Block is one bowl as it was written.
type Block struct {
	Name source.Text // empty for the short form
	Span source.Span // where the block as a whole is blamed

	On        []source.Text // where it goes: sections of a head sheet, or words
	Sections  []source.Text // those of On without quotes: with a head sheet, names of sections
	Kind      source.Stated[shade.Kind]
	Range     source.Text // the range named in the block
	Colour    []Item
	Additives []Additive
	Developer Developer
	Ratio     source.Stated[measure.Ratio]
	Amount    Amount
	Apply     Application // how long the application takes
	Start     *Start      // when it begins; nil for most, where nothing is said
	Time      Time
	Hair      source.Stated[Hair]
	Target    source.Stated[Target]

	// Claims: values that follow from the rest.
	Mixed    source.Stated[measure.Mass]
	Strength source.Stated[peroxide.Strength]
	Level    source.Stated[exact.Number]

	// Broken is set where a value could not be read and was reported: the block
	// cannot be computed.
	Broken bool
}

// Unit is how a colour is dosed.
type Unit uint8

// The units of dosing. All items of a block use the same.
const (
	Parts Unit = iota
	Grams
	Percent
)

// Item is one shade of the colour.
type Item struct {
	Value exact.Number // parts, grams or per cent
	Unit  Unit
	Code  source.Text
	Range source.Text                 // the range it was said to be of; empty for the bowl's own
	Claim source.Stated[measure.Mass] // grams in brackets
	Span  source.Span
}

// Additive is something dosed beside the colour, by its share of the colour's
// weight or by its own.
type Additive struct {
	Name      source.Text
	PerColour exact.Number // a fraction of one; zero where Mass is set
	Mass      measure.Mass
	Span      source.Span
}

// Developer is what the colour is mixed with.
type Developer struct {
	None     bool // the colour is used as it is
	Strength source.Stated[peroxide.Strength]
	Pair     source.Stated[peroxide.Strength]   // the same strength in its other unit, in brackets
	Weight   source.Stated[measure.Mass]        // a claim where it follows from the ratio
	From     []source.Stated[peroxide.Strength] // the two it is blended from
	Span     source.Span
}

// Amount is the size of the bowl.
type Amount struct {
	Mass      source.Stated[measure.Mass]
	Of        mix.Size
	Bare      bool // neither "colour" nor "mixed" was said; only the short form allows it
	BySection bool // from the sections of the head sheet
	Span      source.Span
}

// Hair is what the colour goes on.
type Hair struct {
	Level shade.Level
	State hair.State
	White exact.Number // share of white hair, a fraction of one
}

// Target is what the hair should read.
type Target struct {
	Level shade.Level
	Tone  string // a word such as cool; empty for none
	Cover bool   // white hair is to be covered, and not blended
}
