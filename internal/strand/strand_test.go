package strand

import (
	"errors"
	"math"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"plait/internal/geom"
	"plait/internal/head"
)

var (
	adult = sync.OnceValue(head.Adult)
	ball  = sync.OnceValue(head.Ball)
)

func expectNear(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.6f, want %.6f ± %g", what, got, want, tolerance)
	}
}

func length(t *testing.T, h *head.Head, g Guide, l Lift, root head.Point) float64 {
	t.Helper()
	got, err := g.Length(h, root, l)
	if err != nil {
		t.Fatalf("%#v: %v", g, err)
	}
	return got
}

func elevated(degrees float64) Lift { return Lift{Elevation: geom.Degrees(degrees)} }

// behind returns the root on the back meridian of the ball, phi degrees from the
// top.
func behind(phi float64) head.Point {
	return head.At(ball(), head.Direction(geom.Degrees(phi), math.Pi))
}

// On a ball every cut has a closed form: slides are arcs R·(π/2 − φ), a travelling
// guide adds arc · cos e, a string to a point leaves the ball on a tangent.
func TestBall(t *testing.T) {
	const r = 9.0
	up := Wall{geom.Plane{N: geom.Vec3{Z: 1}, D: 20}}
	point := Stationary{geom.Vec3{X: -20}}
	for _, phi := range []float64{30, 45, 60} {
		root := behind(phi)
		arc := r * (math.Pi/2 - geom.Degrees(phi))
		expectNear(t, "one length", length(t, ball(), Perimeter{Z: -5}, Lift{}, root), arc+5, 0.002)
		expectNear(t, "end of one length", Fall(ball(), root, Gravity, arc+5).End().Z, -5, 0.002)
		expectNear(t, "end of even layers", Fall(ball(), root, Gravity, 10).End().Z, -(10 - arc), 0.002)
		expectNear(t, "45°", length(t, ball(), Travelling{Start: 4}, elevated(45), root), 4+arc*math.Sqrt2/2, 0.002)
		expectNear(t, "90°", length(t, ball(), Travelling{Start: 4}, elevated(90), root), 4, 1e-9)
		floor := Lift{Elevation: math.Pi, FromFloor: true}
		expectNear(t, "straight up", length(t, ball(), up, floor, root), 20-r*math.Cos(geom.Degrees(phi)), 1e-9)
		expectNear(t, "to a point", length(t, ball(), point, Lift{}, root), stringOnBall(arc/r), 0.002)
	}
	expectNear(t, "apex to a point", length(t, ball(), point, Lift{}, behind(0)), 22.0615, 0.002)
	front := head.At(ball(), head.Direction(math.Pi/2, 0))
	expectNear(t, "front to a point", length(t, ball(), point, Lift{}, front), 36.1986, 0.002)
	expectNear(t, "short strand stays on the ball", Fall(ball(), behind(30), Gravity, 3).End().Z,
		r*math.Cos(geom.Degrees(30)+3/r), 0.002)
}

// stringOnBall is the length of a string from a root that lies an angle g from the
// direction of a point 20 cm from the centre of a ball of 9 cm.
func stringOnBall(g float64) float64 {
	tangent := math.Acos(9. / 20)
	if g <= tangent {
		return math.Sqrt(81 + 400 - 360*math.Cos(g))
	}
	return math.Sqrt(400-81) + 9*(g-tangent)
}

// A root further round the ball is never nearer to the guide: cut to a point behind,
// hair grows longer toward the front.
func TestStationaryGrowsAway(t *testing.T) {
	g := Stationary{geom.Vec3{X: -20}}
	rapid.Check(t, func(t *rapid.T) {
		root := head.At(ball(), head.Direction(rapid.Float64Range(0, 1.57).Draw(t, "phi"), rapid.Float64Range(-3.14, 3.14).Draw(t, "theta")))
		got, err := g.Length(ball(), root, Lift{})
		if err != nil {
			t.Fatal(err)
		}
		if want := stringOnBall(math.Acos(-root.U.X)); math.Abs(got-want) > 1e-3 {
			t.Fatalf("got %.5f, want %.5f", got, want)
		}
	})
}

// A strip held straight out along the middle of the ball, its ends 20 cm from the
// centre, takes each strand in its own plane across, as a point there would.
func TestStationaryLine(t *testing.T) {
	front, nape := ball().HairArc()
	g := Raised(ball().Midline(), front, nape, 11)
	for _, degrees := range []float64{0, 5, 30, 60, 80} {
		root := head.At(ball(), head.Direction(geom.Degrees(degrees), math.Pi/2))
		got := length(t, ball(), g, Lift{}, root)
		expectNear(t, "to the strip", got, stringOnBall(geom.Degrees(degrees)), 0.01)
	}
	if _, err := (StationaryLine{}).Length(ball(), behind(30), Lift{}); !errors.Is(err, ErrOutOfReach) {
		t.Errorf("a line without points gives %v", err)
	}
}

// Each value is an arc of the head's profile and a plain distance, worked out
// without the paths: arcs crown to widest back 7.093, apex to widest back 13.997,
// occipital bone to nape 6.925, crown to nape 17.312, apex to nape 24.215.
func TestAdult(t *testing.T) {
	expect := func(what string, g Guide, l Lift, want map[string]float64) {
		t.Helper()
		for name, cm := range want {
			root, ok := adult().Landmark(name)
			if !ok {
				t.Fatal(name)
			}
			expectNear(t, what+", "+name, length(t, adult(), g, l, root), cm, 0.03)
		}
	}
	expect("one length", Perimeter{Z: -8}, Lift{}, map[string]float64{
		"crown": 18.82, "occipital bone": 8.50, "nape": 2.10, "left ear top": 11.30, "right ear top": 11.30})
	expect("graduation", Travelling{Start: 5}, elevated(45), map[string]float64{
		"apex": 22.12, "crown": 17.24, "occipital bone": 9.90, "nape": 5, "left ear top": 5, "front hairline": 5})
	expect("long layers", Travelling{Start: 20}, elevated(135), map[string]float64{
		"apex": 2.88, "crown": 7.76, "occipital bone": 15.10, "nape": 20, "left ear top": 20, "front hairline": 20})
	expect("straight up", Wall{geom.Plane{N: geom.Vec3{Z: 1}, D: 18}}, Lift{Elevation: math.Pi, FromFloor: true}, map[string]float64{
		"apex": 5.10, "crown": 7.81, "occipital bone": 17.50, "nape": 23.90, "left ear top": 14.70, "front hairline": 9.63})
	expect("to a point behind", Stationary{geom.Vec3{X: -20.333, Z: 11.189}}, Lift{}, map[string]float64{
		"apex": 19.21, "crown": 13.04, "occipital bone": 15.38, "nape": 21.87, "left ear top": 21.48, "front hairline": 29.62})
	for name, z := range map[string]float64{"crown": -0.18, "occipital bone": -10.50, "nape": -16.90, "left ear top": -7.70} {
		root, _ := adult().Landmark(name)
		expectNear(t, "end of even layers, "+name, Fall(adult(), root, Gravity, 11).End().Z, z, 0.03)
	}
}

// drawRoot draws a place with hair.
func drawRoot(t *rapid.T, h *head.Head) head.Point {
	theta := rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "theta")
	share := rapid.Float64Range(0, 1).Draw(t, "share")
	return head.At(h, head.Direction(share*h.Hairline(math.Abs(theta)), theta))
}

// A one-length cut ends on one level, a strand keeps its length when it falls, and
// left is right mirrored.
func TestFallProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		root := drawRoot(t, adult())
		g := Perimeter{Z: -8}
		cm, err := g.Length(adult(), root, Lift{})
		if err != nil {
			t.Fatal(err)
		}
		if end := Fall(adult(), root, Gravity, cm).End().Z; math.Abs(end+8) > 0.01 {
			t.Fatalf("the end hangs at %.4f", end)
		}
		dressing := rapid.SampledFrom([]Dressing{Gravity, FromCrown, CentreParting}).Draw(t, "dressing")
		path := Fall(adult(), root, dressing, cm)
		if d := math.Abs(path.Len() - cm); d > 0.02 {
			t.Fatalf("%s: a strand of %.3f cm falls as %.3f", dressing, cm, path.Len())
		}
		if math.Abs(root.P.Y) < 0.01 {
			return // which way a strand on the parting itself falls is open
		}
		mirrored := Fall(adult(), head.At(adult(), root.U.Mirror()), dressing, cm)
		if d := mirrored.End().Mirror().Dist(path.End()); d > 1e-6 {
			t.Fatalf("%s: left and right ends differ by %g", dressing, d)
		}
	})
}

// The five working elevations and the length they add for each cm up the head, the
// cosine (a general haircutting handbook: below 90° weight builds, above it goes).
func TestElevation(t *testing.T) {
	root, _ := adult().Landmark("occipital bone")
	for degrees, want := range map[float64]float64{0: 1, 45: 0.7071, 60: 0.5, 90: 0, 135: -0.7071, 180: -1} {
		expectNear(t, "gain", elevated(degrees).Direction(root).Dot(Down(root)), want, 1e-4)
	}
	floor := Lift{Elevation: math.Pi / 2, FromFloor: true}.Direction(root)
	expectNear(t, "level", floor.Z, 0, 1e-12)
}

func TestOverDirection(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		root := drawRoot(t, adult())
		plain, l := elevated(60), elevated(60)
		l.Toward = rapid.SampledFrom([]Toward{TowardFront, TowardBack, TowardLeft, TowardRight}).Draw(t, "toward")
		l.By = geom.Degrees(rapid.Float64Range(0, 90).Draw(t, "by"))
		before, after := plain.Direction(root), l.Direction(root)
		if math.Abs(after.Len()-1) > 1e-9 || math.Abs(after.Dot(root.N)-before.Dot(root.N)) > 1e-9 {
			t.Fatal("over-direction changes length or elevation")
		}
		flat := before.Across(root.N)
		if cos := after.Dot(flat) / flat.Dot(flat); math.Abs(cos-math.Cos(l.By)) > 1e-9 {
			t.Fatalf("turned by %g, want %g", math.Acos(cos), l.By)
		}
		// A quarter turn ends on the wanted side of where the strand was.
		l.By = math.Pi / 2
		if gain := l.Direction(root).Across(root.N).Dot(sides[l.Toward]); gain < -1e-9 {
			t.Fatalf("turned away from the %s by %g", l.Toward, gain)
		}
	})
}

func TestOutOfReach(t *testing.T) {
	nape, _ := adult().Landmark("nape")
	expect := func(g Guide, l Lift, want error) {
		t.Helper()
		if _, err := g.Length(adult(), nape, l); !errors.Is(err, want) {
			t.Errorf("%#v: got %v, want %v", g, err, want)
		}
	}
	top, _ := adult().Landmark("front hairline")
	if _, err := (Travelling{Start: 5}).Length(adult(), top, elevated(135)); err != nil {
		t.Error(err)
	}
	expect(Perimeter{Z: -5}, Lift{}, ErrOutOfReach) // the nape lies lower
	expect(Wall{geom.Plane{N: geom.Vec3{X: 1}, D: 12}}, elevated(90), ErrOutOfReach)
	expect(Wall{geom.Plane{N: geom.Vec3{X: -1}, D: 2}}, elevated(90), ErrOutOfReach) // inside the head
	expect(Stationary{geom.Vec3{X: -5}}, Lift{}, ErrNoGuide)
	apex, _ := adult().Landmark("apex")
	if _, err := (Travelling{Start: 5}).Length(adult(), apex, elevated(180)); !errors.Is(err, ErrOutOfReach) {
		t.Errorf("5 cm at the hairline leave %v at the apex", err)
	}
}

func benchmarkCut(b *testing.B, g Guide, l Lift) {
	root, _ := adult().Landmark("crown")
	for b.Loop() {
		if _, err := g.Length(adult(), root, l); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPerimeter(b *testing.B)  { benchmarkCut(b, Perimeter{Z: -8}, Lift{}) }
func BenchmarkTravelling(b *testing.B) { benchmarkCut(b, Travelling{Start: 5}, elevated(45)) }
func BenchmarkStationary(b *testing.B) { benchmarkCut(b, Stationary{geom.Vec3{X: -20}}, Lift{}) }

func BenchmarkFall(b *testing.B) {
	root, _ := adult().Landmark("left parietal ridge")
	for b.Loop() {
		Fall(adult(), root, CentreParting, 25)
	}
}
