// Package amount says how much to mix: for one head, shared out over its sections,
// and for a whole class in packs to buy.
//
// What a head takes is an estimate and common practice throughout. The best anchor
// outside the trade is 100 g of mixed product for permanent colour, with which a
// scientific committee of the European Union reckons a consumer's exposure (SCCP
// opinion on toluene-2,5-diamine, 2 October 2007). What a class needs is exact
// arithmetic on such figures; only packs are rounded, once and up.
package amount

import (
	"slices"

	"plait/internal/exact"
	"plait/internal/measure"
)

// Length is how long the hair is.
type Length string

// The lengths of hair, by where it ends. Regrowth is colour at the roots alone, up to
// 2 cm.
const (
	Regrowth      Length = "regrowth"
	Short         Length = "short"
	Chin          Length = "chin"
	Shoulder      Length = "shoulder"
	BelowShoulder Length = "below shoulder"
	MidBack       Length = "mid-back"
)

// Lengths returns all lengths, the shortest first.
func Lengths() []Length {
	return []Length{Regrowth, Short, Chin, Shoulder, BelowShoulder, MidBack}
}

// ParseLength reads the name of a length.
func ParseLength(s string) (Length, bool) {
	return Length(s), slices.Contains(Lengths(), Length(s))
}

// Density is how much hair there is.
type Density string

// The densities of hair. Fine is also what is sparse.
const (
	Fine   Density = "fine"
	Medium Density = "medium"
	Dense  Density = "dense"
)

// Densities returns all densities.
func Densities() []Density { return []Density{Fine, Medium, Dense} }

// ParseDensity reads the name of a density.
func ParseDensity(s string) (Density, bool) {
	return Density(s), slices.Contains(Densities(), Density(s))
}

// Head is what decides how much one head takes. The zero Density is medium.
type Head struct {
	Length    Length
	Density   Density
	Porous    bool // very porous hair drinks more
	Lightener bool // lightener lies thicker than colour
}

// Estimate is a weight of mixed product, from the least to the most.
type Estimate struct{ Least, Most measure.Mass }

// Middle returns the weight half-way between least and most.
func (e Estimate) Middle() measure.Mass { return e.Least.Add(e.Most).Times(exact.Half) }

// times returns the estimate multiplied by a number.
func (e Estimate) times(n exact.Number) Estimate {
	return Estimate{Least: e.Least.Times(n), Most: e.Most.Times(n)}
}

// The grams of mix at 1:1 to 1:1.5 that hair of medium density takes, and what else
// changes them (common practice).
var (
	perHead = map[Length]Estimate{
		Regrowth:      grams(40, 60),
		Short:         grams(60, 60),
		Chin:          grams(80, 90),
		Shoulder:      grams(100, 120),
		BelowShoulder: grams(140, 160),
		MidBack:       grams(180, 220),
	}
	fineFactor      = exact.Of(80, 100)
	denseFactor     = exact.Of(125, 100)
	porousFactor    = exact.Of(120, 100)
	lightenerFactor = exact.Of(130, 100)
)

func grams(least, most int64) Estimate {
	return Estimate{Least: measure.Grams(exact.Int(least)), Most: measure.Grams(exact.Int(most))}
}

// PerHead returns how much mixed product a head usually takes: 100 to 120 g to the
// shoulder, a fifth less on fine hair, a quarter more on dense, a fifth more on very
// porous, three tenths more of a lightener (common practice). ok is false for a
// length that is none.
func PerHead(h Head) (e Estimate, ok bool) {
	e, ok = perHead[h.Length]
	switch h.Density {
	case Fine:
		e = e.times(fineFactor)
	case Dense:
		e = e.times(denseFactor)
	}
	if h.Porous {
		e = e.times(porousFactor)
	}
	if h.Lightener {
		e = e.times(lightenerFactor)
	}
	return e, ok
}
