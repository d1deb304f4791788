package classtest

// Kappa returns how far two assessors agree beyond what chance alone would give
// (J. Cohen, A coefficient of agreement for nominal scales, 1960):
//
//	κ = (pₒ − pₑ)/(1 − pₑ)
//
// with pₒ the share of cases on which they agree and pₑ the share on which they would if
// each gave their verdicts at the rate they did, but by lot. 1 is agreement
// throughout, 0 what chance would give, below 0 is worse than chance. Each pair
// holds the two verdicts on one case.
func Kappa(pairs [][2]string) Figure {
	if len(pairs) == 0 {
		return unknown(NoAnswers)
	}
	first, second := map[string]int{}, map[string]int{}
	agreed := 0
	for _, p := range pairs {
		first[p[0]]++
		second[p[1]]++
		if p[0] == p[1] {
			agreed++
		}
	}
	// Whole numbers throughout: agreement that is exactly chance is exactly 0.
	n := len(pairs)
	chance := 0
	for verdict, count := range first {
		chance += count * second[verdict]
	}
	if chance == n*n {
		return unknown(NoChoice)
	}
	return known(float64(agreed*n-chance) / float64(n*n-chance))
}

// Agreement returns the share of cases on which the two verdicts are the same.
func Agreement(pairs [][2]string) Figure {
	if len(pairs) == 0 {
		return unknown(NoAnswers)
	}
	agreed := 0
	for _, p := range pairs {
		if p[0] == p[1] {
			agreed++
		}
	}
	return known(float64(agreed) / float64(len(pairs)))
}
