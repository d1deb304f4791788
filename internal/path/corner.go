package path

import "sort"

// How corners are told from bends: the chords over a stretch before and after a
// point turn by more than an angle. Of corners that lie close together the sharpest
// counts.
const (
	cornerReach  = 1.2               // px
	cornerApart  = 2.5               // px
	cornerCosine = 0.788010753606722 // of 38°
)

// corner is a candidate: a point and the cosine of the angle that the line turns by.
type corner struct {
	index  int
	cosine float64
}

// corners returns the indices of the corners of a line, ascending. A loop gives its
// first point again as its last; its ends can be corners too and count as one.
func (l line) corners(loop bool) []int {
	var candidates []corner
	first, end := 1, len(l.points)-1
	if loop {
		first = 0
	}
	for i := first; i < end; i++ {
		before := l.points[i].Sub(l.reach(i, -cornerReach, loop)).Unit()
		after := l.reach(i, cornerReach, loop).Sub(l.points[i]).Unit()
		if cosine := before.Dot(after); cosine < cornerCosine {
			candidates = append(candidates, corner{i, cosine})
		}
	}
	sort.SliceStable(candidates, func(i, j int) bool { return candidates[i].cosine < candidates[j].cosine })
	var found []int
	for _, c := range candidates {
		if !l.near(found, c.index, loop) {
			found = append(found, c.index)
		}
	}
	sort.Ints(found)
	return found
}

// near tells whether a point lies close to one of those already chosen.
func (l line) near(chosen []int, i int, loop bool) bool {
	for _, c := range chosen {
		apart := l.arcs[i] - l.arcs[c]
		if apart < 0 {
			apart = -apart
		}
		if loop {
			apart = min(apart, l.len()-apart)
		}
		if apart < cornerApart {
			return true
		}
	}
	return false
}
