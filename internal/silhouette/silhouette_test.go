package silhouette

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"math"
	"sync"
	"testing"

	"plait/internal/geom"
	"plait/internal/head"
	"plait/internal/scalp"
	"plait/internal/strand"
)

var (
	adultBase = sync.OnceValue(func() *scalp.Base { return scalp.New(head.Adult(), scalp.Preview) })
	ballBase  = sync.OnceValue(func() *scalp.Base { return scalp.New(head.Ball(), scalp.Preview) })
)

var (
	left = View{Right: geom.Vec3{X: -1}, Up: geom.Vec3{Z: 1}}
	back = View{Right: geom.Vec3{Y: -1}, Up: geom.Vec3{Z: 1}}
)

func expectNear(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.6f, want %.6f ± %g", what, got, want, tolerance)
	}
}

// haircut cuts a whole scalp one way.
func haircut(t testing.TB, b *scalp.Base, g strand.Guide, degrees float64, d strand.Dressing) *strand.Haircut {
	t.Helper()
	plan, err := b.Part(nil)
	if err != nil {
		t.Fatal(err)
	}
	lift := strand.Lift{Elevation: geom.Degrees(degrees)}
	return &strand.Haircut{Plan: plan, Cuts: []strand.Cut{{Guide: g, Lift: lift}}, Dressing: d}
}

func now(s strand.Strand) strand.Path { return s.Path }

// A single straight strand makes a strip with a round root and a square end: its
// area is 2rh + πr²/2.
func TestOutlineOfOneStrand(t *testing.T) {
	const length = 10.0
	loops := Outline([]Line{{Points: []Point{{0, 0}, {0, -length}}}})
	if len(loops) != 1 {
		t.Fatalf("%d loops", len(loops))
	}
	expectNear(t, "area", area(loops[0]), 2*halfWidth*length+math.Pi*halfWidth*halfWidth/2, 0.5)
	lowest, highest := math.Inf(1), math.Inf(-1)
	for _, p := range loops[0] {
		lowest, highest = min(lowest, p.Y), max(highest, p.Y)
		if p.X < -halfWidth-0.02 || p.X > halfWidth+0.02 {
			t.Errorf("the strip is too wide at %v", p)
		}
	}
	expectNear(t, "square end", lowest, -length, 0.25)
	expectNear(t, "round root", highest, halfWidth, 0.25)
}

// Strands round a circle leave a hole in the middle, which is a loop that runs the
// other way.
func TestOutlineWithHole(t *testing.T) {
	const r = 5.0
	var ring []Point
	for i := range 181 {
		a := 2 * math.Pi * float64(i) / 180
		ring = append(ring, Point{r * math.Cos(a), r * math.Sin(a)})
	}
	loops := Outline([]Line{{Points: ring}})
	if len(loops) != 2 {
		t.Fatalf("%d loops, want the ring's outside and inside", len(loops))
	}
	inner, outer := min(area(loops[0]), area(loops[1])), max(area(loops[0]), area(loops[1]))
	expectNear(t, "outside", outer, math.Pi*(r+halfWidth)*(r+halfWidth), 1)
	expectNear(t, "inside", inner, -math.Pi*(r-halfWidth)*(r-halfWidth), 1)
	for _, loop := range loops {
		if loop[0] != loop[len(loop)-1] {
			t.Error("a loop is open")
		}
	}
	if Outline(nil) != nil {
		t.Error("no hair has an outline")
	}
}

// Two strands that touch at their corners exercise the squares of the grid with
// opposite corners alike; every loop must close and none may cross itself there.
func TestSaddle(t *testing.T) {
	for _, mean := range []float64{-1, 1} {
		r := &raster{width: 4, height: 4, depth: []float64{
			-9, -9, -9, -9,
			-9, 1, -1 + mean/2, -9,
			-9, -1 + mean/2, 1, -9,
			-9, -9, -9, -9,
		}}
		want := 1
		if mean < 0 {
			want = 2
		}
		loops := r.loops()
		if len(loops) != want {
			t.Errorf("mean %g: %d loops, want %d", mean, len(loops), want)
		}
		for _, l := range loops {
			if l[0] != l[len(l)-1] || area(l) <= 0 {
				t.Errorf("mean %g: loop %v is open or runs clockwise", mean, l)
			}
		}
	}
}

// What is left out of a strand is no further from it than is said.
func TestSimple(t *testing.T) {
	var arc []Point
	for i := range 200 {
		a := float64(i) / 100
		arc = append(arc, Point{9 * math.Cos(a), 9 * math.Sin(a)})
	}
	kept := simple(arc)
	if len(kept) > 40 || kept[0] != arc[0] || kept[len(kept)-1] != arc[199] {
		t.Fatalf("%d points are kept", len(kept))
	}
	for _, p := range arc {
		nearest := math.Inf(1)
		for i := 1; i < len(kept); i++ {
			if along, off := across(kept[i-1], kept[i], p); along > -1e-9 && along < kept[i-1].dist(kept[i])+1e-9 {
				nearest = min(nearest, off)
			}
		}
		if nearest > straightness {
			t.Fatalf("%v lies %g off", p, nearest)
		}
	}
}

// The same hair, seen from the back, makes the same shape on both sides.
func TestOutlineIsSymmetric(t *testing.T) {
	cut := haircut(t, adultBase(), strand.Travelling{Start: 8}, 45, strand.Gravity)
	loops := Outline(Of(back, cut.Fall(), now))
	for _, loop := range loops {
		for _, p := range loop {
			nearest := math.Inf(1)
			for _, other := range loops {
				for _, q := range other {
					nearest = min(nearest, q.dist(Point{-p.X, p.Y}))
				}
			}
			if nearest > 1e-6 {
				t.Fatalf("%v has no mirror image within %g cm", p, nearest)
			}
		}
	}
}

// The outline of one length ends at the line it was cut to, and its perimeter is
// level.
func TestOneLength(t *testing.T) {
	for _, dressing := range []strand.Dressing{strand.Gravity, strand.CentreParting} {
		f := Fall(haircut(t, adultBase(), strand.Perimeter{Z: -8, Dressing: dressing}, 0, dressing))
		lowest := math.Inf(1)
		for _, p := range Outline(Of(back, f.Strands, now))[0] {
			lowest = min(lowest, p.Y)
		}
		expectNear(t, "the lowest point of the shape", lowest, -8, 0.2)
		if len(f.Perimeter) != 6 {
			t.Fatalf("%d pieces of perimeter", len(f.Perimeter))
		}
		for _, e := range f.Perimeter {
			expectNear(t, "slope of the "+string(e.Zone), e.Slope, 0, 1e-9)
			for _, p := range e.Ends {
				expectNear(t, "end", p.Y, -8, 1e-9)
			}
		}
		if f.Weighted {
			t.Error("one length has a weight line")
		}
		expectNear(t, "missed", f.Missed, 0, 1e-9)
	}
}

// A guide in a slope leaves a slope: strands of the side cut to a plane that falls 20°
// toward the face, where they hang straight down.
func TestSlope(t *testing.T) {
	fall := geom.Degrees(20)
	var strands []strand.Strand
	for i := range 60 {
		for _, side := range []float64{1, -1} {
			root := head.Point{U: geom.Vec3{Y: side}, P: geom.Vec3{X: float64(i)*0.1 - 3, Y: 7 * side}}
			end := root.P
			end.Z = -5 - math.Tan(fall)*root.P.X
			strands = append(strands, strand.Strand{Root: root, Cut: true, Path: strand.Path{root.P, end}})
		}
	}
	edges := Perimeter(strands)
	if len(edges) != 2 || edges[0].Zone != Side || !edges[0].Left || edges[1].Left {
		t.Fatalf("got %+v", edges)
	}
	for _, e := range edges {
		// In each bin the lowest end is the foremost, so the slope is exact.
		expectNear(t, "slope", e.Slope, fall, 1e-9)
	}
}

// At the nape the slope falls toward the middle: there the hairline is lowest, and
// even layers follow it.
func TestEvenLayersFollowTheHairline(t *testing.T) {
	f := Fall(haircut(t, adultBase(), strand.Fixed{Cm: 9}, 90, strand.Gravity))
	expectNear(t, "shortest", f.Shortest, 9, 1e-9)
	expectNear(t, "longest", f.Longest, 9, 1e-9)
	expectNear(t, "mean", f.Mean, 9, 1e-9)
	slopes := map[Zone][2]float64{}
	for _, e := range f.Perimeter {
		pair := slopes[e.Zone]
		side := 0
		if e.Left {
			side = 1
		}
		pair[side] = e.Slope
		slopes[e.Zone] = pair
	}
	for zone, pair := range slopes {
		expectNear(t, "left and right slope of the "+string(zone), pair[0], pair[1], 1e-6)
	}
	if slopes[Nape][0] <= 0 || slopes[FaceFrame][0] >= 0 {
		t.Errorf("slopes %v: the nape should fall to the middle and the front rise to the face", slopes)
	}
}

// On the ball a travelling guide at elevation e leaves the end of a root at polar
// angle φ at the height −(L0 + R(π/2 − φ)(cos e − 1)): higher the higher it grows,
// so the most hair ends where the heights lie closest. All ends lie between that of
// the equator, −L0, and that of the highest root that counts.
func TestWeightOnBall(t *testing.T) {
	cut := haircut(t, ballBase(), strand.Travelling{Start: 30}, 45, strand.Gravity)
	strands := cut.Fall()
	w, ok := WeightLine(cut, strands)
	if !ok {
		t.Fatal("graduation has no weight line")
	}
	bone, _ := head.Ball().Landmark("occipital bone")
	// Among roots above height h, the area between two heights of ends is 2πR·R·sin φ dφ:
	// most where sin φ is, that is right above the bone, in the first bin or, where that
	// holds only a part of them, the next.
	arc := 9 * math.Asin(bone.P.Z/9)
	expectNear(t, "weight line", w.Z, -(30 + arc*(math.Sqrt2/2-1)), 1.5*bin)
	if w.Share <= 0 || w.Share >= 1 {
		t.Errorf("share %g", w.Share)
	}
	if _, ok := WeightLine(haircut(t, ballBase(), strand.Travelling{Start: 30}, 90, strand.Gravity), strands); ok {
		t.Error("even layers have a weight line")
	}
}

// Soft graduation at the nape builds its weight above the nape's own ends.
func TestGraduationStacks(t *testing.T) {
	f := Fall(haircut(t, adultBase(), strand.Travelling{Start: 5}, 45, strand.Gravity))
	nape, _ := f.At("nape")
	front, _ := f.At("front hairline")
	expectNear(t, "nape", nape, 5, 0.01)
	expectNear(t, "front", front, 5, 0.01)
	at, _ := f.Plan.Head.Landmark("nape")
	if lowest := at.P.Z - 5; !f.Weighted || f.Weight.Z <= lowest {
		t.Errorf("the weight lies at %g, the nape ends at %g", f.Weight.Z, lowest)
	}
}

func TestMissedAndSections(t *testing.T) {
	plan, err := adultBase().Part([]scalp.Step{{Part: scalp.EarToEar{}}})
	if err != nil {
		t.Fatal(err)
	}
	f := Fall(&strand.Haircut{Plan: plan, Before: 12, Cuts: []strand.Cut{{}, {Guide: strand.Fixed{Cm: 20}}}})
	expectNear(t, "missed", f.Missed, 1, 1e-12)
	if f.Mean != 0 || f.Longest != 0 || len(f.Perimeter) != 0 {
		t.Errorf("hair that is not cut is measured: %+v", f.Perimeter)
	}
	if _, s, ok := f.SectionOf("back"); !ok || s.Name != "back" {
		t.Error("the back is not found")
	}
	if _, _, ok := f.SectionOf("top"); ok {
		t.Error("a section is found that is not there")
	}
}

// sum is the hash of the bits of outlines and perimeters, the same on every machine;
// change it only with the model.
const sum = "fa78ea67e5476f88"

func TestSameBitsEverywhere(t *testing.T) {
	hash := sha256.New()
	for _, g := range []strand.Guide{strand.Perimeter{Z: -8, Dressing: strand.CentreParting}, strand.Travelling{Start: 6}} {
		f := Fall(haircut(t, adultBase(), g, 45, strand.CentreParting))
		fmt.Fprintf(hash, "%b %b %b\n", f.Mean, f.Weight.Z, f.Weight.Share)
		for _, e := range f.Perimeter {
			fmt.Fprintf(hash, "%b %b\n", e.Slope, e.Ends)
		}
		for _, v := range []View{left, back} {
			fmt.Fprintf(hash, "%b\n", Outline(Of(v, f.Strands, now)))
		}
	}
	if got := hex.EncodeToString(hash.Sum(nil))[:16]; got != sum {
		t.Errorf("the shapes give %s, want %s", got, sum)
	}
}

func BenchmarkFall(b *testing.B) {
	cut := haircut(b, adultBase(), strand.Travelling{Start: 6}, 45, strand.CentreParting)
	for b.Loop() {
		Fall(cut)
	}
}

func BenchmarkOutline(b *testing.B) {
	strands := haircut(b, adultBase(), strand.Perimeter{Z: -8}, 0, strand.Gravity).Fall()
	for b.Loop() {
		Outline(Of(left, strands, now))
	}
}
