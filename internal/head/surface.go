// Package head is a model of the head that hair grows on: its surface, hairline
// and landmarks, and what a tape would measure on it.
//
// The model is an own design, shaped by hand until it measured like published
// heads; it is no scan of a person. The origin lies midway between the two ear
// canals, and the head is held so that ear canals and lower rims of the eye sockets
// are level (the Frankfurt plane). x points forward, y to the model's left and z
// up. Lengths are in centimetres, angles in radians. "Left" is always the model's
// left.
package head

import (
	"math"

	"plait/internal/geom"
)

// Surface is a closed surface round a centre, seen from it once in every
// direction: the head, or a ball or an ellipsoid on which results are known. A
// direction is a unit vector u; phi is its angle from the z axis, theta its angle
// from the x axis round the z axis.
type Surface interface {
	// Centre returns the point that directions are counted from.
	Centre() geom.Vec3
	// Radius returns the distance r of the surface from the centre in direction u,
	// and how it changes when u turns: the gradient of r over the unit sphere, in
	// cm per radian, at right angles to u.
	Radius(u geom.Vec3) (r float64, gradient geom.Vec3)
	// Hairline returns the angle phi at which hair ends, for theta from 0 to π; the
	// surface is the same left and right.
	Hairline(theta float64) float64
	// Limit returns the angle phi beyond which the surface means nothing.
	Limit() float64
}

// Point is a place on a surface.
type Point struct {
	U geom.Vec3 // direction from the centre
	P geom.Vec3 // position
	N geom.Vec3 // outward normal, a unit vector
}

// At returns the point of a surface in direction u, a unit vector.
//
// With p = C + r(u)·u the normal is r·u − grad r, made a unit vector.
func At(s Surface, u geom.Vec3) Point {
	r, gradient := s.Radius(u)
	return Point{
		U: u,
		P: s.Centre().Add(u.Scale(r)),
		N: u.Scale(r).Sub(gradient).Unit(),
	}
}

// Toward returns the point of a surface on the ray from its centre through p.
func Toward(s Surface, p geom.Vec3) Point { return At(s, p.Sub(s.Centre()).Unit()) }

// Stretch returns how much larger the surface is than the unit sphere in direction
// u, in cm²:
//
//	dA/dΩ = r·|r·u − grad r|.
func Stretch(s Surface, u geom.Vec3) float64 {
	r, gradient := s.Radius(u)
	return float64(r * u.Scale(r).Sub(gradient).Len())
}

// hairPerRadian makes the height above the hairline a length of about the right
// size: a head's radius is near 9 cm.
const hairPerRadian = 9

// Hair tells whether hair grows in direction u: positive on the scalp, zero on the
// hairline, negative on bare skin; near the hairline about the distance from it in
// cm, taken along the meridian.
func Hair(s Surface, u geom.Vec3) float64 {
	phi, theta := angles(u)
	return float64(hairPerRadian * (s.Hairline(math.Abs(theta)) - phi))
}

// AtHairline returns the point of the hairline at the angle theta of a direction.
func AtHairline(s Surface, u geom.Vec3) Point {
	_, theta := angles(u)
	return At(s, Direction(s.Hairline(math.Abs(theta)), theta))
}

// angles returns phi and theta of a direction.
func angles(u geom.Vec3) (phi, theta float64) {
	level := math.Sqrt(float64(u.X*u.X) + float64(u.Y*u.Y))
	return geom.Atan2(level, u.Z), geom.Atan2(u.Y, u.X)
}

// Direction returns the unit vector with the angles phi and theta.
func Direction(phi, theta float64) geom.Vec3 {
	sinPhi, cosPhi := geom.Sincos(phi)
	sinTheta, cosTheta := geom.Sincos(theta)
	return geom.Vec3{X: float64(sinPhi * cosTheta), Y: float64(sinPhi * sinTheta), Z: cosPhi}
}
