// Package question is the notation of what a learner is asked: the question block and
// the practical block.
//
//	ask: You need 52 g of colour in all. How much 6 vol goes in?
//	given: {formula: gloss, colour: 52 g}
//	find: developer
//	tests: weighs-bowl
//
// [Read] and [ReadPractical] keep what was typed, every value with its place. What a
// question asks for is computed elsewhere, by the engines that compute the bowls: a
// typed answer beside `find` is a claim.
package question

import (
	"plait/internal/source"
)

// Kind says how a question is answered.
type Kind string

// The kinds of questions, each named as its key.
const (
	Find   Kind = "find"   // a value that plait works out
	Answer Kind = "answer" // a typed number with its unit
	Choose Kind = "choose" // one or several of a list
	Order  Kind = "order"  // a list brought into order
	Pairs  Kind = "pairs"  // what belongs together
	Level  Kind = "level"  // a rung of the ladder
	Place  Kind = "place"  // a section of a head sheet
)

// Kinds returns all kinds, in the order the handbook gives them.
func Kinds() []Kind { return []Kind{Find, Answer, Choose, Order, Pairs, Level, Place} }

// Block is one question as it was written. Of the values of a kind only those of its
// own are set.
type Block struct {
	Name source.Text
	Span source.Span // where the block as a whole is blamed
	Kind Kind

	Ask   source.Text
	Given Given

	Find   source.Text // what is sought: a quantity, or a quantity of a formula or section
	Answer source.Text // the answer, of a Find a claim
	Choose Choice
	Order  []source.Text // in the right order
	Pairs  []Pair
	Level  source.Text // a level, or a quantity that is one
	Place  source.Text // a section, or "largest section"

	Near    source.Text // how far off is still right
	Tests   source.Text // the outcome
	Because source.Text
	Slips   []Slip
	Vary    []Vary
	Paper   Paper
	Hard    Difficulty

	Broken bool // a value could not be read and was reported
}

// Choice is a list to choose from. Of is set where plait works out which is right.
type Choice struct {
	Of      source.Text // a quantity
	Options []Option
}

// Option is one thing to choose. Right is not set where plait works it out.
type Option struct {
	Text  source.Text
	Right bool
}

// Several reports whether more than one option is right.
func (c Choice) Several() bool {
	right := 0
	for _, o := range c.Options {
		if o.Right {
			right++
		}
	}
	return right > 1
}

// Pair is two things that belong together.
type Pair struct{ Left, Right source.Text }

// Slip is a tempting wrong answer: a typed one, or a named way to go wrong from which
// plait works it out. Say is what to tell who falls for it; a named slip without it has
// words of its own.
type Slip struct {
	Wrong source.Text
	Named NamedSlip // empty for a typed answer
	Say   source.Text
}

// NamedSlip is a way to go wrong that is known and can be computed.
type NamedSlip string

// The named slips.
const (
	RatioForgotten  NamedSlip = "ratio forgotten"        // one to one, whatever the ratio
	RatioSwapped    NamedSlip = "ratio swapped"          // developer to colour
	BottleStrength  NamedSlip = "strength of the bottle" // the bottle for the bowl
	PartsAsEqual    NamedSlip = "parts as equal"         // every shade the same weight
	TotalForColour  NamedSlip = "total for colour"       // the weight given taken for the colour's, or the colour's for all
	LevelOfFirst    NamedSlip = "level of the first"     // the first shade's level for the bowl's
	VolumeAsPercent NamedSlip = "volume as per cent"     // 20 vol taken for 20 %
)

// NamedSlips returns all named slips.
func NamedSlips() []NamedSlip {
	return []NamedSlip{RatioForgotten, RatioSwapped, BottleStrength, PartsAsEqual, TotalForColour, LevelOfFirst, VolumeAsPercent}
}

// Vary says which values one key of given takes in the practice variants.
type Vary struct {
	Key    source.Text
	Values []source.Text
}

// Paper says what of a question is kept for papers, which are sat for marks: what
// learners practise with shows its answer.
type Paper struct {
	Alone bool   // the whole question is: learners meet it in a paper only
	Vary  []Vary // figures that papers ask with, and practice never does
	Span  source.Span
}

// Difficulty is how hard an author finds a question. Papers draw by it.
type Difficulty string

// The difficulties. Middle is what a question is that says nothing.
const (
	Easy   Difficulty = "easy"
	Middle Difficulty = "middle"
	Hard   Difficulty = "hard"
)

// Practical is something to show an assessor.
type Practical struct {
	Name   source.Text
	Span   source.Span
	Tests  source.Text
	Show   []source.Text // what the assessor ticks, one by one
	Broken bool
}
