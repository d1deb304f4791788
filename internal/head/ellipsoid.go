package head

import (
	"math"

	"plait/internal/geom"
)

// ellipsoid is a surface on which areas and arcs have closed forms, for tests: half
// axes a, b, c along x, y, z, and a hairline that is a circle of latitude.
type ellipsoid struct {
	a, b, c  float64
	hairline float64
}

// Ellipsoid returns the whole ellipsoid with the given half axes in cm, hair all
// over.
func Ellipsoid(a, b, c float64) Surface { return ellipsoid{a: a, b: b, c: c, hairline: math.Pi} }

// HalfBall returns the ball with the given radius in cm, its upper half with hair.
func HalfBall(radius float64) Surface {
	return ellipsoid{a: radius, b: radius, c: radius, hairline: math.Pi / 2}
}

// Centre is the origin.
func (e ellipsoid) Centre() geom.Vec3 { return geom.Vec3{} }

// Limit is nowhere.
func (e ellipsoid) Limit() float64 { return math.Pi }

// Hairline is level.
func (e ellipsoid) Hairline(float64) float64 { return e.hairline }

// Radius follows from 1/r² = Q(u) = Σ (u/axis)², so that grad r = −½·r³·grad Q.
func (e ellipsoid) Radius(u geom.Vec3) (r float64, gradient geom.Vec3) {
	half := geom.Vec3{X: u.X / float64(e.a*e.a), Y: u.Y / float64(e.b*e.b), Z: u.Z / float64(e.c*e.c)}
	r = 1 / math.Sqrt(half.Dot(u))
	return r, half.Across(u).Scale(-float64(r * r * r))
}
