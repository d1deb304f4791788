package mix

import (
	"slices"

	"plait/internal/exact"
	"plait/internal/measure"
)

// Split rounds weights to multiples of step so that they still add up: the total
// is rounded once, every part is rounded down, and the steps that are missing go
// to the parts with the largest remainders, the first listed of equals (largest
// remainder). No part moves by a full step.
func Split(masses []measure.Mass, step measure.Mass) []measure.Mass {
	unit := step.Grams()
	out := make([]measure.Mass, len(masses))
	remainders := make([]exact.Number, len(masses))
	order := make([]int, len(masses))
	var sum, floors measure.Mass
	for i, m := range masses {
		out[i] = measure.Grams(m.Grams().Floor(unit))
		remainders[i] = m.Sub(out[i]).Grams()
		order[i] = i
		sum, floors = sum.Add(m), floors.Add(out[i])
	}
	missing := measure.Grams(sum.Grams().Round(unit)).Sub(floors)
	slices.SortStableFunc(order, func(a, b int) int { return remainders[b].Cmp(remainders[a]) })
	for _, i := range order {
		if missing.Grams().Sign() <= 0 {
			break
		}
		out[i] = out[i].Add(step)
		missing = missing.Sub(step)
	}
	return out
}
