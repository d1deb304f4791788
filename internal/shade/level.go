package shade

import "plait/internal/exact"

// Level is the depth of a colour, from 1 (black) to 10 (lightest blonde) on the
// usual scale; a range may go further. The zero Level is none: a clear or a mixer.
type Level int

// The ends of the scale where no range says otherwise.
const (
	Darkest  Level = 1
	Lightest Level = 10
)

// undertones is the warmth that shows when hair is lifted to a level. Sources
// differ by up to two levels (common practice; the order alone is fixed: red,
// orange, yellow); a maker's own table goes before this one.
var undertones = [...]Hue{
	1: Red, 2: Red, 3: Red, 4: Red, 5: RedOrange, 6: Orange, 7: YellowOrange, 8: Yellow, 9: Yellow, 10: Yellow,
}

// Undertone returns the warmth found at a level: the underlying pigment. Levels
// beyond the scale count as its ends.
func Undertone(l Level) Hue {
	return undertones[min(max(l, Darkest), Lightest)]
}

// Reading is the average level of a mixture and what it is closest to.
type Reading struct {
	Mean exact.Number
	// Low and High are the whole levels the mean reads as: the same one, or its two
	// neighbours where it lies half-way between them.
	Low, High Level
}

// Tie reports whether the mean lies half-way between two levels; the trade then
// usually expects the darker (common practice).
func (r Reading) Tie() bool { return r.Low != r.High }

// Read returns the reading of a mean level.
func Read(mean exact.Number) Reading {
	up, _ := mean.Round(exact.One).Int64()
	low := Level(up)
	if mean.Add(exact.Half).IsInt() {
		low--
	}
	return Reading{Mean: mean, Low: low, High: Level(up)}
}

// Mean returns the average level of shades weighted by grams or parts,
//
//	Σ(weight · level) ÷ Σ weight,
//
// over the shades that have a level; ok is false where none has. It is a teaching
// figure: dark dye outweighs light dye, so hair reads darker (common practice).
func Mean(weights []exact.Number, levels []Level) (mean exact.Number, ok bool) {
	sum, total := exact.Zero, exact.Zero
	for i, w := range weights {
		if levels[i] > 0 {
			sum = sum.Add(w.Mul(exact.Int(int64(levels[i]))))
			total = total.Add(w)
		}
	}
	if total.IsZero() {
		return exact.Zero, false
	}
	return sum.Quo(total), true
}
