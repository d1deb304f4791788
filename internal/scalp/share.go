package scalp

import (
	"fmt"
	"math"
	"sort"
)

// Shares returns each section's share of the scalp in per cent with one decimal, as
// text: "14.6 %". They are rounded by largest remainder, so that they add up to 100 %.
func Shares(sections []Section) []string {
	const whole = 1000 // tenths of a per cent
	tenths := make([]int, len(sections))
	rest := make([]float64, len(sections))
	order := make([]int, len(sections))
	left := whole
	for i, s := range sections {
		exact := float64(s.Share * whole)
		tenths[i] = int(math.Floor(exact))
		rest[i], order[i] = exact-float64(tenths[i]), i
		left -= tenths[i]
	}
	sort.SliceStable(order, func(a, b int) bool { return rest[order[a]] > rest[order[b]] })
	for _, i := range order[:min(max(left, 0), len(order))] {
		tenths[i]++
	}
	texts := make([]string, len(tenths))
	for i, t := range tenths {
		texts[i] = fmt.Sprintf("%d.%d %%", t/10, t%10)
	}
	return texts
}
