package geom

import "math"

// Root returns where f crosses zero between a and b, given the values fa and fb
// there, which must not have the same sign. It stops where |f| is below tolerance;
// where f jumps across zero the result is the jump.
//
// The method is Illinois: a chord that halves the value of an end it has kept
// twice, so that neither end can hold it up.
func Root(f func(float64) float64, a, fa, b, fb, tolerance float64) float64 {
	if math.Abs(fa) < tolerance {
		return a
	}
	if math.Abs(fb) < tolerance {
		return b
	}
	const steps, narrow = 100, 1e-12
	for range steps {
		if math.Abs(b-a) < narrow {
			break
		}
		x := b - float64(fb*(b-a))/(fb-fa)
		fx := f(x)
		if math.Abs(fx) < tolerance {
			return x
		}
		if fx > 0 == (fb > 0) {
			fa /= 2
		} else {
			a, fa = b, fb
		}
		b, fb = x, fx
	}
	return b
}
