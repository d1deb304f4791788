package geom

// Curve is a smooth function through given points, a cubic between each two of
// them. Beyond its ends it goes on straight. The zero Curve is not usable.
type Curve struct {
	knots  []float64
	pieces []cubic
}

// cubic is y + t·(b + t·(c + t·d)) with t counted from the piece's first knot.
type cubic struct{ y, b, c, d float64 }

// Spline returns the cubic spline through the points (x, y): first and second
// derivative are continuous, the slope is zero at the first point and the second
// derivative is zero at the last. x must ascend and hold two points at least.
func Spline(x, y []float64) *Curve {
	n := len(x) - 1
	slopes := make([]float64, n+1)
	upper := make([]float64, n+1) // the upper diagonal after elimination
	for i := 1; i <= n; i++ {
		before := x[i] - x[i-1]
		rise := 3 * (y[i] - y[i-1]) / float64(before*before)
		lower, middle, right, above := 1/before, 2/before, rise, 0.0
		if i < n {
			after := x[i+1] - x[i]
			middle = 2/before + 2/after
			right = rise + float64(3*(y[i+1]-y[i]))/float64(after*after)
			above = 1 / after
		}
		pivot := middle - float64(lower*upper[i-1])
		upper[i] = above / pivot
		slopes[i] = (right - float64(lower*slopes[i-1])) / pivot
	}
	for i := n - 1; i > 0; i-- {
		slopes[i] -= float64(upper[i] * slopes[i+1])
	}
	return hermite(x, y, slopes)
}

// Monotone returns a curve through the points (x, y) that rises and falls only
// where they do: between two of them it never leaves the interval of their
// values, which a spline does beside a steep step. Slopes are zero at both ends
// and where the points turn, elsewhere the weighted harmonic mean of the two
// neighbouring slopes (Fritsch and Butland's form of Fritsch and Carlson,
// Monotone Piecewise Cubic Interpolation, SIAM J. Numer. Anal. 17, 1980; from
// memory). x must ascend and hold two points at least.
func Monotone(x, y []float64) *Curve {
	slopes := make([]float64, len(x))
	for i := 1; i < len(x)-1; i++ {
		before, after := x[i]-x[i-1], x[i+1]-x[i]
		left, right := (y[i]-y[i-1])/before, (y[i+1]-y[i])/after
		if left > 0 == (right > 0) && left != 0 && right != 0 {
			w1, w2 := float64(2*after)+before, after+float64(2*before)
			slopes[i] = (w1 + w2) / (w1/left + w2/right)
		}
	}
	return hermite(x, y, slopes)
}

// hermite returns the curve with the given values and slopes at its knots.
func hermite(x, y, slopes []float64) *Curve {
	c := &Curve{knots: x}
	for i := range len(x) - 1 {
		h := x[i+1] - x[i]
		mean := (y[i+1] - y[i]) / h
		c.pieces = append(c.pieces, cubic{
			y: y[i],
			b: slopes[i],
			c: (float64(3*mean) - float64(2*slopes[i]) - slopes[i+1]) / h,
			d: (slopes[i] + slopes[i+1] - float64(2*mean)) / float64(h*h),
		})
	}
	return c
}

// At returns the value and the slope of the curve at x.
func (c *Curve) At(x float64) (y, slope float64) {
	last := len(c.knots) - 1
	if x < c.knots[0] {
		p := c.pieces[0]
		return p.y + float64(p.b*(x-c.knots[0])), p.b
	}
	if x > c.knots[last] {
		y, slope = c.pieces[last-1].at(c.knots[last] - c.knots[last-1])
		return y + float64(slope*(x-c.knots[last])), slope
	}
	i := c.piece(x)
	return c.pieces[i].at(x - c.knots[i])
}

// piece finds the piece that x lies in. Knots are nearly even, so the search
// starts where they would be if they were.
func (c *Curve) piece(x float64) int {
	last := len(c.pieces) - 1
	span := c.knots[last+1] - c.knots[0]
	i := min(int(float64(x-c.knots[0])/span*float64(last+1)), last)
	for x < c.knots[i] {
		i--
	}
	for i < last && x >= c.knots[i+1] {
		i++
	}
	return i
}

func (p cubic) at(t float64) (y, slope float64) {
	y = p.y + float64(t*(p.b+float64(t*(p.c+float64(t*p.d)))))
	slope = p.b + float64(t*(float64(2*p.c)+float64(3*t*p.d)))
	return y, slope
}
