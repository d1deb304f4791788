package path

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

// arc returns n+1 points on a circle of a radius round (100, 100), by angles in
// radians.
func arc(radius, from, to float64, n int) []Point {
	points := make([]Point, n+1)
	for i := range points {
		a := from + (to-from)*float64(i)/float64(n)
		points[i] = Point{100 + radius*math.Cos(a), 100 + radius*math.Sin(a)}
	}
	return points
}

// flat returns points all along a chain, close together.
func flat(c Chain) []Point {
	points := []Point{c.From.Point()}
	at := c.From
	for _, s := range c.Segments {
		curve := cubic{at.Point(), s.C1.Point(), s.C2.Point(), s.To.Point()}
		if !s.Curved {
			curve[1], curve[2] = curve[0].Mix(curve[3], 1./3), curve[0].Mix(curve[3], 2./3)
		}
		for i := 1; i <= 50; i++ {
			points = append(points, curve.at(float64(i)/50))
		}
		at = s.To
	}
	return points
}

// away returns the distance of a point from the line through points.
func away(p Point, points []Point) float64 {
	nearest := p.Dist(points[0])
	for i := 1; i < len(points); i++ {
		nearest = min(nearest, p.toLine(points[i-1], points[i]))
	}
	return nearest
}

// gridError is how far rounding to the grid can move a curve, and flattening one.
const gridError = 0.08 + flatness + closest

// A circle is known everywhere, not only at the points that were given.
func TestFitCircle(t *testing.T) {
	for _, radius := range []float64{3, 30, 90} {
		points := arc(radius, 0, 2*math.Pi, 200)
		points[200] = points[0]
		c := Fit(points, Fine)
		if c.From != c.End() {
			t.Errorf("radius %g: the loop is open", radius)
		}
		for _, p := range flat(c) {
			if off := math.Abs(p.Dist(Point{100, 100}) - radius); off > Fine+gridError {
				t.Errorf("radius %g: %.3f px off at %v", radius, off, p)
			}
		}
		if len(c.Segments) > 8 {
			t.Errorf("radius %g: %d segments for a circle", radius, len(c.Segments))
		}
	}
}

func TestFitKeepsCorners(t *testing.T) {
	var saw []Point
	for i := range 201 {
		x := float64(i) / 2
		saw = append(saw, Point{x, 10 - math.Abs(math.Mod(x, 20)-10)})
	}
	want := Polyline(Point{0, 0}, Point{10, 10}, Point{20, 0}, Point{30, 10}, Point{40, 0}, Point{50, 10},
		Point{60, 0}, Point{70, 10}, Point{80, 0}, Point{90, 10}, Point{100, 0})
	if got := Fit(saw, Fine); Line(got) != Line(want) {
		t.Errorf("a saw with ten teeth became %s, want %s", Line(got), Line(want))
	}
}

// A loop that starts in the middle of a side has its corners all the same.
func TestFitSquare(t *testing.T) {
	var square []Point
	for i := range 81 {
		s := math.Mod(float64(i)+10, 80)
		side, along := int(s/20), math.Mod(s, 20)
		square = append(square, []Point{{along, 0}, {20, along}, {20 - along, 20}, {0, 20 - along}}[side])
	}
	if got := Area(Fit(square, Fine)); got != "m20 0v20h-20v-20h20z" {
		t.Errorf("got %s", got)
	}
}

// Every point that was given lies within the tolerance of the line that comes out.
func TestFitComesNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tolerance := rapid.SampledFrom([]float64{Fine, Medium, Coarse}).Draw(t, "tolerance")
		coordinate := rapid.Float64Range(0, 60)
		n := rapid.IntRange(2, 30).Draw(t, "n")
		var points []Point
		for range n {
			points = append(points, Point{coordinate.Draw(t, "x"), coordinate.Draw(t, "y")})
		}
		if rapid.Bool().Draw(t, "loop") {
			points = append(points, points[0])
		}
		c := flat(Fit(points, tolerance))
		for _, p := range points {
			if d := away(p, c); d > tolerance+gridError {
				t.Fatalf("%v lies %.3f px away", p, d)
			}
		}
	})
}

func TestFitOfLittle(t *testing.T) {
	for want, points := range map[string][]Point{
		"":       nil,
		"m1 2":   {{1, 2}},
		"m3 2":   {{3, 2}, {3.01, 2}},
		"m1 2h5": {{1, 2}, {6, 2}},
	} {
		c := Fit(points, Fine)
		if len(points) == 0 {
			if len(c.Segments) != 0 {
				t.Errorf("nothing became %v", c)
			}
			continue
		}
		if got := Line(c); got != want {
			t.Errorf("%v became %q, want %q", points, got, want)
		}
	}
}

// Where all distances are equal a Catmull-Rom curve has its classic control points,
// b ± (c − a)/6 (Catmull and Rom, A class of local interpolating splines, 1974).
func TestThroughEvenPoints(t *testing.T) {
	points := arc(60, 0, 2*math.Pi, 12)[:12]
	c := Round(points...)
	if len(c.Segments) != 12 || c.End() != c.From {
		t.Fatalf("%d segments from %v to %v", len(c.Segments), c.From, c.End())
	}
	for i, s := range c.Segments {
		before, at, after := points[(i+11)%12], points[i], points[(i+1)%12]
		if want := Grid(at.Add(after.Sub(before).Scale(1. / 6))); s.C1 != want {
			t.Errorf("segment %d has the control point %v, want %v", i, s.C1, want)
		}
		if s.To != Grid(after) {
			t.Errorf("segment %d ends at %v, want %v", i, s.To, Grid(after))
		}
	}
}

func TestThroughCorner(t *testing.T) {
	c := Through(Point{0, 0}, Point{10, 5}, Point{20, 0}, Point{20, 0}, Point{30, 5}, Point{40, 0})
	if len(c.Segments) != 4 {
		t.Fatalf("got %d segments, want 4", len(c.Segments))
	}
	into := c.Segments[1].To.Point().Sub(c.Segments[1].C2.Point())
	out := c.Segments[2].C1.Point().Sub(c.Segments[1].To.Point())
	if into.Y > -1 || out.Y < 1 {
		t.Errorf("the line goes smoothly through a corner: %v, %v", into, out)
	}
	if straight := Line(Through(Point{0, 0}, Point{10, 0}, Point{30, 0})); straight != "m0 0h10 20" {
		t.Errorf("points on a line became %q", straight)
	}
}

func drawChain(t *rapid.T) Chain {
	dot := func() Dot {
		c := rapid.Int32Range(-3000, 6000)
		return Dot{c.Draw(t, "x"), c.Draw(t, "y")}
	}
	c := Chain{From: dot()}
	for range rapid.IntRange(0, 6).Draw(t, "n") {
		switch rapid.IntRange(0, 3).Draw(t, "kind") {
		case 0:
			c.Segments = append(c.Segments, Segment{Curved: true, C1: dot(), C2: dot(), To: dot()})
		case 1:
			c.Segments = append(c.Segments, Segment{To: Dot{dot().X, c.End().Y}})
		default:
			c.Segments = append(c.Segments, Segment{To: dot()})
		}
	}
	return c
}

func TestReversed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawChain(t)
		back := c.Reversed()
		if back.From != c.End() || back.End() != c.From {
			t.Fatalf("the way back leads from %v to %v", back.From, back.End())
		}
		if again := back.Reversed(); Line(again) != Line(c) {
			t.Fatalf("there and back: %s, want %s", Line(again), Line(c))
		}
	})
}

// What is written means the chains that were added, read by the grammar of path data
// (Scalable Vector Graphics 2, section 9.3.9).
func TestDataReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var d Data
		var want []Chain
		for range rapid.IntRange(1, 4).Draw(t, "chains") {
			c := drawChain(t)
			d.Add(c)
			if rapid.Bool().Draw(t, "close") {
				d.Close()
			}
			want = append(want, c)
		}
		got := readData(t, d.String())
		for _, c := range want {
			expectInside(t, got, c)
		}
	})
}

// expectInside looks for a chain's segments, in their order, among those read.
func expectInside(t *rapid.T, got []placed, c Chain) {
	at := c.From
	for _, s := range c.Segments {
		found := false
		for _, g := range got {
			found = found || g == placed{at, s}
		}
		if !found {
			t.Fatalf("%v from %v is missing from %v", s, at, got)
		}
		at = s.To
	}
}

// placed is a segment and where it starts.
type placed struct {
	from Dot
	Segment
}

// readData reads path data of the commands m, l, h, v, c and z.
func readData(t *rapid.T, text string) []placed {
	var list []placed
	var at, start Dot
	command := byte(0)
	next := func() int32 {
		number := ""
		for text != "" && text[0] == ' ' {
			text = text[1:]
		}
		for text != "" && (text[0] >= '0' && text[0] <= '9' || text[0] == '-' && number == "" || text[0] == '.' && !contains(number, '.')) {
			number, text = number+text[:1], text[1:]
		}
		v, err := strconv.ParseFloat(number, 64)
		if err != nil {
			t.Fatalf("%q before %q: %v", number, text, err)
		}
		return int32(math.Round(v * perPixel))
	}
	dot := func() Dot { x := next(); return Dot{at.X + x, at.Y + next()} }
	for text != "" {
		if c := text[0]; c >= 'a' && c <= 'z' {
			command, text = c, text[1:]
		}
		s := Segment{To: at}
		switch command {
		case 'z':
			at = start
			continue
		case 'm':
			at = dot()
			start, command = at, 'l'
			continue
		case 'h':
			s.To.X += next()
		case 'v':
			s.To.Y += next()
		case 'l':
			s.To = dot()
		case 'c':
			s = Segment{Curved: true, C1: dot(), C2: dot(), To: dot()}
		default:
			t.Fatalf("command %q", command)
		}
		list = append(list, placed{at, s})
		at = s.To
	}
	return list
}

func contains(text string, c byte) bool {
	for i := range len(text) {
		if text[i] == c {
			return true
		}
	}
	return false
}

func TestShortestSpelling(t *testing.T) {
	c := Chain{From: Dot{5, -30}, Segments: []Segment{
		{To: Dot{10, -24}}, {To: Dot{11, -20}}, {To: Dot{-9, -20}}, {To: Dot{-9, 0}},
		{Curved: true, C1: Dot{-4, 1}, C2: Dot{1, 2}, To: Dot{6, 0}},
	}}
	if got, want := Line(c), "m.5-3 .5.6.1.4h-2v2c.5.1 1 .2 1.5 0"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// sumOfLines is the hash of many fitted lines. It is the same on every machine and
// with every setting of the compiler; change it only with the method.
const sumOfLines = "6d2318a16470e0b7"

func TestSameBitsEverywhere(t *testing.T) {
	hash := sha256.New()
	for k := range 40 {
		var points []Point
		for i := range 100 {
			x := float64(i)
			points = append(points, Point{x, float64((i * i * (k + 3)) % (17 + k))}, Point{x + 0.5, float64(k)})
		}
		fmt.Fprintln(hash, Line(Fit(points, Medium)), Line(Through(points...)))
	}
	if got := hex.EncodeToString(hash.Sum(nil))[:16]; got != sumOfLines {
		t.Errorf("the lines give %s, want %s", got, sumOfLines)
	}
}

func BenchmarkFit(b *testing.B) {
	points := arc(200, 0, 3, 400)
	b.ReportAllocs()
	for b.Loop() {
		Fit(points, Fine)
	}
}
