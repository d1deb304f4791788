package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func expectNear(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.12g, want %.12g ± %g", what, got, want, tolerance)
	}
}

func drawVec(t *rapid.T, name string) Vec3 {
	c := rapid.Float64Range(-20, 20)
	return Vec3{c.Draw(t, name+".x"), c.Draw(t, name+".y"), c.Draw(t, name+".z")}
}

// Lagrange's identity and the definition of the two products.
func TestProducts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawVec(t, "a"), drawVec(t, "b")
		cross := a.Cross(b)
		scale := 1 + a.Dot(a)*b.Dot(b)
		if d := math.Abs(cross.Dot(cross) + a.Dot(b)*a.Dot(b) - a.Dot(a)*b.Dot(b)); d > 1e-12*scale {
			t.Fatalf("|a×b|² + (a·b)² differs from |a|²|b|² by %g", d)
		}
		if d := math.Abs(cross.Dot(a)) + math.Abs(cross.Dot(b)); d > 1e-10*scale {
			t.Fatalf("a×b is not at right angles to a and b: %g", d)
		}
	})
}

// The standard library is the outside check; its own error is below 1e-15.
func TestAnglesAgreeWithMath(t *testing.T) {
	for i := -4000; i <= 4000; i++ {
		x := float64(i) / 317
		sin, cos := Sincos(x)
		expectNear(t, "sin", sin, math.Sin(x), 1e-15)
		expectNear(t, "cos", cos, math.Cos(x), 1e-15)
		expectNear(t, "atan", Atan(x), math.Atan(x), 1e-15)
		y := float64(i%37) / 7
		expectNear(t, "atan2", Atan2(y, x), math.Atan2(y, x), 2e-15)
	}
	expectNear(t, "atan2 of nothing", Atan2(0, 0), 0, 0)
	expectNear(t, "atan2 up", Atan2(2, 0), math.Pi/2, 0)
	expectNear(t, "atan2 down", Atan2(-2, 0), -math.Pi/2, 0)
	expectNear(t, "180°", Degrees(180), math.Pi, 0)
	expectNear(t, "π", InDegrees(math.Pi), 180, 0)
}

func TestPlane(t *testing.T) {
	p, ok := PlaneThrough(Vec3{X: 1}, Vec3{Y: 1}, Vec3{Z: 1})
	if !ok {
		t.Fatal("three points that span a plane were refused")
	}
	expectNear(t, "origin", p.At(Vec3{}), -1/math.Sqrt(3), 1e-15) // space diagonal of a cube
	expectNear(t, "foot", p.At(p.Foot(Vec3{3, -2, 7})), 0, 1e-14)
	expectNear(t, "flipped", p.Flip().At(Vec3{}), 1/math.Sqrt(3), 1e-15)
	if p.Toward(Vec3{X: -1}) != p.Flip() || p.Toward(Vec3{X: 1}) != p {
		t.Error("Toward turns the wrong side up")
	}
	if _, ok := PlaneThrough(Vec3{}, Vec3{X: 1}, Vec3{X: 2}); ok {
		t.Error("three points on a line gave a plane")
	}
	if _, ok := PlaneThrough(Vec3{}, Vec3{}, Vec3{}); ok {
		t.Error("one point gave a plane")
	}
}

func TestFrame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := drawVec(t, "n").Add(Vec3{Z: 30}).Unit()
		e1, e2 := Frame(n, rapid.SampledFrom([]Vec3{{X: 1}, {Y: 1}, n}).Draw(t, "toward"))
		if d := e1.Cross(e2).Dist(n); d > 1e-12 {
			t.Fatalf("e1×e2 is %g away from n", d)
		}
	})
}

// A clamped and natural spline through one arch, solved by hand: slopes m0 = 0,
// m0 + 4·m1 + m2 = 3·(y2 − y0) = 0 and m1 + 2·m2 = 3·(y2 − y1) = −3 give
// m1 = 3/7, m2 = −12/7.
func TestSplineByHand(t *testing.T) {
	c := Spline([]float64{0, 1, 2}, []float64{0, 1, 0})
	for x, want := range map[float64][2]float64{
		0: {0, 0}, 1: {1, 3. / 7}, 2: {0, -12. / 7}, 3: {-12. / 7, -12. / 7}, -1: {0, 0},
	} {
		y, slope := c.At(x)
		expectNear(t, "value", y, want[0], 1e-14)
		expectNear(t, "slope", slope, want[1], 1e-14)
	}
}

// A spline comes nearer to a smooth function with the fourth power of its step
// (a theorem of approximation theory); the sine fits the end conditions.
func TestSplineConverges(t *testing.T) {
	worst := func(n int) float64 {
		var x, y []float64
		for i := range n + 1 {
			x = append(x, math.Pi/2*float64(i)/float64(n))
			y = append(y, math.Cos(x[i]))
		}
		c, most := Spline(x, y), 0.0
		for i := range 1000 {
			at := math.Pi / 2 * float64(i) / 999
			got, _ := c.At(at)
			most = max(most, math.Abs(got-math.Cos(at)))
		}
		return most
	}
	if ratio := worst(8) / worst(16); ratio < 14 || ratio > 18 {
		t.Errorf("halving the step divides the error by %.2f, want about 16", ratio)
	}
}

func TestMonotoneNeverOvershoots(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y := rapid.SliceOfN(rapid.Float64Range(0, 10), 2, 9).Draw(t, "y")
		x := []float64{0}
		for range len(y) - 1 {
			x = append(x, x[len(x)-1]+rapid.Float64Range(0.5, 3).Draw(t, "step"))
		}
		c := Monotone(x, y)
		for i := range len(y) - 1 {
			low, high := min(y[i], y[i+1]), max(y[i], y[i+1])
			for k := range 21 {
				got, _ := c.At(x[i] + (x[i+1]-x[i])*float64(k)/20)
				if got < low-1e-9 || got > high+1e-9 {
					t.Fatalf("piece %d leaves [%g, %g]: %g", i, low, high, got)
				}
			}
		}
	})
}

func TestRoot(t *testing.T) {
	cubic := func(x float64) float64 { return x*x*x - 2 }
	expectNear(t, "cube root of 2", Root(cubic, 0, -2, 2, 6, 1e-13), math.Cbrt(2), 1e-12)
	expectNear(t, "at an end", Root(cubic, math.Cbrt(2), cubic(math.Cbrt(2)), 2, 6, 1e-12), math.Cbrt(2), 0)
	jump := func(x float64) float64 { return math.Copysign(1, x-0.3) }
	expectNear(t, "a jump", Root(jump, 0, -1, 1, 1, 1e-12), 0.3, 1e-9)
}
