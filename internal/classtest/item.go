package classtest

import (
	"slices"

	"gonum.org/v1/gonum/stat"
)

// Difficulty returns the share of those asked who were right:
//
//	p = right ÷ asked
//
// It is called difficulty although a high p is an easy question. From 0.2 to 0.8 a
// question is usable, as item-analysis handbooks have it.
func Difficulty(right, asked int) Figure {
	if asked == 0 {
		return unknown(NoAnswers)
	}
	return known(float64(right) / float64(asked))
}

// Answered is what one learner made of a question, and of the test as a whole.
type Answered struct {
	Mark float64 // of the question, from 0 to 1
	Test float64 // of the test, by which learners are put in order
}

// Discrimination returns how much better the upper group did on a question than the
// lower one:
//
//	D = (right in the upper group − right in the lower) ÷ size of one group
//
// The groups are the two halves of the class by its marks, in a class of [large] or
// more the upper and lower 27 %, which is where the two tails tell most (T. L. Kelley,
// The selection of upper and lower groups for the validation of test items, 1939; from
// memory). In an odd class the learner in the middle is in neither. Learners
// with the same marks are alike: where the edge of a group falls among them each
// counts for an equal share, so that the order of files never shows.
func Discrimination(class []Answered) Figure {
	group := len(class) / 2
	if len(class) >= large {
		group = (27*len(class) + 50) / 100
	}
	if group == 0 {
		return unknown(tooSmall(len(class)))
	}
	sorted := slices.Clone(class)
	slices.SortStableFunc(sorted, func(a, b Answered) int { return sign(b.Test - a.Test) })
	if sorted[0].Test == sorted[len(sorted)-1].Test {
		return unknown(NoSpread)
	}
	upper := firstOf(sorted, group)
	slices.Reverse(sorted)
	return known((upper - firstOf(sorted, group)) / float64(group))
}

// large is the size of a class from which its tails alone are compared. Common
// practice, no source: 27 % of fewer is a handful.
const large = 40

// firstOf adds up the marks of the first n learners of a sorted class. Those who tie
// for the last places share them.
func firstOf(sorted []Answered, n int) float64 {
	edge := sorted[n-1].Test
	var before, tied float64
	var sure, ties int
	for _, a := range sorted {
		switch {
		case a.Test == edge:
			tied += a.Mark
			ties++
		case ties == 0:
			before += a.Mark
			sure++
		}
	}
	return before + tied*float64(n-sure)/float64(ties)
}

func sign(x float64) int {
	switch {
	case x < 0:
		return -1
	case x > 0:
		return 1
	}
	return 0
}

// ItemTotal returns the correlation between the marks of a question and the marks of
// the learners on something else: with the whole test it is the item-total (for right
// and wrong the point-biserial) correlation; with the test without the question it is
// the corrected one, which a question does not inflate by agreeing with itself
// (S. Henrysson, Correction of item-total correlations in item analysis, Psychometrika
// 28, 1963; from memory). It is Pearson's:
//
//	r = Σ(x − x̄)(y − ȳ) ÷ √(Σ(x − x̄)² Σ(y − ȳ)²)
func ItemTotal(class []Answered) Figure {
	if len(class) < 2 {
		return unknown(tooSmall(len(class)))
	}
	marks, totals := make([]float64, len(class)), make([]float64, len(class))
	for i, a := range class {
		marks[i], totals[i] = a.Mark, a.Test
	}
	if !spread(marks) || !spread(totals) {
		return unknown(NoSpread)
	}
	return known(stat.Correlation(marks, totals, nil))
}

func tooSmall(learners int) Reason {
	if learners == 0 {
		return NoAnswers
	}
	return OneLearner
}

// spread reports whether the values differ. It is asked of the values themselves and
// not of their variance, which rounding can leave a hair above nothing.
func spread(values []float64) bool {
	return slices.ContainsFunc(values, func(v float64) bool { return v != values[0] })
}
