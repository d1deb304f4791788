package peroxide

import (
	"fmt"

	"plait/internal/exact"
	"plait/internal/measure"
)

// Amount is a weight of developer of one strength.
type Amount struct {
	Mass     measure.Mass
	Strength Strength
}

// Mixed returns the strength of everything poured together,
//
//	Σ(mass · strength) ÷ Σ mass,
//
// by mass balance of the peroxide. Cream, powder and additives count with
// strength zero. The total must not be zero.
func Mixed(amounts ...Amount) Strength {
	var peroxide exact.Number
	var total measure.Mass
	for _, a := range amounts {
		peroxide = peroxide.Add(a.Mass.Grams().Mul(a.Strength.percent))
		total = total.Add(a.Mass)
	}
	return Strength{peroxide.Quo(total.Grams())}
}

// Blend returns the parts of a strong and a weak developer that give the wanted
// strength,
//
//	parts of the strong = wanted − weak
//	parts of the weak   = strong − wanted,
//
// which pharmacy calls alligation. Water is a developer of strength zero. It fails
// where the wanted strength lies outside the two, or they are equal.
func Blend(strong, weak, wanted Strength) (partsStrong, partsWeak exact.Number, err error) {
	if strong.Cmp(weak) < 0 {
		partsWeak, partsStrong, err = Blend(weak, strong, wanted)
		return partsStrong, partsWeak, err
	}
	switch {
	case strong.Cmp(weak) == 0:
		return exact.Zero, exact.Zero, fmt.Errorf("both developers are %s; blending them changes nothing", strong)
	case wanted.Cmp(weak) < 0 || wanted.Cmp(strong) > 0:
		return exact.Zero, exact.Zero, fmt.Errorf("%s and %s cannot be blended to %s: it lies outside the two", strong, weak, wanted)
	}
	return wanted.percent.Sub(weak.percent), strong.percent.Sub(wanted.percent), nil
}

// InBowl returns the strength that reaches the hair when a developer is mixed with
// colour that holds no peroxide,
//
//	bottle · r ÷ (1 + r) at 1:r,
//
// by mass balance of the peroxide. A ratio of none leaves the bottle as it is.
func InBowl(bottle Strength, r measure.Ratio) Strength {
	if r.IsZero() {
		return bottle
	}
	return Strength{bottle.percent.Mul(r.Developer).Quo(r.Colour.Add(r.Developer))}
}

// BottleFor returns the developer that gives the wanted strength in a bowl mixed at
// the ratio: the inverse of [InBowl]. The ratio must have developer in it.
func BottleFor(inBowl Strength, r measure.Ratio) Strength {
	return Strength{inBowl.percent.Mul(r.Colour.Add(r.Developer)).Quo(r.Developer)}
}
