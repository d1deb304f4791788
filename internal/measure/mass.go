package measure

import (
	"fmt"
	"strings"

	"plait/internal/exact"
)

// Mass is a weight in grams.
type Mass struct{ grams exact.Number }

// Grams returns a mass of n grams.
func Grams(n exact.Number) Mass { return Mass{n} }

// Grams returns the mass as a number of grams.
func (m Mass) Grams() exact.Number { return m.grams }

// Add returns m + n.
func (m Mass) Add(n Mass) Mass { return Mass{m.grams.Add(n.grams)} }

// Sub returns m − n.
func (m Mass) Sub(n Mass) Mass { return Mass{m.grams.Sub(n.grams)} }

// Times returns the mass multiplied by a number.
func (m Mass) Times(n exact.Number) Mass { return Mass{m.grams.Mul(n)} }

// Per returns how many times n goes into m; n must not be zero.
func (m Mass) Per(n Mass) exact.Number { return m.grams.Quo(n.grams) }

// Cmp returns −1, 0 or +1 as m is lighter than, equal to or heavier than n.
func (m Mass) Cmp(n Mass) int { return m.grams.Cmp(n.grams) }

// Max returns the heavier of m and n.
func (m Mass) Max(n Mass) Mass { return Mass{exact.Max(m.grams, n.grams)} }

// IsZero reports whether the mass is nothing.
func (m Mass) IsZero() bool { return m.grams.IsZero() }

// String prints the mass to at most two decimal places, "23.33 g".
func (m Mass) String() string { return m.grams.With(" g", 2) }

// Total returns the sum of all masses.
func Total(masses ...Mass) Mass {
	var sum Mass
	for _, m := range masses {
		sum = sum.Add(m)
	}
	return sum
}

// The three things an ounce can be. All are exact by definition.
var (
	// Ounce is the avoirdupois ounce of mass, a sixteenth of the pound of 0.45359237
	// kg (international yard and pound agreement, 1959).
	Ounce = Grams(exact.Of(28_349_523_125, 1_000_000_000))

	// USFluidOunce is 1/128 of the gallon of 231 cubic inches, in millilitres.
	USFluidOunce = exact.Of(295_735_295_625, 10_000_000_000)

	// UKFluidOunce is 1/160 of the gallon of 4.54609 L, in millilitres (Weights and
	// Measures Act 1985, Schedule 1).
	UKFluidOunce = exact.Of(284_130_625, 10_000_000)
)

// heaviest bounds what is taken for a weight: no salon weighs out a tonne.
var heaviest = Grams(exact.Int(1_000_000))

// ParseMass reads a weight in grams or kilograms: "30 g", "0.5 kg".
//
// Ounces are refused with the readings they could have (a mass, a US or a UK fluid
// ounce), millilitres because a scale weighs.
func ParseMass(s string) (Mass, error) {
	number, unit := CutUnit(s)
	if number == "" {
		return Mass{}, fmt.Errorf("%q is not a weight; write a number and the unit, as in 30 g", s)
	}
	n, err := parseNumber(number)
	if err != nil {
		return Mass{}, err
	}
	m := Grams(n)
	switch strings.ToLower(unit) {
	case "g", "gram", "grams":
	case "kg":
		m = m.Times(exact.Int(1000))
	case "":
		return Mass{}, fmt.Errorf("%q has no unit; write %s g", s, number)
	case "oz", "ounce", "ounces":
		return Mass{}, ounceError(s, n)
	case "fl oz", "floz", "us fl oz", "uk fl oz":
		return Mass{}, fluidError(s, n)
	case "ml", "l", "cc":
		return Mass{}, fmt.Errorf("%q is a volume and bowls are weighed; write grams (creams are near 1 g per mL)", s)
	default:
		return Mass{}, fmt.Errorf("%q has no unit plait knows; write grams, as in 30 g", s)
	}
	if m.Cmp(heaviest) > 0 {
		return Mass{}, fmt.Errorf("%q is more than a tonne; write what goes into one bowl", s)
	}
	return m, nil
}

// fluidError shows what fluid ounces are, of which no scale knows any.
func fluidError(s string, n exact.Number) error {
	return fmt.Errorf("%q is a volume, US %s mL or UK %s mL, and bowls are weighed; write grams (creams are near 1 g per mL)",
		s, n.Mul(USFluidOunce).Decimal(2), n.Mul(UKFluidOunce).Decimal(2))
}

// ounceError shows the readings of a number of ounces side by side.
func ounceError(s string, n exact.Number) error {
	return fmt.Errorf("%q could be a mass (%s), US fluid ounces (%s mL) or UK ones (%s mL); weigh it and write grams",
		s, Ounce.Times(n), n.Mul(USFluidOunce).Decimal(2), n.Mul(UKFluidOunce).Decimal(2))
}
