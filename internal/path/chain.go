package path

import (
	"math"
	"slices"
)

// Dot is a point of the grid that finished lines lie on, in tenths of a pixel.
type Dot struct{ X, Y int32 }

// perPixel is the number of grid steps in a pixel.
const perPixel = 10

// Grid returns the point of the grid that is nearest to a point.
func Grid(p Point) Dot {
	return Dot{int32(math.Round(float64(p.X * perPixel))), int32(math.Round(float64(p.Y * perPixel)))}
}

// Point returns the place of a dot in pixels.
func (d Dot) Point() Point { return Point{float64(d.X) / perPixel, float64(d.Y) / perPixel} }

// Segment leads on to a dot: straight, or as a cubic Bézier curve with two control
// points.
type Segment struct {
	Curved bool
	C1, C2 Dot // of a curve
	To     Dot
}

// Chain is a finished line: segments one after the other. A chain that ends where
// it starts is a loop.
type Chain struct {
	From     Dot
	Segments []Segment
}

// End returns the last dot of the chain.
func (c Chain) End() Dot {
	if len(c.Segments) == 0 {
		return c.From
	}
	return c.Segments[len(c.Segments)-1].To
}

// Reversed returns the same line walked the other way.
func (c Chain) Reversed() Chain {
	back := Chain{From: c.End(), Segments: make([]Segment, 0, len(c.Segments))}
	for i, s := range slices.Backward(c.Segments) {
		to := c.From
		if i > 0 {
			to = c.Segments[i-1].To
		}
		back.Segments = append(back.Segments, Segment{Curved: s.Curved, C1: s.C2, C2: s.C1, To: to})
	}
	return back
}

// Polyline returns straight lines from point to point. Points that fall together on
// the grid are one.
func Polyline(points ...Point) Chain {
	if len(points) == 0 {
		return Chain{}
	}
	c := Chain{From: Grid(points[0])}
	for _, p := range points[1:] {
		c.straight(p)
	}
	return c
}

// straight adds a straight segment to p.
func (c *Chain) straight(p Point) {
	if to := Grid(p); to != c.End() {
		c.Segments = append(c.Segments, Segment{To: to})
	}
}

// flatness is the distance in pixels from its chord within which the control points
// of a curve make no difference that can be seen.
const flatness = 0.06

// curved adds a cubic with the given control points, or a straight segment where it
// looks the same.
func (c *Chain) curved(b cubic) {
	if b[1].toLine(b[0], b[3]) < flatness && b[2].toLine(b[0], b[3]) < flatness {
		c.straight(b[3])
		return
	}
	c.Segments = append(c.Segments, Segment{Curved: true, C1: Grid(b[1]), C2: Grid(b[2]), To: Grid(b[3])})
}
