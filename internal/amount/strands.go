package amount

import "math"

// Strands is hair as so many even cylinders: a picture to reason with. It shows why
// product does not grow in step with length, and no weight to mix comes from it.
type Strands struct {
	Count    float64 // on the head; 80,000 to 175,000
	Diameter float64 // µm; fine below 60, coarse above 80
	Length   float64 // cm
}

const micrometresPerCentimetre = 10_000

// Volume returns the volume of the hair in cm³,
//
//	N · π/4 · d² · length.
func (s Strands) Volume() float64 {
	d := s.Diameter / micrometresPerCentimetre
	return s.Count * math.Pi / 4 * d * d * s.Length
}

// Surface returns the surface of the hair in cm², which is what colour must wet,
//
//	N · π · d · length.
func (s Strands) Surface() float64 {
	return s.Count * math.Pi * s.Diameter / micrometresPerCentimetre * s.Length
}
