package diag

import (
	"strings"
	"unicode/utf8"
)

// DidYouMean returns the candidate nearest to word, or "" where none is near
// enough to be a slip of the hand: small and capital letters mixed up, or at most
// a third of its letters wrong, a swap of neighbours counting as one. The first of
// equals wins.
func DidYouMean(word string, candidates []string) string {
	for _, c := range candidates {
		if strings.EqualFold(word, c) {
			return c
		}
	}
	letters := []rune(word)
	best, bestDistance := "", len(letters)/3+1
	for _, c := range candidates {
		// What is longer or shorter by so many letters is at least as many away.
		n := utf8.RuneCountInString(c)
		if max(n-len(letters), len(letters)-n) >= bestDistance {
			continue
		}
		if d := distance(letters, []rune(c)); d < bestDistance {
			best, bestDistance = c, d
		}
	}
	return best
}

// distance is the optimal string alignment distance: insertions, deletions,
// replacements and swaps of neighbours.
func distance(a, b []rune) int {
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(row[j-1]+1, last[j]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}
