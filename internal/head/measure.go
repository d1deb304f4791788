package head

import (
	"plait/internal/geom"
)

// Measures is what callipers and tape would read on a head, in cm.
type Measures struct {
	Length        float64 // from brow to back, the longest
	Breadth       float64 // from side to side, the widest
	Circumference float64 // tape over brow and back
	EarBreadth    float64 // between the ear canals
	EarToTop      float64 // height of the apex over the ear canals
	NasionInion   float64 // arc over the midline from bridge of the nose to the bump at the back
	EarToEar      float64 // arc over the apex between the heights of the ear canals
	HairArc       float64 // arc over the midline from front hairline to nape
}

// Heights of nasion and inion over the ear canals on the reference head, in cm
// (modelled).
const (
	nasionHeight = 2.4
	inionHeight  = -0.4
)

// Measure measures the head.
func (h *Head) Measure() Measures {
	brow, back := h.upright(1), h.mark("widest back")
	girth := through(brow, back, Point{P: back.P.Add(geom.Vec3{Y: 1})})
	tape, _ := Section(h, girth, geom.Vec3{X: 1}) // holds brow and back, so it meets the head
	apex := h.mark("apex").P
	cross, _ := Section(h, geom.PlaneAt(apex, geom.Vec3{X: 1}), geom.Vec3{Z: -1})
	left := onRay(h, geom.Vec3{X: apex.X}, geom.Vec3{Y: 1})
	front, nape := h.HairArc()
	nasion, inion := h.skull()
	return Measures{
		Length:        brow.P.X - back.P.X,
		Breadth:       float64(2 * h.widest()),
		Circumference: tape.Len(),
		EarBreadth:    float64(2 * onRay(h, geom.Vec3{}, geom.Vec3{Y: 1}).P.Y),
		EarToTop:      apex.Z,
		NasionInion:   inion - nasion,
		EarToEar:      cross.ArcAt(left.P.Mirror()) - cross.ArcAt(left.P),
		HairArc:       nape - front,
	}
}

// skull returns the arcs of the midline at nasion and inion.
func (h *Head) skull() (nasion, inion float64) {
	level := func(z, side float64) float64 {
		origin := geom.Vec3{X: h.Centre().X, Z: float64(z * h.size)}
		return h.midline.ArcAt(onRay(h, origin, geom.Vec3{X: side}).P)
	}
	return level(nasionHeight, 1), level(inionHeight, -1)
}

// TenTwenty returns where a point of the midline lies between nasion (0) and inion
// (1), the measure by which the international 10-20 system places electrodes.
func (h *Head) TenTwenty(p Point) float64 {
	nasion, inion := h.skull()
	return (h.midline.ArcAt(p.P) - nasion) / (inion - nasion)
}

// widest returns the largest distance of the surface from the midline plane. It
// bulges once to the side, so a search by thirds finds it.
func (h *Head) widest() float64 {
	return largest(geom.Degrees(45), geom.Degrees(135), func(theta float64) float64 {
		return largest(geom.Degrees(45), geom.Degrees(110), func(phi float64) float64 {
			return At(h, Direction(phi, theta)).P.Y
		})
	})
}

// largest returns the largest value of a function with one hill between low and
// high.
func largest(low, high float64, f func(float64) float64) float64 {
	for range 60 {
		third := (high - low) / 3
		if f(low+third) < f(high-third) {
			low += third
		} else {
			high -= third
		}
	}
	return f((low + high) / 2)
}
