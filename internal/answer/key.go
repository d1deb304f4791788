package answer

import (
	"fmt"

	"plait/internal/exact"
)

// Key is the truth that an answer is held against.
type Key struct {
	Unit  Unit
	Value Value
	Near  exact.Number // how far off is still right; not below zero, none for a word
}

// Accepts reports whether an answer is right. An error says that it could not be
// understood, which is not the same as wrong.
func (k Key) Accepts(text string) (bool, error) {
	v, err := Parse(text, k.Unit)
	if err != nil {
		return false, err
	}
	return k.Agrees(v), nil
}

// Agrees reports whether a value that was understood is right.
func (k Key) Agrees(v Value) bool {
	if k.Unit == Word {
		return tidy(k.Value.Word) == tidy(v.Word)
	}
	return !k.Near.Less(v.Number.Sub(k.Value.Number).Abs())
}

// String prints the truth as it is told, rounded to two places: "67.5 g", "1:1.5",
// "10:52".
func (k Key) String() string { return k.Unit.Text(k.Value) }

// Text prints a value with its unit, rounded to two places.
func (u Unit) Text(v Value) string {
	n := v.Number.Decimal(2)
	switch u {
	case Word:
		return v.Word
	case Ratio:
		return "1:" + n
	case Moment:
		m, _ := v.Number.Round(exact.One).Int64()
		return fmt.Sprintf("%d:%02d", m/60, m%60)
	case Bare, Level:
		return n
	case Degree:
		return n + string(u)
	case Pack:
		if n == "1" {
			return "1 pack"
		}
	}
	return n + " " + string(u)
}
