package head

import (
	"fmt"
	"math"

	"plait/internal/geom"
)

// Head is a surface with landmarks. It is made once and never changed.
type Head struct {
	Surface
	name    string
	size    float64
	midline *Trace // from below over forehead, top and nape
	over    *Trace // from below over left ear, apex and right ear
	marks   []mark
}

// scheme says where the landmarks of a head lie.
type scheme struct {
	crown, belowCrown, occipital           float64 // shares of the arc from front hairline to nape
	recession, earTop, earBack, napeCorner float64 // theta on the hairline, in degrees
}

// Landmarks of the reference head (modelled, own design; checked against the
// positions that the trade gives them). On the ball the crown lies further back, so
// that it differs from the apex, and the ears at the sides.
var (
	adultScheme = scheme{
		crown: 0.50, belowCrown: 0.56, occipital: 0.80,
		recession: 30, earTop: 96, earBack: 115, napeCorner: 136,
	}
	ballScheme = scheme{
		crown: 0.60, belowCrown: 0.66, occipital: 0.80,
		recession: 30, earTop: 90, earBack: 115, napeCorner: 136,
	}
)

// ReferenceCircumference is what a tape over brow and back of the head reads on the
// reference head, in cm.
const ReferenceCircumference = 55.50

// Circumferences that Sized accepts, in cm: a child of one year to beyond the
// largest of the 2012 anthropometric survey of US Army personnel.
const (
	LeastCircumference = 44.0
	MostCircumference  = 66.0
)

// Adult returns the reference head.
func Adult() *Head { return build("adult", adult{size: 1}, 1, adultScheme) }

// Sized returns the reference head made larger or smaller to a circumference in cm.
// Lengths grow with it, areas with its square.
func Sized(circumference float64) (*Head, error) {
	if !(circumference >= LeastCircumference && circumference <= MostCircumference) {
		return nil, fmt.Errorf("a circumference of %g cm is not between %g and %g",
			circumference, LeastCircumference, MostCircumference)
	}
	size := circumference / ReferenceCircumference
	return build("adult", adult{size: size}, size, adultScheme), nil
}

// Ball returns a ball of 9 cm with hair on its upper half: no head, but one whose
// areas and lengths anyone can work out.
func Ball() *Head { return build("ball", HalfBall(9), 1, ballScheme) }

func build(name string, s Surface, size float64, where scheme) *Head {
	h := &Head{Surface: s, name: name, size: size}
	down := geom.Vec3{Z: -1}
	// A plane through the centre always meets the surface.
	h.midline, _ = Section(s, geom.PlaneAt(s.Centre(), geom.Vec3{Y: -1}), down)
	h.addMidline(where)
	h.addSides(where)
	ear, _ := h.Pair("ear top")
	h.over, _ = Section(s, through(ear[0], h.mark("apex"), ear[1]).Toward(geom.Vec3{X: 1}), down)
	return h
}

// through returns the plane through three landmarks, which never lie on one line.
func through(a, b, c Point) geom.Plane {
	p, _ := geom.PlaneThrough(a.P, b.P, c.P)
	return p
}

// Name returns "adult" or "ball".
func (h *Head) Name() string { return h.name }

// Size returns how large the head is: 1 is the reference head.
func (h *Head) Size() float64 { return h.size }

// Midline returns the line round the head in the plane y = 0. Its arcs run from
// below over forehead, top and nape.
func (h *Head) Midline() *Trace { return h.midline }

// Over returns the line from ear to ear over the apex. Its arcs run from below over
// the left ear, the apex and the right ear.
func (h *Head) Over() *Trace { return h.over }

// HairArc returns the arcs of the midline at front hairline and nape.
func (h *Head) HairArc() (front, nape float64) {
	return h.midline.ArcAt(h.mark("front hairline").P), h.midline.ArcAt(h.mark("nape").P)
}

// onHairline returns the point of the hairline at an angle theta in degrees.
func (h *Head) onHairline(degrees float64) Point {
	theta := geom.Degrees(degrees)
	return At(h, Direction(h.Hairline(math.Abs(theta)), theta))
}
