package scalp

import (
	"math"
	"strings"
	"sync"
	"testing"

	"plait/internal/geom"
	"plait/internal/head"
)

// Bases are made once for all tests.
var (
	adultPrint   = sync.OnceValue(func() *Base { return New(head.Adult(), Print) })
	adultPreview = sync.OnceValue(func() *Base { return New(head.Adult(), Preview) })
	ballPrint    = sync.OnceValue(func() *Base { return New(head.Ball(), Print) })
)

func expectNear(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.9g, want %.9g ± %g", what, got, want, tolerance)
	}
}

func place(text string) head.Place {
	p, err := head.ParsePlace(text)
	if err != nil {
		panic(err)
	}
	return p
}

func parted(t testing.TB, b *Base, steps ...Step) *Plan {
	t.Helper()
	p, err := b.Part(steps)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// expectAreas holds the areas of all sections, by name and in order.
func expectAreas(t *testing.T, p *Plan, tolerance float64, want ...any) {
	t.Helper()
	if len(p.Sections) != len(want)/2 {
		t.Errorf("got %d sections, want %d", len(p.Sections), len(want)/2)
		return
	}
	for i, s := range p.Sections {
		if s.Name != want[2*i] {
			t.Errorf("section %d is called %q, want %q", i, s.Name, want[2*i])
		}
		expectNear(t, s.Name, s.Area, want[2*i+1].(float64), tolerance)
	}
}

func of(names ...string) []string    { return names }
func gives(names ...string) []string { return names }

// On the half ball of 9 cm all areas are known: caps and zones by Archimedes, and
// the cap within a chord q of a point is π·q² whatever the radius.
func TestBall(t *testing.T) {
	b := ballPrint()
	half := math.Pi * 81
	expectNear(t, "scalp", b.Area(), 2*half, 1e-9)
	expectAreas(t, parted(t, b, Step{Part: Centre{}}), 1e-6, "left", half, "right", half)
	expectAreas(t, parted(t, b, Step{Part: Centre{}}, Step{Part: EarToEar{}}), 1e-6,
		"left front", half/2, "left back", half/2, "right front", half/2, "right back", half/2)

	within := func(area float64) float64 { return area * 5e-4 }
	side := math.Pi * 9 * (9 - 4)
	expectAreas(t, parted(t, b, Step{Part: Side{Distance: 4}}), within(side), "left", side, "right", 2*half-side)
	height := 9 * math.Cos(geom.Degrees(54))
	level := parted(t, b, Step{Part: Horizontal{At: place("20 % front hairline to nape")}}) // 36° up
	expectAreas(t, level, within(200), "above", 18*math.Pi*(9-height), "below", 18*math.Pi*height)
	circle := Step{Part: Circle{Round: place("crown"), Radius: 6}}
	expectAreas(t, parted(t, b, circle), within(113), "inside", 36*math.Pi, "outside", 2*half-36*math.Pi)

	wedges := parted(t, b, circle, Step{Part: Radial{Round: place("crown"), Into: 8}, Of: of("inside")})
	for _, s := range wedges.Sections[:8] {
		expectNear(t, "wedge "+s.Name, s.Area, 36*math.Pi/8, within(14))
	}
	rings := parted(t, b, Step{Part: Concentric{Round: place("apex"), Into: 3}})
	farthest := 9 * math.Sqrt2
	for i, s := range rings.Sections {
		inner, outer := farthest*float64(i)/3, farthest*float64(i+1)/3
		expectNear(t, "ring "+s.Name, s.Area, math.Pi*(outer*outer-inner*inner), within(200))
	}
	slices := parted(t, b, Step{Part: Slices{Into: 12}})
	for _, s := range slices.Sections {
		expectNear(t, "slice "+s.Name, s.Area, half/6, 1e-6)
		expectNear(t, "width of slice "+s.Name, s.Width, 9*math.Pi/12, 1e-5)
	}
}

// By Gauss and Bonnet a zigzag of depth d along a circle moves the area
// (d/2)²/6 · (2π − A/R²), A the area inside; along a great circle nothing.
func TestZigzagOnBall(t *testing.T) {
	b := ballPrint()
	centre := parted(t, b, Step{Part: Centre{}, Zigzag: Zigzag{Teeth: 14, Depth: 1.2}})
	expectAreas(t, centre, 1e-3, "left", math.Pi*81, "right", math.Pi*81)
	share := math.Asin(5./9) / math.Pi * 100
	at := head.Place{Share: share / 100}
	ring := parted(t, b, Step{Part: Horizontal{At: at}, Zigzag: Zigzag{Teeth: 24, Depth: 1.2}})
	inside := 18 * math.Pi * 4
	moved := 0.36 / 6 * (2*math.Pi - inside/81)
	expectAreas(t, ring, 0.06, "above", inside+moved, "below", 162*math.Pi-inside-moved)
}

// The second figures were found without a net: each point of a grid of 4000 by 2000
// angles was classified by itself.
func TestAdult(t *testing.T) {
	b := adultPrint()
	const near = 0.05
	expectNear(t, "scalp", b.Area(), 602.634, near)
	expectAreas(t, parted(t, b, Step{Part: Centre{}}, Step{Part: EarToEar{}}), near,
		"left front", 107.815, "left back", 193.502, "right front", 107.815, "right back", 193.502)
	expectAreas(t, parted(t, b, Step{Part: Side{Distance: 4}}), near, "left", 162.393, "right", 440.241)
	expectAreas(t, parted(t, b, fiveSections(Zigzag{})...), near,
		"top", 235.631, "left", 44.439, "right", 44.439, "back", 189.915, "nape", 88.209)
	expectAreas(t, parted(t, b,
		Step{Part: Circle{Round: place("crown"), Radius: 6}}, Step{Part: EarToEar{}, Of: of("outside")}), near,
		"inside", 114.057, "front", 215.630, "back", 272.947)
	expectAreas(t, parted(t, b,
		Step{Part: EarToEar{}},
		Step{Part: Diagonal{At: place("occipital bone"), Slope: geom.Degrees(30)}, Of: of("back"), Gives: gives("above", "nape")}), near,
		"front", 215.630, "above", 335.049, "nape", 51.955)
	expectAreas(t, parted(t, b, Step{Part: Triangle{Point: place("6 cm behind front hairline")}}), near,
		"fringe", 28.705, "rest", 573.929)
}

func fiveSections(z Zigzag) []Step {
	return []Step{
		{Part: Horseshoe{}, Zigzag: z},
		{Part: EarToEar{}, Of: of("below"), Gives: gives("sides", "back"), Pieces: 2},
		{Part: Centre{}, Of: of("sides")},
		{Part: Level{At: place("occipital bone"), To: "ear back"}, Of: of("back"), Gives: gives("back", "nape")},
	}
}

func foilPanels() []Step {
	return []Step{
		{Part: Side{Distance: 4}, Gives: gives("left panel", "rest")},
		{Part: Side{Right: true, Distance: 4}, Of: of("rest"), Gives: gives("middle", "right panel")},
		{Part: EarToEar{}, Of: of("middle"), Gives: gives("top", "back")},
		{Part: Slices{Into: 12, Foil: Foil{Take: 1, Of: 2, Weave: 9}}, Of: of("back")},
	}
}

func TestFoilPanels(t *testing.T) {
	p := parted(t, adultPrint(), foilPanels()...)
	total, lifted := 0.0, 0.0
	for i, s := range p.Sections[2:14] {
		total += s.Area
		lifted += s.Lifted()
		expectNear(t, "slice "+s.Name, s.Area, 16.5, 0.61)
		expectNear(t, "width "+s.Name, s.Width, 2.02, 0.005)
		if want := i%2 == 0; s.Foil != want || (s.Weave == 9) != want {
			t.Errorf("slice %s: foil %v, weave %d", s.Name, s.Foil, s.Weave)
		}
	}
	expectNear(t, "slices", total, 196.564, 0.05)
	expectNear(t, "woven out", lifted, total/4, 0.5) // half of every second slice
	expectNear(t, "panels", p.Sections[0].Area, p.Sections[14].Area, 1e-6)
}

func TestZigzagHorseshoe(t *testing.T) {
	p := parted(t, adultPrint(), fiveSections(Zigzag{Teeth: 22, Depth: 1.2})...)
	top, _ := p.Section("top")
	left, _ := p.Section("left")
	right, _ := p.Section("right")
	expectNear(t, "top", top.Area, 235.6, 0.3)
	expectNear(t, "left and right", left.Area, right.Area, 1e-6)
	straight, _ := parted(t, adultPrint(), fiveSections(Zigzag{})...).Section("top")
	if top.Border < straight.Border+10 {
		t.Errorf("22 teeth make the border %.1f cm long, from %.1f", top.Border, straight.Border)
	}
	if tips := teeth(p, 0.55); tips != 22 {
		t.Errorf("%d tips reach into the top, want 22", tips)
	}
}

// A zigzag on lines that run alike on both sides moves no area to speak of, keeps left
// and right alike, and makes the border longer by its flanks.
func TestZigzagOnBothSides(t *testing.T) {
	const depth = 1.0
	for _, c := range []struct {
		name  string
		part  Parting
		first string
		teeth int
	}{
		{"diagonal forward", Diagonal{At: place("occipital bone"), Slope: geom.Degrees(30)}, "below", 4},
		{"diagonal back", Diagonal{At: place("crown"), Slope: geom.Degrees(20), Back: true}, "below", 6},
		{"triangle", Triangle{Point: place("6 cm behind front hairline")}, "fringe", 5},
	} {
		straight, _ := parted(t, adultPrint(), Step{Part: c.part}).Section(c.first)
		plan := parted(t, adultPrint(), Step{Part: c.part, Zigzag: Zigzag{Teeth: c.teeth, Depth: depth}}, Step{Part: Centre{}})
		left, _ := plan.Section(c.first + " left")
		right, _ := plan.Section(c.first + " right")
		// One side is cut before the other, so their nets differ a little.
		expectNear(t, c.name+", left and right", left.Area, right.Area, 1e-4)
		expectNear(t, c.name+", area", left.Area+right.Area, straight.Area, 1.5)
		whole, _ := parted(t, adultPrint(), Step{Part: c.part, Zigzag: Zigzag{Teeth: c.teeth, Depth: depth}}).Section(c.first)
		// Each flank rises by the depth, so its length is no less than that, and teeth
		// that narrow make a border longer by nearly two depths a tooth.
		more := whole.Border - straight.Border
		if most := float64(2*c.teeth) * 2 * depth; more < 0.3*most || more > most {
			t.Errorf("%s: %d teeth on each side make the border %.1f cm longer, want less than %.1f", c.name, c.teeth, more, most)
		}
		if plan.Warnings != nil {
			t.Errorf("%s: %v", c.name, plan.Warnings[0])
		}
	}
}

// teeth counts the stretches of the top's border that lie so far above the plane of
// the horseshoe that only tips reach there.
func teeth(p *Plan, height float64) int {
	plane := p.Head.HorseshoePlane()
	trace, _ := head.Section(p.Head, plane, geom.Vec3{X: 1})
	var arcs []float64
	neighbours := p.Mesh.Neighbours()
	for i, polygon := range p.Mesh.Polygons {
		for k, c := range polygon.Corners {
			other := neighbours[i][k]
			if polygon.Section != 0 || other == None || p.Mesh.Polygons[other].Section < 1 {
				continue
			}
			if at := p.Mesh.Points[c]; plane.At(at.P) > height*0.9 {
				arcs = append(arcs, trace.ArcAt(at.P))
			}
		}
	}
	return clusters(arcs, 0.5)
}

// clusters counts groups of numbers that lie further apart than a gap.
func clusters(numbers []float64, gap float64) int {
	count := 0
	for i, a := range numbers {
		first := true
		for k, b := range numbers {
			if b > a && b-a < gap || b == a && k < i {
				first = false
			}
		}
		if first {
			count++
		}
	}
	return count
}

// A usual diagram of seven sections: top, two sides, two crowns, two napes (a web
// page on haircut diagrams; common practice).
func TestSevenSections(t *testing.T) {
	p := parted(t, adultPreview(),
		Step{Part: EarToEar{}},
		Step{Part: Side{Distance: 4}, Of: of("front"), Gives: gives("left side", "rest")},
		Step{Part: Side{Right: true, Distance: 4}, Of: of("rest"), Gives: gives("top", "right side")},
		Step{Part: Level{At: place("occipital bone"), To: "ear back"}, Of: of("back"), Gives: gives("crown", "nape")},
		Step{Part: Centre{}, Of: of("crown", "nape")})
	if len(p.Sections) != 7 || len(p.Warnings) != 0 {
		t.Errorf("got %d sections and warnings %v", len(p.Sections), p.Warnings)
	}
	for _, s := range p.Sections {
		mirrored := strings.NewReplacer("left", "right", "right", "left").Replace(s.Name)
		other, ok := p.Section(mirrored)
		if !ok || s.Pieces != 1 {
			t.Errorf("%q: mirror image found %v, pieces %d", s.Name, ok, s.Pieces)
		}
		expectNear(t, s.Name+" and its mirror image", s.Area, other.Area, 1e-6)
	}
}

func TestSlicesAlong(t *testing.T) {
	b := adultPreview()
	sides := parted(t, b, Step{Part: Horseshoe{}}, Step{Part: Slices{Into: 6, Along: AlongEarToEar}, Of: of("top")})
	for i := range 3 {
		expectNear(t, "mirrored slices", sides.Sections[i].Area, sides.Sections[5-i].Area, 1e-5)
	}
	panel := foilPanels()[:2]
	nape := parted(t, b, append(panel, Step{Part: Slices{Every: 3, Reverse: true}, Of: of("middle")})...)
	front := parted(t, b, append(panel, Step{Part: Slices{Every: 3}, Of: of("middle")})...)
	const n = 12 // 34.6 cm ÷ 3 cm
	if len(nape.Sections) != n+2 {
		t.Fatalf("got %d sections, want %d", len(nape.Sections), n+2)
	}
	for i := 1; i <= n; i++ {
		expectNear(t, "counted from the nape", nape.Sections[i].Area, front.Sections[n+1-i].Area, 1e-9)
	}
	rich := parted(t, b,
		Step{Part: Circle{Round: place("crown"), Radius: 6}, Gives: gives("crown", "rest")},
		Step{Part: Radial{Round: place("crown"), Into: 8}, Of: of("crown")},
		Step{Part: EarToEar{}, Of: of("rest")},
		Step{Part: Centre{}, Of: of("front", "back")},
		Step{Part: Slices{Along: AlongDiagonalForward, Slope: geom.Degrees(30), Every: 2.6, Reverse: true}, Of: of("back left", "back right")})
	left, ok := rich.Section("back left 3")
	right, _ := rich.Section("back right 3")
	if !ok {
		t.Fatal("slices of two sections take the names of both")
	}
	expectNear(t, "diagonal slices", left.Area, right.Area, 1e-6)
	if _, err := b.Part([]Step{{Part: Slices{Into: 4, Along: AlongDiagonalBack, Slope: geom.Degrees(20)}}}); err != nil {
		t.Error(err)
	}
}

func TestLine(t *testing.T) {
	b := adultPreview()
	over := parted(t, b, Step{Part: Line{From: place("left ear top"), To: place("right ear top"), Through: place("apex")}, Gives: gives("a", "b")})
	plain := parted(t, b, Step{Part: EarToEar{}})
	// Walking from the left ear over the top to the right one, the back is on the left
	// hand.
	expectAreas(t, over, 1e-6, "a", plain.Sections[1].Area, "b", plain.Sections[0].Area)
	back := parted(t, b, Step{Part: EarToEar{Over: place("crown")}})
	if grown := back.Sections[0].Area - plain.Sections[0].Area; grown < 50 {
		t.Errorf("a parting over the crown leaves %.1f cm² more in front than one over the apex", grown)
	}
	down := parted(t, b, Step{Part: Line{From: place("front hairline"), To: place("crown")}, Gives: gives("a", "b")})
	expectAreas(t, down, 1e-6, "a", b.Area()/2, "b", b.Area()/2)
}

func TestScale(t *testing.T) {
	large, err := head.Sized(57)
	if err != nil {
		t.Fatal(err)
	}
	steps := []Step{{Part: Horseshoe{}}, {Part: EarToEar{}, Of: of("below")}, {Part: Radial{Round: place("crown"), Into: 5}, Of: of("top")}}
	small := parted(t, adultPreview(), steps...)
	grown := parted(t, New(large, Preview), steps...)
	k := large.Size() * large.Size()
	for i, s := range small.Sections {
		expectNear(t, s.Name, grown.Sections[i].Area, k*s.Area, 1e-6)
		expectNear(t, s.Name, grown.Sections[i].Share, s.Share, 1e-9)
	}
}
