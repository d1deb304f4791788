// Package segment finds where talk changes its subject.
//
// The method is TextTiling (M. A. Hearst, "TextTiling: Segmenting Text into
// Multi-paragraph Subtopic Passages", Computational Linguistics 23(1), 1997): the
// words before a gap are compared with the words behind it, and a gap at which
// they are less alike than on both sides of it is where a new subject may begin.
// [Words] takes the words that carry a subject out of a text, and [Depths] says
// for every gap how deep the valley is in which it lies. Where the subjects are known
// beforehand, [Chain] finds the row of them that explains the talk best.
package segment

import "math"

// Depths returns a score for every gap between two neighbouring units, the gap
// between units[i] and units[i+1] at i: how much less alike the blocks of words on
// its two sides are than those at the nearest peaks to its left and right, from 0
// (no valley) to 2. A block is the given number of units, fewer at the ends.
func Depths(units [][]string, block int) []float64 {
	if len(units) < 2 {
		return nil
	}
	alike := make([]float64, len(units)-1)
	for i := range alike {
		left := count(units[max(0, i+1-block) : i+1])
		right := count(units[i+1 : min(len(units), i+1+block)])
		alike[i] = cosine(left, right)
	}
	depths := make([]float64, len(alike))
	for i, score := range alike {
		depths[i] = peak(alike, i, -1) - score + peak(alike, i, +1) - score
	}
	return depths
}

// count returns how often each word stands in some units.
func count(units [][]string) map[string]int {
	words := map[string]int{}
	for _, u := range units {
		for _, w := range u {
			words[w]++
		}
	}
	return words
}

// cosine returns how alike two counts of words are, from 0 (no word in common) to 1.
// The sums are whole numbers, so that no order of words changes a bit of it.
func cosine(a, b map[string]int) float64 {
	var dot, lengthA, lengthB int
	for w, n := range a {
		dot += n * b[w]
		lengthA += n * n
	}
	for _, n := range b {
		lengthB += n * n
	}
	if dot == 0 {
		return 0
	}
	return float64(dot) / math.Sqrt(float64(lengthA*lengthB))
}

// peak climbs from a gap in one direction as long as the scores rise and returns the
// highest.
func peak(scores []float64, at, step int) float64 {
	for next := at + step; next >= 0 && next < len(scores) && scores[next] >= scores[at]; next += step {
		at = next
	}
	return scores[at]
}
