package geom

import "math"

// Degrees returns an angle of d degrees in radians.
func Degrees(d float64) float64 { return float64(d * math.Pi / 180) }

// InDegrees returns an angle in radians as degrees.
func InDegrees(radians float64) float64 { return float64(radians * 180 / math.Pi) }

// π/2 in two parts. The first has 33 bits, so that a small whole number times it
// is exact; the second is the rest.
const (
	quarterHigh = 1.57079632673412561417e+00
	quarterLow  = 6.07710050650619224932e-11
)

// Sincos returns sine and cosine of x, within 1e-15 for |x| up to 100.
//
// The angle is brought within π/4 of a multiple of π/2; there the Taylor series
// up to the 21st power are complete to the last bit.
func Sincos(x float64) (sin, cos float64) {
	turns := math.Round(x / (math.Pi / 2))
	r := x - float64(turns*quarterHigh) - float64(turns*quarterLow)
	s, c := taylor(r, 21), taylor(r, 20)
	switch int(turns) & 3 {
	case 1:
		return c, -s
	case 2:
		return -s, -c
	case 3:
		return -c, s
	}
	return s, c
}

// taylor sums the alternating series x^n/n! down from the highest power: the odd
// powers of the sine or the even ones of the cosine.
func taylor(x float64, highest int) float64 {
	square, sum := float64(x*x), 1.0
	for n := highest; n > 1; n -= 2 {
		sum = 1 - float64(float64(square*sum)/float64(n*(n-1)))
	}
	if highest%2 == 1 {
		return float64(x * sum)
	}
	return sum
}

// Atan returns the arc tangent of x, within 1e-15.
//
// An argument above 1 is turned over; x/(1+√(1+x²)) halves the angle, three times,
// and the series up to the 19th power does the rest.
func Atan(x float64) float64 {
	if x > 1 {
		return math.Pi/2 - Atan(1/x)
	}
	if x < 0 {
		return -Atan(-x)
	}
	const halvings = 3
	for range halvings {
		x /= 1 + math.Sqrt(1+float64(x*x))
	}
	square, sum := float64(x*x), 0.0
	for n := 19; n > 0; n -= 2 {
		sum = 1/float64(n) - float64(square*sum)
	}
	return float64(float64(x*sum) * (1 << halvings))
}

// Atan2 returns the angle of the point (x, y) from the x axis, from −π to π.
func Atan2(y, x float64) float64 {
	switch {
	case x > 0:
		return Atan(y / x)
	case x < 0 && y >= 0:
		return math.Pi - Atan(y/-x)
	case x < 0:
		return Atan(y/x) - math.Pi
	case y > 0:
		return math.Pi / 2
	case y < 0:
		return -math.Pi / 2
	}
	return 0
}
