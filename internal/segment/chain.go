package segment

import "slices"

// Chain finds the segments of a row of units that best explain what is known of each: that
// it belongs to one of several subjects, and how likely a new segment begins at each gap.
//
// The units follow a chain of subjects (a hidden Markov model, as in J. P. Yamron and others,
// "A hidden Markov model approach to text segmentation and event tracking", ICASSP 1998, from
// memory), and the best chain is found by the method of A. J. Viterbi (1967). Scores take the
// place of the logarithms of probabilities.
//
// fits[i][s] is how well unit i fits subject s, and gaps[i] what it gains, or costs if it is
// below 0, to begin a segment between units i and i+1: with another subject or with the same one
// again. All units have the same subjects. Chain returns the units with which segments begin, the
// first of them 0; nothing for no units. Of equal chains it is the one that begins segments last.
func Chain(fits [][]float64, gaps []float64) []int {
	if len(fits) == 0 || len(fits[0]) == 0 {
		return nil
	}
	subjects := len(fits[0])
	total := append([]float64(nil), fits[0]...) // of the best chain that ends with each subject
	came := make([][]int, len(fits))            // the subject before, −1 where the segment goes on
	for i := 1; i < len(fits); i++ {
		best := highest(total)
		begun := total[best] + gaps[i-1]
		next := make([]float64, subjects)
		came[i] = make([]int, subjects)
		for s := range next {
			if next[s], came[i][s] = total[s], -1; begun > total[s] {
				next[s], came[i][s] = begun, best
			}
			next[s] += fits[i][s]
		}
		total = next
	}
	begins := []int{0}
	subject := highest(total)
	for i := len(fits) - 1; i > 0; i-- {
		if before := came[i][subject]; before >= 0 {
			begins, subject = append(begins, i), before
		}
	}
	slices.Sort(begins)
	return begins
}

// highest returns the place of the highest score, the first of several.
func highest(scores []float64) int {
	best := 0
	for i, s := range scores {
		if s > scores[best] {
			best = i
		}
	}
	return best
}
