package path

import "math"

// Through returns a smooth curve through points set by hand: a centripetal
// Catmull-Rom curve, which has no loops or cusps between its points (Yuksel, Schaefer
// and Keyser, On the parameterization of Catmull-Rom curves, 2009; from memory). A
// point given twice in a row is a corner.
func Through(points ...Point) Chain {
	if len(points) == 0 {
		return Chain{}
	}
	c := Chain{From: Grid(points[0])}
	first := 0
	for i := 1; i < len(points); i++ {
		if points[i] == points[i-1] {
			c.open(points[first:i])
			first = i
		}
	}
	c.open(points[first:])
	return c
}

// Round returns the smooth closed curve through points set by hand.
func Round(points ...Point) Chain {
	n := len(points)
	c := Chain{From: Grid(points[0])}
	for i := range points {
		c.curved(between(points[(i+n-1)%n], points[i], points[(i+1)%n], points[(i+2)%n]))
	}
	return c
}

// open adds the curve through points without corners. Beyond each end stands the
// mirror image of the point before it.
func (c *Chain) open(points []Point) {
	last := len(points) - 1
	for i := range last {
		from, to := points[i], points[i+1]
		before, after := from.Scale(2).Sub(to), to.Scale(2).Sub(from)
		if i > 0 {
			before = points[i-1]
		}
		if i+1 < last {
			after = points[i+2]
		}
		c.curved(between(before, from, to, after))
	}
}

// between returns the cubic from b to c on the curve that comes from a and goes on
// to d.
func between(a, b, c, d Point) cubic {
	return cubic{b, tangent(a, b, c), tangent(d, c, b), c}
}

// tangent returns the control point beside b on the way to c, coming from a. The
// parameter grows with the square root of the distance.
func tangent(a, b, c Point) Point {
	d1, d2 := math.Sqrt(b.Dist(a)), math.Sqrt(c.Dist(b))
	s1, s2, cross := float64(d1*d1), float64(d2*d2), float64(d1*d2)
	sum := c.Scale(s1).Sub(a.Scale(s2)).Add(b.Scale(float64(2*s1) + float64(3*cross) + s2))
	return sum.Scale(1 / (float64(3*s1) + float64(3*cross)))
}
