// Package path makes the lines of drawings: it fits smooth curves to chains of
// points, lays curves through points that were set by hand, and writes both as
// short path data of the SVG standard.
//
// Points are in pixels, x to the right and y down. Finished lines lie on a grid of
// a tenth of a pixel, so that two areas that share a line share every bit of it,
// and steps from point to point add up without drift. As in package geom products
// are written float64(x*y), so that the same points give the same bytes on every
// machine.
package path

import "math"

// Point is a place on the page or a direction there, in pixels.
type Point struct{ X, Y float64 }

// Add returns a + b.
func (a Point) Add(b Point) Point { return Point{a.X + b.X, a.Y + b.Y} }

// Sub returns a − b.
func (a Point) Sub(b Point) Point { return Point{a.X - b.X, a.Y - b.Y} }

// Scale returns k·a.
func (a Point) Scale(k float64) Point { return Point{float64(k * a.X), float64(k * a.Y)} }

// Dot returns the scalar product of a and b.
func (a Point) Dot(b Point) float64 { return float64(a.X*b.X) + float64(a.Y*b.Y) }

// Len returns the length of a.
func (a Point) Len() float64 { return math.Sqrt(a.Dot(a)) }

// Dist returns the distance between a and b.
func (a Point) Dist(b Point) float64 { return a.Sub(b).Len() }

// Unit returns a scaled to length 1. The zero direction stays as it is.
func (a Point) Unit() Point {
	l := a.Len()
	if l == 0 {
		return a
	}
	return Point{a.X / l, a.Y / l}
}

// Normal returns a turned by a quarter, clockwise as seen on the page.
func (a Point) Normal() Point { return Point{-a.Y, a.X} }

// Mix returns the point that lies t of the way from a to b.
func (a Point) Mix(b Point, t float64) Point { return a.Add(b.Sub(a).Scale(t)) }

// toLine returns the distance of a from the stretch between two points.
func (a Point) toLine(from, to Point) float64 {
	along := to.Sub(from)
	square := along.Dot(along)
	if square == 0 {
		return a.Dist(from)
	}
	t := min(max(a.Sub(from).Dot(along)/square, 0), 1)
	return a.Dist(from.Mix(to, t))
}
