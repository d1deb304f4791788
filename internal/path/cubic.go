package path

import "math"

// cubic is a Bézier curve of degree three.
type cubic [4]Point

// weights returns the four Bernstein polynomials of degree three at t.
func weights(t float64) [4]float64 {
	s := 1 - t
	return [4]float64{
		float64(s * s * s), float64(3 * s * s * t), float64(3 * s * t * t), float64(t * t * t),
	}
}

// at returns the point at the parameter t.
func (c *cubic) at(t float64) Point {
	w := weights(t)
	return c[0].Scale(w[0]).Add(c[1].Scale(w[1])).Add(c[2].Scale(w[2])).Add(c[3].Scale(w[3]))
}

// slopes returns the first and the second derivative at t.
func (c *cubic) slopes(t float64) (first, second Point) {
	s := 1 - t
	d0, d1, d2 := c[1].Sub(c[0]), c[2].Sub(c[1]), c[3].Sub(c[2])
	first = d0.Scale(float64(3 * s * s)).Add(d1.Scale(float64(6 * s * t))).Add(d2.Scale(float64(3 * t * t)))
	second = d1.Sub(d0).Scale(float64(6 * s)).Add(d2.Sub(d1).Scale(float64(6 * t)))
	return first, second
}

// error returns the square of the largest distance of a point from the curve at its
// parameter, and which point that is, never one of the ends.
func (c *cubic) error(points []Point, parameters []float64) (square float64, at int) {
	at = len(points) / 2
	for i := 1; i < len(points)-1; i++ {
		d := points[i].Sub(c.at(parameters[i]))
		if s := d.Dot(d); s > square {
			square, at = s, i
		}
	}
	return square, at
}

// correct moves each parameter toward the foot of its point on the curve: one step of
// Newton's iteration for (c(t) − p)·c′(t) = 0.
func (c *cubic) correct(points []Point, parameters []float64) {
	for i, p := range points {
		t := parameters[i]
		d := c.at(t).Sub(p)
		first, second := c.slopes(t)
		slope := first.Dot(first) + d.Dot(second)
		if slope != 0 {
			parameters[i] = min(max(t-d.Dot(first)/slope, 0), 1)
		}
	}
}

// leastSquares returns the cubic from the first to the last point, with the given
// directions there, that comes nearest to all points at their parameters.
//
// The inner control points are P0 + α·start and P3 + β·end; the two normal equations
// for α and β are solved by Cramer's rule. Where they give no usable answer the
// control points lie a third of the chord away (Wu and Barsky's rule, as in
// Schneider's paper): also where a control point would lie further off than the line
// is long, since between a few points such a curve swings out wide.
func leastSquares(points []Point, parameters []float64, start, end Point, long float64) cubic {
	first, last := points[0], points[len(points)-1]
	var c00, c01, c11, x0, x1 float64
	for i, p := range points {
		w := weights(parameters[i])
		a0, a1 := start.Scale(w[1]), end.Scale(w[2])
		rest := p.Sub(first.Scale(w[0] + w[1])).Sub(last.Scale(w[2] + w[3]))
		c00 += a0.Dot(a0)
		c01 += a0.Dot(a1)
		c11 += a1.Dot(a1)
		x0 += a0.Dot(rest)
		x1 += a1.Dot(rest)
	}
	determinant := float64(c00*c11) - float64(c01*c01)
	chord := first.Dist(last)
	alpha, beta := chord/3, chord/3
	if math.Abs(determinant) > 1e-12 {
		a := (float64(x0*c11) - float64(x1*c01)) / determinant
		b := (float64(c00*x1) - float64(c01*x0)) / determinant
		if least := float64(1e-6 * chord); a > least && b > least && a < long && b < long {
			alpha, beta = a, b
		}
	}
	return cubic{first, first.Add(start.Scale(alpha)), last.Add(end.Scale(beta)), last}
}
