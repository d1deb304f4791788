package scalp

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"math"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"plait/internal/geom"
	"plait/internal/head"
)

// adultCoarse is coarse enough to look through all polygons for a point.
var adultCoarse = sync.OnceValue(func() *Base { return New(head.Adult(), 4) })

// drawParting draws a parting of any kind with numbers in and around their ranges.
func drawParting(t *rapid.T) Parting {
	number := func(low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, "number") }
	share := head.Place{Share: number(0.05, 0.95)}
	switch rapid.IntRange(0, 13).Draw(t, "kind") {
	case 0:
		return Centre{}
	case 1:
		return Side{Right: rapid.Bool().Draw(t, "right"), Distance: number(0.4, 6)}
	case 2:
		return EarToEar{Over: share}
	case 3:
		return Horizontal{At: share}
	case 4:
		return Level{At: share, To: rapid.SampledFrom([]string{"ear top", "ear back", "nape corner", "recession"}).Draw(t, "pair")}
	case 5, 6:
		return Diagonal{At: share, Slope: number(0.08, 1.4), Back: rapid.Bool().Draw(t, "back")}
	case 7:
		return Horseshoe{}
	case 8:
		return Circle{Round: share, Radius: number(1, 9)}
	case 9:
		return Triangle{Point: head.Place{Share: number(0.05, 0.5)}}
	case 10:
		return Radial{Round: share, Into: rapid.IntRange(2, 9).Draw(t, "into"), Start: number(-3, 3)}
	case 11:
		return Concentric{Round: share, Into: rapid.IntRange(2, 5).Draw(t, "into")}
	case 12:
		marks := rapid.SampledFrom(adultCoarse().Head().Landmarks())
		return Line{From: share, To: head.Place{Landmark: marks.Draw(t, "to")}}
	}
	return Slices{
		Into:    rapid.IntRange(2, 9).Draw(t, "into"),
		Along:   rapid.SampledFrom([]Along{AlongMidline, AlongEarToEar, AlongDiagonalForward, AlongDiagonalBack}).Draw(t, "along"),
		Slope:   number(0.09, 1.3),
		Reverse: rapid.Bool().Draw(t, "reverse"),
	}
}

func drawStep(t *rapid.T) Step {
	s := Step{Part: drawParting(t)}
	s.Gives = drawnNames(s.Part)
	if rapid.IntRange(0, 3).Draw(t, "zigzag") == 0 {
		s.Zigzag = Zigzag{Teeth: rapid.IntRange(2, 12).Draw(t, "teeth"), Depth: rapid.Float64Range(0.2, 2.5).Draw(t, "depth")}
	}
	return s
}

// drawPlan draws partings one after the other, each of all sections or of one, and
// leaves out those that cannot be made.
func drawPlan(t *rapid.T, b *Base) (plan *Plan, steps []Step) {
	plan, _ = b.Part(nil)
	for range rapid.IntRange(1, 4).Draw(t, "steps") {
		step := drawStep(t)
		if rapid.Bool().Draw(t, "one") {
			names := make([]string, 0, len(plan.Sections))
			for _, s := range plan.Sections {
				names = append(names, s.Name)
			}
			step.Of = []string{rapid.SampledFrom(names).Draw(t, "of")}
		}
		next, err := b.Part(append(steps[:len(steps):len(steps)], step))
		if err != nil {
			var problem *Problem
			if !errors.As(err, &problem) || problem.Code == Broken {
				t.Fatalf("%+v: %v", step, err)
			}
			continue
		}
		plan, steps = next, append(steps, step)
	}
	return plan, steps
}

// A point of the head lies in one polygon, or on the border of several; on the scalp
// that polygon has a section, and shares of all sections add up to 1.
func TestExactCover(t *testing.T) {
	b := adultCoarse()
	rapid.Check(t, func(t *rapid.T) {
		plan, _ := drawPlan(t, b)
		shares := 0.0
		areas := make([]float64, len(plan.Sections))
		for _, p := range plan.Mesh.Polygons {
			if p.Section != Skin {
				areas[p.Section] += plan.Mesh.areaOf(p.Corners)
			}
		}
		for i, s := range plan.Sections {
			shares += s.Share
			if math.Abs(areas[i]-s.Area) > 1e-3 { // the error of the integral in this coarse net
				t.Fatalf("%q is said to measure %g cm², its polygons %g", s.Name, s.Area, areas[i])
			}
		}
		if math.Abs(shares-1) > 1e-12 {
			t.Fatalf("shares add up to %.15f", shares)
		}
		if got, want := solidAngle(plan.Mesh), solidAngle(b.mesh); math.Abs(got-want) > 1e-9 {
			t.Fatalf("the sections are seen under %.12f sr from the centre, the scalp under %.12f", got, want)
		}
		for range 20 {
			expectOnce(t, plan, drawPoint(t))
		}
	})
}

// solidAngle adds up the solid angles of the polygons with hair, triangle by
// triangle: tan(Ω/2) = a·(b×c) / (1 + a·b + b·c + c·a) (van Oosterom and Strackee,
// 1983). Unlike an integral it is the same however the polygons are cut.
func solidAngle(m *Mesh) float64 {
	total := 0.0
	for _, p := range m.Polygons {
		if p.Section == Skin {
			continue
		}
		for _, t := range fan(p.Corners) {
			a, b, c := m.Points[t[0]].U, m.Points[t[1]].U, m.Points[t[2]].U
			total += 2 * math.Atan2(a.Dot(b.Cross(c)), 1+a.Dot(b)+b.Dot(c)+c.Dot(a))
		}
	}
	return total
}

// drawPoint draws a direction that is even over the sphere above the limit.
func drawPoint(t *rapid.T) geom.Vec3 {
	z := rapid.Float64Range(-0.8, 1).Draw(t, "z")
	theta := rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "theta")
	return head.Direction(math.Acos(z), theta)
}

func expectOnce(t *rapid.T, plan *Plan, u geom.Vec3) {
	inside, touching := 0, 0
	for _, p := range plan.Mesh.Polygons {
		switch d := depth(plan.Mesh, p, u); {
		case d > 1e-7:
			inside++
			if hair := head.Hair(plan.Head, u); math.Abs(hair) > 0.3 && (hair > 0) != (p.Section != Skin) {
				t.Fatalf("%v is %g cm above the hairline and has section %d", u, hair, p.Section)
			}
		case d > -1e-7:
			touching++
		}
	}
	if inside > 1 || inside+touching == 0 {
		t.Fatalf("%v lies in %d polygons and on the border of %d", u, inside, touching)
	}
}

// depth returns how far a direction lies inside a polygon, below zero outside: the
// least distance from the planes through the centre and the polygon's sides.
func depth(m *Mesh, p Polygon, u geom.Vec3) float64 {
	if m.Points[p.Corners[0]].U.Dot(u) < 0.9 {
		return -1
	}
	least := math.Inf(1)
	for k, c := range p.Corners {
		next := m.Points[p.Corners[(k+1)%len(p.Corners)]].U
		if side := m.Points[c].U.Cross(next); side.Len() > 0 {
			least = min(least, side.Unit().Dot(u))
		}
	}
	if math.IsInf(least, 1) {
		return -1 // a polygon shrunk to a point, where several lines meet
	}
	return least
}

// Every side has one polygon on each hand, save at the end of the net: there are no
// gaps and no corners in the middle of a neighbour's side.
func TestNetStaysClosed(t *testing.T) {
	b := adultCoarse()
	rapid.Check(t, func(t *rapid.T) {
		plan, _ := drawPlan(t, b)
		seen := make(map[[2]int32]bool)
		for _, p := range plan.Mesh.Polygons {
			for k, c := range p.Corners {
				way := [2]int32{c, p.Corners[(k+1)%len(p.Corners)]}
				if seen[way] {
					t.Fatalf("two polygons lie on the left of one side")
				}
				seen[way] = true
			}
		}
		lowest := math.Cos(geom.Degrees(140))
		for way := range seen {
			back := [2]int32{way[1], way[0]}
			if !seen[back] && plan.Mesh.Points[way[0]].U.Z > lowest {
				t.Fatalf("a side at %v has no neighbour", plan.Mesh.Points[way[0]].P)
			}
		}
	})
}

// One parting of the whole scalp puts each point into the part that its own formula
// gives, with no net in between.
func TestPointsLieInTheirPart(t *testing.T) {
	b := adultCoarse()
	rapid.Check(t, func(t *rapid.T) {
		parting := drawParting(t)
		plan, err := b.Part([]Step{{Part: parting, Gives: drawnNames(parting)}})
		if err != nil {
			return
		}
		d, _ := parting.divide(&site{head: b.head, mesh: b.mesh, parents: func(int) bool { return true }})
		names := d.names
		if given := drawnNames(parting); given != nil {
			names = given
		}
		values := make([]float64, len(d.fields))
		for range 20 {
			u := drawPoint(t)
			at := head.At(b.head, u)
			nearest := math.Abs(head.Hair(b.head, u))
			for k, f := range d.fields {
				values[k] = f.at(&at)
				nearest = min(nearest, math.Abs(values[k]))
			}
			if nearest < 0.4 || head.Hair(b.head, u) < 0 {
				continue // within a polygon of a line
			}
			for _, p := range plan.Mesh.Polygons {
				if depth(plan.Mesh, p, u) > 0 && plan.Sections[p.Section].Name != names[d.partOf(values)] {
					t.Fatalf("%#v: %v lies in %q, want %q", parting, at.P, plan.Sections[p.Section].Name, names[d.partOf(values)])
				}
			}
		}
	})
}

// drawnNames names the parts of a line, which has no names of its own.
func drawnNames(p Parting) []string {
	if _, ok := p.(Line); ok {
		return []string{"one", "other"}
	}
	return nil
}

// A parting leaves sections that it does not part as they are; their areas move only
// by the error of the integral in this coarse net.
func TestPartingTouchesOnlyItsParents(t *testing.T) {
	b := adultCoarse()
	rapid.Check(t, func(t *rapid.T) {
		plan, steps := drawPlan(t, b)
		of := rapid.SampledFrom(plan.Sections).Draw(t, "parent").Name
		step := drawStep(t)
		step.Of = []string{of}
		next, err := b.Part(append(steps, step))
		if err != nil {
			return
		}
		for _, s := range plan.Sections {
			again, ok := next.Section(s.Name)
			if s.Name != of && (!ok || math.Abs(again.Area-s.Area) > 1e-3) {
				t.Fatalf("%q measured %.9f cm² and now %.9f", s.Name, s.Area, again.Area)
			}
		}
	})
}

// A plan and its mirror image have mirrored areas.
func TestMirrored(t *testing.T) {
	for _, distance := range []float64{0.5, 1, 2.37, 4, 6} {
		left := parted(t, adultPrint(), Step{Part: Side{Distance: distance}})
		right := parted(t, adultPrint(), Step{Part: Side{Right: true, Distance: distance}})
		expectNear(t, "mirrored", left.Sections[0].Area, right.Sections[1].Area, 1e-6)
		expectNear(t, "mirrored", left.Sections[1].Area, right.Sections[0].Area, 1e-6)
	}
}

// sumOfPlans is the hash of the bits of some plans. It must be the same on every
// machine and with every setting of the compiler; change it only with the model.
const sumOfPlans = "1f5aa07e0472f586"

func TestSameBitsEverywhere(t *testing.T) {
	hash := sha256.New()
	for _, steps := range [][]Step{
		{{Part: Centre{}}, {Part: EarToEar{}}},
		fiveSections(Zigzag{Teeth: 22, Depth: 1.2}),
		foilPanels(),
		{{Part: Circle{Round: place("crown"), Radius: 6}, Zigzag: Zigzag{Teeth: 12, Depth: 0.8}}, {Part: Radial{Round: place("crown"), Into: 7}, Of: of("inside")}},
		{{Part: Triangle{Point: place("6 cm behind front hairline")}}},
	} {
		p := parted(t, adultPreview(), steps...)
		for _, point := range p.Mesh.Points {
			fmt.Fprintf(hash, "%b %b\n", point.P, point.N)
		}
		for _, polygon := range p.Mesh.Polygons {
			fmt.Fprintln(hash, polygon.Corners, polygon.Section, polygon.Facing)
		}
		for _, s := range p.Sections {
			fmt.Fprintf(hash, "%s %b %b %d\n", s.Name, s.Area, s.Border, s.Pieces)
		}
	}
	if got := hex.EncodeToString(hash.Sum(nil))[:16]; got != sumOfPlans {
		t.Errorf("the plans give %s, want %s", got, sumOfPlans)
	}
}

// Plans of one base do not disturb each other.
func TestPlansAtOneTime(t *testing.T) {
	b := adultCoarse()
	want := parted(t, b, fiveSections(Zigzag{})...)
	var group sync.WaitGroup
	for range 4 {
		group.Go(func() {
			got, err := b.Part(fiveSections(Zigzag{}))
			if err != nil || fmt.Sprint(got.Sections) != fmt.Sprint(want.Sections) {
				t.Errorf("got %v, %v", got, err)
			}
		})
	}
	group.Wait()
}

// A sheet is a plan of its partings and the areas of its sections.
func benchmarkSheet(b *testing.B, base *Base, steps []Step) {
	b.ReportAllocs()
	for b.Loop() {
		parted(b, base, steps...)
	}
}

func BenchmarkFiveSectionsPrint(b *testing.B) {
	benchmarkSheet(b, adultPrint(), fiveSections(Zigzag{}))
}

func BenchmarkFiveSectionsPreview(b *testing.B) {
	benchmarkSheet(b, adultPreview(), fiveSections(Zigzag{}))
}

func BenchmarkZigzagPrint(b *testing.B) {
	benchmarkSheet(b, adultPrint(), fiveSections(Zigzag{Teeth: 22, Depth: 1.2}))
}

func BenchmarkZigzagPreview(b *testing.B) {
	benchmarkSheet(b, adultPreview(), fiveSections(Zigzag{Teeth: 22, Depth: 1.2}))
}

func BenchmarkFoilPanelsPrint(b *testing.B) { benchmarkSheet(b, adultPrint(), foilPanels()) }

func benchmarkBase(b *testing.B, detail Detail) {
	h := head.Adult()
	for b.Loop() {
		New(h, detail)
	}
}

func BenchmarkBasePrint(b *testing.B)   { benchmarkBase(b, Print) }
func BenchmarkBasePreview(b *testing.B) { benchmarkBase(b, Preview) }
