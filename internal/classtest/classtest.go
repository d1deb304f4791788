// Package classtest is what the marks of a class say about its test: how hard each
// question was, whether it tells those who know from those who do not, how far the
// marks can be trusted, and whether two assessors judge alike.
//
// All functions take plain numbers and answer with a [Figure], which holds either a
// value or the [Reason] why these marks give none. A figure is arithmetic and is
// worked out for any class that has one; [TrustIn] says whether the class is large
// enough to act on it.
package classtest

// Figure is a statistic, or the reason why there is none.
type Figure struct {
	Value float64
	Why   Reason // [Known] where Value stands
}

// Known reports whether the figure has a value.
func (f Figure) Known() bool { return f.Why == Known }

// Reason says why a figure has no value.
type Reason uint8

// The reasons.
const (
	Known         Reason = iota // there is a value
	NoAnswers                   // nobody answered
	OneLearner                  // nothing to compare with
	OneQuestion                 // a test of one question has no parts that could agree
	NoSpread                    // all marks are the same
	NoChoice                    // both assessors gave one and the same verdict throughout
	Incomplete                  // not everybody sat the same questions
	NotRightWrong               // marks other than 0 and 1
)

// String returns the reason in words that can stand behind "cannot be said: ".
func (r Reason) String() string {
	switch r {
	case Known:
		return "known"
	case NoAnswers:
		return "nobody answered"
	case OneLearner:
		return "only one learner sat it"
	case OneQuestion:
		return "a single question has nothing to agree with"
	case NoSpread:
		return "all marks are the same"
	case NoChoice:
		return "both assessors gave one and the same verdict throughout"
	case Incomplete:
		return "not everybody sat the same questions"
	}
	return "the marks are not simply right or wrong"
}

func known(v float64) Figure { return Figure{Value: v} }

func unknown(why Reason) Figure { return Figure{Why: why} }

// Trust says how far a figure of a class can be acted on.
type Trust uint8

// The sizes of a class, by what its figures are worth. Common practice, no source.
const (
	TooFew Trust = iota // below [FewestLearners]: chance decides
	Rough               // below [ManyLearners]: points at a question, proves nothing
	Steady
)

// FewestLearners and ManyLearners are the sizes of a class from which its figures say
// something at all, and something that would come again. Common practice, no source;
// thirty is the usual floor of textbooks for a correlation.
const (
	FewestLearners = 10
	ManyLearners   = 30
)

// TrustIn returns how far the figures of so many learners can be acted on.
func TrustIn(learners int) Trust {
	switch {
	case learners < FewestLearners:
		return TooFew
	case learners < ManyLearners:
		return Rough
	}
	return Steady
}
