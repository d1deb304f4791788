package head

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"plait/internal/geom"
)

func expectNear(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.9g, want %.9g ± %g", what, got, want, tolerance)
	}
}

// Means and standard deviations, in cm, worked out from the public files of the
// 2012 anthropometric survey of US Army personnel (1986 women, 4082 men): the
// reference head must lie within one deviation of the mean of either.
func TestMeasuresAgainstSurvey(t *testing.T) {
	m := Adult().Measure()
	for _, c := range []struct {
		what                       string
		got                        float64
		women, womenSD, men, menSD float64
	}{
		{"circumference", m.Circumference, 56.11, 1.94, 57.44, 1.60},
		{"length", m.Length, 18.98, 0.74, 19.95, 0.70},
		{"breadth", m.Breadth, 14.78, 0.52, 15.43, 0.55},
		{"ear canal to top", m.EarToTop, 12.65, 0.65, 13.11, 0.62},
	} {
		if math.Abs(c.got-c.women) > c.womenSD && math.Abs(c.got-c.men) > c.menSD {
			t.Errorf("%s %.2f cm is not within %.2f ± %.2f (women) or %.2f ± %.2f (men)",
				c.what, c.got, c.women, c.womenSD, c.men, c.menSD)
		}
	}
	// The same survey: the tape is 2.9 % (men) to 5.4 % (women, some with braids)
	// longer than an ellipse on length and breadth. The model goes most of the way to
	// the men's figure.
	longer := m.Circumference/ellipsePerimeter(m.Length/2, m.Breadth/2) - 1
	expectNear(t, "tape over ellipse", longer, 0.029, 0.006)
	// The working range of arcs in electrode placement is 34 to 38 cm (from memory).
	expectNear(t, "nasion to inion", m.NasionInion, 36, 2)
}

// A public 97-point template of the 10-20 system has 381.2 mm from nasion to inion
// along the electrodes and 206.1 mm straight.
func TestArcOverChord(t *testing.T) {
	h := Adult()
	nasion, inion := h.skull()
	chord := h.Midline().At(nasion).P.Dist(h.Midline().At(inion).P)
	expectNear(t, "arc over chord", h.Measure().NasionInion/chord, 381.2/206.1, 0.06)
}

// Where the trade's landmarks lie on the 10-20 midline is common practice without a
// source, good to about 5 %; that Cz lies in the middle is the system's definition.
func TestLandmarksOnTenTwenty(t *testing.T) {
	h := Adult()
	for name, want := range map[string][2]float64{
		"front hairline": {0.12, 0.22},
		"apex":           {0.45, 0.55},
		"crown":          {0.60, 0.70},
		"occipital bone": {0.95, 1.00},
		"nape":           {1.15, 1.25},
	} {
		p, ok := h.Landmark(name)
		if got := h.TenTwenty(p); !ok || got < want[0] || got > want[1] {
			t.Errorf("%s lies at %.3f of nasion to inion, want %.2f to %.2f", name, got, want[0], want[1])
		}
	}
	ridge, _ := h.Pair("parietal ridge")
	over := h.Over()
	ears, _ := h.Pair("ear top")
	low, high := over.ArcAt(ears[0].P), over.ArcAt(ears[1].P)
	share := (over.ArcAt(ridge[0].P) - low) / (high - low)
	expectNear(t, "parietal ridge between ear tops", share, 0.2, 0.08)
}

// The model's own figures, so that no change slips in: they are what section areas
// and lengths elsewhere rest on.
func TestModel(t *testing.T) {
	h := Adult()
	for name, want := range map[string]geom.Vec3{
		"front hairline":      {X: 7.7372, Z: 8.3749},
		"apex":                {X: -1.2, Z: 12.9},
		"crown":               {X: -7.3329, Z: 10.1885},
		"below crown":         {X: -8.5468, Z: 8.5079},
		"occipital bone":      {X: -9.2699, Z: 0.5014},
		"nape":                {X: -6.6900, Z: -5.8991},
		"widest back":         {X: -9.8587, Z: 3.7251},
		"left recession":      {X: 5.9002, Y: 4.0993, Z: 8.7585},
		"right recession":     {X: 5.9002, Y: -4.0993, Z: 8.7585},
		"left ear top":        {X: -1.9923, Y: 7.5383, Z: 3.2956},
		"left ear back":       {X: -4.3551, Y: 6.7662, Z: 0.5488},
		"left nape corner":    {X: -5.4748, Y: 4.1281, Z: -4.8362},
		"left parietal ridge": {X: -1.2, Y: 6.6576, Z: 8.6353},
	} {
		p, ok := h.Landmark(name)
		if !ok || p.P.Dist(want) > 1e-4 {
			t.Errorf("%s lies at %+v, want %+v", name, p.P, want)
		}
	}
	m := h.Measure()
	expectNear(t, "circumference", m.Circumference, ReferenceCircumference, 0.005)
	expectNear(t, "breadth", m.Breadth, 15.23, 0.005)
	expectNear(t, "between ear canals", m.EarBreadth, 13.75, 0.005)
	expectNear(t, "ear to ear", m.EarToEar, 34.39, 0.005)
	expectNear(t, "hairline to hairline", m.HairArc, 34.623, 0.001)
}

func TestSized(t *testing.T) {
	h, err := Sized(57)
	if err != nil {
		t.Fatal(err)
	}
	m, ref := h.Measure(), Adult().Measure()
	k := 57 / ReferenceCircumference
	expectNear(t, "size", h.Size(), k, 1e-15)
	expectNear(t, "circumference", m.Circumference, 57, 0.005)
	expectNear(t, "breadth", m.Breadth, k*ref.Breadth, 1e-9)
	expectNear(t, "arc", m.NasionInion, k*ref.NasionInion, 1e-9)
	for _, bad := range []float64{0, -1, 43.9, 66.1, math.NaN(), math.Inf(1)} {
		if _, err := Sized(bad); err == nil {
			t.Errorf("a circumference of %g was accepted", bad)
		}
	}
	for _, good := range []float64{LeastCircumference, MostCircumference} {
		if _, err := Sized(good); err != nil {
			t.Errorf("a circumference of %g was refused: %v", good, err)
		}
	}
}

func surfaces() []Surface { return []Surface{Adult(), Ball(), Ellipsoid(9.6, 7.6, 9.1)} }

func drawDirection(t *rapid.T, s Surface) geom.Vec3 {
	phi := rapid.Float64Range(0.01, min(s.Limit(), 3.1)).Draw(t, "phi")
	theta := rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "theta")
	return Direction(phi, theta)
}

// The gradient is held against differences of the radius itself.
func TestGradient(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(surfaces()).Draw(t, "surface")
		u := drawDirection(t, s)
		_, gradient := s.Radius(u)
		e1, e2 := geom.Frame(u, geom.Vec3{X: 1})
		for _, e := range []geom.Vec3{e1, e2} {
			const h = 1e-5
			ahead, _ := s.Radius(u.Add(e.Scale(h)).Unit())
			behind, _ := s.Radius(u.Sub(e.Scale(h)).Unit())
			if d := math.Abs((ahead-behind)/(2*h) - gradient.Dot(e)); d > 1e-3 {
				t.Fatalf("slope along %v differs by %g", e, d)
			}
		}
		if d := math.Abs(gradient.Dot(u)); d > 1e-9 {
			t.Fatalf("the gradient is not at right angles to the direction: %g", d)
		}
	})
}

// The normal of an ellipsoid at p is the direction of (x/a², y/b², z/c²).
func TestEllipsoidNormal(t *testing.T) {
	s := Ellipsoid(9.6, 7.6, 9.1)
	rapid.Check(t, func(t *rapid.T) {
		p := At(s, drawDirection(t, s))
		want := geom.Vec3{X: p.P.X / (9.6 * 9.6), Y: p.P.Y / (7.6 * 7.6), Z: p.P.Z / (9.1 * 9.1)}.Unit()
		if d := p.N.Dist(want); d > 1e-12 {
			t.Fatalf("the normal is off by %g", d)
		}
	})
}

func TestLeftIsRightMirrored(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(surfaces()).Draw(t, "surface")
		u := drawDirection(t, s)
		left, right := At(s, u), At(s, u.Mirror())
		if left.P.Mirror() != right.P || left.N.Mirror() != right.N {
			t.Fatalf("%v and %v are no mirror images", left, right)
		}
		if Hair(s, u) != Hair(s, u.Mirror()) {
			t.Fatal("the hairline is not the same on both sides")
		}
	})
}

// Seen from the centre the scalp never comes near to grazing, so that a radius per
// direction describes it well everywhere.
func TestScalpFacesOutward(t *testing.T) {
	h, least := Adult(), 1.0
	for i := range 400 {
		for k := range 400 {
			u := Direction(math.Pi*(float64(i)+0.5)/400, 2*math.Pi*float64(k)/400)
			if Hair(h, u) > 0 {
				least = min(least, At(h, u).N.Dot(u))
			}
		}
	}
	expectNear(t, "least cosine", least, 0.737, 0.002)
}

// ellipsePerimeter uses Gauss's arithmetic-geometric mean, which converges to all
// digits (Abramowitz and Stegun 17.6; from memory).
func ellipsePerimeter(a, b float64) float64 {
	x, y, sum, weight := a, b, (a*a+b*b)/2, 0.5
	for range 8 {
		d := (x - y) / 2
		x, y = (x+y)/2, math.Sqrt(x*y)
		weight *= 2
		sum -= weight * d * d
	}
	return 2 * math.Pi * sum / x
}

func TestSectionLengths(t *testing.T) {
	ball, ellipsoid := HalfBall(9), Ellipsoid(9.6, 7.6, 9.1)
	expect := func(what string, s Surface, p geom.Plane, want float64) {
		t.Helper()
		trace, ok := Section(s, p, geom.Vec3{X: 1})
		if !ok {
			t.Errorf("%s: the plane misses", what)
			return
		}
		expectNear(t, what, trace.Len(), want, want*1e-6)
		half := trace.At(trace.Len() / 3)
		expectNear(t, what+", there and back", trace.ArcAt(half.P), trace.Len()/3, 1e-9)
		expectNear(t, what+", on the plane", p.At(half.P), 0, 1e-9)
	}
	expect("great circle", ball, geom.Plane{N: geom.Vec3{Z: 1}}, 18*math.Pi)
	expect("small circle", ball, geom.Plane{N: geom.Vec3{X: 1}, D: 5}, 2*math.Pi*math.Sqrt(56))
	expect("ellipse across y", ellipsoid, geom.Plane{N: geom.Vec3{Y: 1}}, ellipsePerimeter(9.6, 9.1))
	expect("ellipse across z", ellipsoid, geom.Plane{N: geom.Vec3{Z: 1}}, ellipsePerimeter(9.6, 7.6))
	if _, ok := Section(ball, geom.Plane{N: geom.Vec3{X: 1}, D: 9.01}, geom.Vec3{Z: 1}); ok {
		t.Error("a plane beside the ball gave a section")
	}
}

// On a ball a chord q from a point draws a circle of radius q·√(1 − q²/4R²).
func TestCompass(t *testing.T) {
	ball := HalfBall(9)
	for _, q := range []float64{0.5, 6, 12} {
		trace, ok := Compass(ball, At(ball, Direction(0.7, 2)), q, geom.Vec3{X: 1})
		if !ok {
			t.Fatalf("no circle of %g cm", q)
		}
		want := 2 * math.Pi * q * math.Sqrt(1-q*q/(4*81))
		expectNear(t, "circle", trace.Len(), want, want*1e-5)
		p := trace.At(trace.Len() / 5)
		expectNear(t, "distance", p.P.Dist(trace.Origin()), q, 1e-9)
		expectNear(t, "there and back", trace.ArcAt(p.P), trace.Len()/5, 1e-9)
	}
	if _, ok := Compass(ball, At(ball, geom.Vec3{Z: 1}), 18.1, geom.Vec3{X: 1}); ok {
		t.Error("a compass wider than the ball drew a circle")
	}
}

// sum is the hash of the bits of all landmarks and measures. It must be the same on
// every machine and with every setting of the compiler; change it only with the
// model.
const sum = "c687b6d5759e5264"

func TestSameBitsEverywhere(t *testing.T) {
	h := Adult()
	hash := sha256.New()
	for _, name := range h.Landmarks() {
		p, _ := h.Landmark(name)
		fmt.Fprintf(hash, "%s %b %b %b\n", name, p.P, p.N, h.TenTwenty(p))
	}
	fmt.Fprintf(hash, "%b", h.Measure())
	if got := hex.EncodeToString(hash.Sum(nil))[:16]; got != sum {
		t.Errorf("the model gives %s, want %s", got, sum)
	}
}

func BenchmarkAdult(b *testing.B) {
	for b.Loop() {
		Adult()
	}
}

func BenchmarkAt(b *testing.B) {
	h, u := Adult(), Direction(1, 2)
	for b.Loop() {
		At(h, u)
	}
}
