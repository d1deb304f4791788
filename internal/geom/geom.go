// Package geom holds points in space, angles, planes and smooth curves.
//
// Lengths are in centimetres and angles in radians throughout. Every function
// gives the same bits on every machine: the language lets a compiler fuse a
// product and a sum into one operation that rounds once, and some machines do.
// An explicit conversion forbids it, so each product here is written
// float64(x*y). For the same reason sines and arcs come from this package and
// not from package math, whose versions differ between machines in the last bit.
// Square roots are exact everywhere.
package geom

import "math"

// Vec3 is a point or a direction in space, in centimetres.
type Vec3 struct{ X, Y, Z float64 }

// Add returns a + b.
func (a Vec3) Add(b Vec3) Vec3 { return Vec3{a.X + b.X, a.Y + b.Y, a.Z + b.Z} }

// Sub returns a − b.
func (a Vec3) Sub(b Vec3) Vec3 { return Vec3{a.X - b.X, a.Y - b.Y, a.Z - b.Z} }

// Scale returns k·a.
func (a Vec3) Scale(k float64) Vec3 {
	return Vec3{float64(k * a.X), float64(k * a.Y), float64(k * a.Z)}
}

// Neg returns −a.
func (a Vec3) Neg() Vec3 { return Vec3{-a.X, -a.Y, -a.Z} }

// Dot returns the scalar product of a and b.
func (a Vec3) Dot(b Vec3) float64 {
	return float64(a.X*b.X) + float64(a.Y*b.Y) + float64(a.Z*b.Z)
}

// Cross returns the vector product of a and b: at right angles to both, seen
// counter-clockwise from a to b.
func (a Vec3) Cross(b Vec3) Vec3 {
	return Vec3{
		float64(a.Y*b.Z) - float64(a.Z*b.Y),
		float64(a.Z*b.X) - float64(a.X*b.Z),
		float64(a.X*b.Y) - float64(a.Y*b.X),
	}
}

// Len returns the length of a.
func (a Vec3) Len() float64 { return math.Sqrt(a.Dot(a)) }

// Dist returns the straight distance between a and b.
func (a Vec3) Dist(b Vec3) float64 { return a.Sub(b).Len() }

// Unit returns a scaled to length 1. The zero vector stays as it is.
func (a Vec3) Unit() Vec3 {
	l := a.Len()
	if l == 0 {
		return a
	}
	return Vec3{a.X / l, a.Y / l, a.Z / l}
}

// Mix returns the point that lies t of the way from a to b.
func (a Vec3) Mix(b Vec3, t float64) Vec3 { return a.Add(b.Sub(a).Scale(t)) }

// Across returns the part of a that is at right angles to the unit vector n.
func (a Vec3) Across(n Vec3) Vec3 { return a.Sub(n.Scale(a.Dot(n))) }

// Mirror returns a reflected in the plane y = 0.
func (a Vec3) Mirror() Vec3 { return Vec3{a.X, -a.Y, a.Z} }
