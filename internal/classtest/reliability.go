package classtest

import (
	"math"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// KR20 returns the reliability of a test of right and wrong answers by the twentieth
// formula of Kuder and Richardson (The theory of the estimation of test reliability,
// Psychometrika 2, 1937):
//
//	KR-20 = k/(k − 1) · (1 − Σpq/σ²)
//
// with k questions, p and q = 1 − p the shares of right and wrong on each, and σ² the
// variance of the learners' totals. Both are taken over the class itself, divided by
// its size and not by one less: mixing the two is a common slip. Rows are learners,
// columns questions, marks 0 or 1. 1 would be a test that puts learners in the same
// order whenever it is sat; 0 one whose order is chance.
func KR20(marks [][]float64) Figure {
	for _, row := range marks {
		for _, m := range row {
			if m != 0 && m != 1 {
				return unknown(NotRightWrong)
			}
		}
	}
	return Alpha(marks)
}

// Alpha returns the reliability of a test by coefficient alpha (L. J. Cronbach,
// Coefficient alpha and the internal structure of tests, Psychometrika 16, 1951):
//
//	α = k/(k − 1) · (1 − Σσᵢ²/σ²)
//
// with k questions, σᵢ² the variance of the marks of each and σ² that of the learners'
// totals. For marks of 0 and 1 it is KR-20, since the variance of such marks is pq.
func Alpha(marks [][]float64) Figure {
	if len(marks) < 2 {
		return unknown(tooSmall(len(marks)))
	}
	k := len(marks[0])
	if k < 2 {
		return unknown(OneQuestion)
	}
	totals := make([]float64, len(marks))
	for i, row := range marks {
		if len(row) != k {
			return unknown(Incomplete)
		}
		for _, m := range row {
			totals[i] += m
		}
	}
	if !spread(totals) {
		return unknown(NoSpread)
	}
	within := 0.0
	column := make([]float64, len(marks))
	for j := range k {
		for i, row := range marks {
			column[i] = row[j]
		}
		within += stat.PopVariance(column, nil)
	}
	n := float64(k)
	return known(n / (n - 1) * (1 - within/stat.PopVariance(totals, nil)))
}

// KR21 returns the reliability of a test of which each learner sat k questions of their
// own, by the twenty-first formula of Kuder and Richardson, which needs the totals
// alone:
//
//	KR-21 = k/(k − 1) · (1 − μ(k − μ)/(kσ²))
//
// with μ and σ² the mean and variance (over the class) of the numbers right. It takes
// all questions for equally hard, as they are to a learner for whom they were drawn by
// lot, and is never above KR-20 (F. M. Lord, Do tests of the same length have the same
// standard error of measurement?, 1957; from memory).
func KR21(totals []float64, k int) Figure {
	switch {
	case len(totals) < 2:
		return unknown(tooSmall(len(totals)))
	case k < 2:
		return unknown(OneQuestion)
	case !spread(totals):
		return unknown(NoSpread)
	}
	n := float64(k)
	mean, variance := stat.PopMeanVariance(totals, nil)
	return known(n / (n - 1) * (1 - mean*(n-mean)/(n*variance)))
}

// StandardError returns the standard error of measurement: by how much the total of a
// learner would wander, one standard deviation, if they could sit the test over and
// over without learning from it.
//
//	SEM = σ · √(1 − r)
//
// with σ the standard deviation of the totals over the class and r the reliability; a
// reliability below 0 counts as 0. It is the textbook formula of classical test theory
// and is in the unit of the totals.
func StandardError(totals []float64, reliability Figure) Figure {
	if !reliability.Known() {
		return reliability
	}
	return known(stat.PopStdDev(totals, nil) * math.Sqrt(1-max(0, min(1, reliability.Value))))
}

// Interval is the range that holds a figure of other such classes in 95 of 100 cases.
type Interval struct{ Low, High float64 }

// AlphaInterval returns the 95 % interval of alpha or KR-20 for a class of n learners
// and k questions (L. S. Feldt, The approximate sampling distribution of
// Kuder-Richardson reliability coefficient twenty, Psychometrika 30, 1965; from memory):
//
//	1 − (1 − α)·F(0.975) … 1 − (1 − α)·F(0.025),  F with n − 1 and (n − 1)(k − 1) degrees
//
// ok is false where there is no alpha. It is what shows that a small class says little.
func AlphaInterval(alpha Figure, n, k int) (iv Interval, ok bool) {
	if !alpha.Known() || n < 2 || k < 2 {
		return Interval{}, false
	}
	f := distuv.F{D1: float64(n - 1), D2: float64((n - 1) * (k - 1))}
	rest := 1 - alpha.Value
	return Interval{Low: 1 - rest*f.Quantile(0.975), High: 1 - rest*f.Quantile(0.025)}, true
}
