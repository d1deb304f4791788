package reference

import (
	"fmt"
	"math"
	"sync"
	"testing"

	"plait/internal/geom"
	"plait/internal/head"
	"plait/internal/scalp"
	"plait/internal/silhouette"
	"plait/internal/strand"
)

// flat is a ball so large that what lies at hand is a flat scalp: over 10 cm it falls
// away by half a micrometre. It has hair and no landmarks.
var flat = sync.OnceValue(func() *head.Head { return &head.Head{Surface: head.HalfBall(flatRadius)} })

const flatRadius = 1e6

func cuts() []entry {
	gain := func(degrees float64, want string) entry {
		return near(fmt.Sprintf("length for each cm up a wall at %g°", degrees), "derived by arithmetic; below 90° builds weight, above removes it ("+haircuts+")", want, 5e-5, func() float64 {
			root := head.At(flat(), head.Direction(math.Pi/4, 0))
			lift := strand.Lift{Elevation: geom.Degrees(degrees)}
			return lift.Direction(root).Dot(strand.Down(root))
		})
	}
	toGuide := func(guide, away float64, want string) entry {
		return near(fmt.Sprintf("stationary guide of %g cm, a section %g cm away", guide, away), arithmetic, want, 5e-4, func() float64 {
			root := head.At(flat(), head.Direction(away/flatRadius, 0))
			length, err := strand.Stationary{At: flat().Centre().Add(geom.Vec3{Z: flatRadius + guide})}.Length(flat(), root, strand.Lift{})
			if err != nil {
				return math.NaN()
			}
			return length
		})
	}
	fingers := func(elevation, off float64, want string) entry {
		return near(fmt.Sprintf("10 cm at the guide, 5 cm further up a wall, %g°, fingers %g° off square", elevation, off), arithmetic, want, 5e-4, func() float64 {
			root := head.At(flat(), head.Direction(math.Pi/4, 0))
			guide := root.P.Add(strand.Down(root).Scale(5))
			g := strand.Travelling{Start: 10, Line: geom.PlaneAt(guide, geom.Vec3{Z: 1})}
			return length(flat(), g, root, strand.Lift{Elevation: geom.Degrees(elevation), Fingers: geom.Degrees(off)})
		})
	}
	onBall := func(problem string, g strand.Guide, l strand.Lift, want string) entry {
		return near("ball of 9 cm, hair 45° from the top: "+problem, arithmetic, want, 0.002, func() float64 {
			return length(head.Ball(), g, head.At(head.Ball(), head.Direction(math.Pi/4, math.Pi)), l)
		})
	}
	return []entry{
		gain(0, "1"), gain(45, "0.7071"), gain(60, "0.5"), gain(90, "0"), gain(135, "-0.7071"), gain(180, "-1"),
		toGuide(10, 6, "11.662"), toGuide(15, 8, "17"), toGuide(20, 5, "20.616"),
		fingers(90, 20, "11.820"), fingers(90, -20, "8.180"), fingers(45, -10, "12.912"),
		onBall("one length to 5 cm below the middle", strand.Perimeter{Z: -5}, strand.Lift{}, "12.0686"),
		onBall("45° from 4 cm at the hairline", strand.Travelling{Start: 4}, strand.Lift{Elevation: math.Pi / 4}, "8.9982"),
		onBall("straight up to 20 cm", strand.Facing(strand.TowardTop, 20), strand.Lift{Elevation: math.Pi, FromFloor: true}, "13.6360"),
		onBall("to a point 20 cm behind the middle", strand.Stationary{At: geom.Vec3{X: -20}}, strand.Lift{}, "15.0480"),
		computed("one length: ends on one level, the perimeter level all round", haircuts, "0.000 cm, 0.000°, no weight line", func(t *testing.T) string {
			return levelled(falling(t, strand.Perimeter{Z: -8}, 0))
		}),
		computed("even layers: all hair as long", haircuts, "11.000 to 11.000 cm, no weight line", func(t *testing.T) string {
			return lengths(falling(t, strand.Travelling{Start: 11}, 90))
		}),
		computed("graduation: longer up the head", haircuts, "longest on top, shortest at the hairline, a weight line", func(t *testing.T) string {
			return longest(falling(t, strand.Travelling{Start: 5}, 45))
		}),
		computed("long layers: shorter up the head", haircuts, "longest at the hairline, shortest on top, no weight line", func(t *testing.T) string {
			return longest(falling(t, strand.Travelling{Start: 24}, 135))
		}),
		computed("four sections cover the scalp once, left like right", college, "4 sections, 100.000 %, sides alike", func(t *testing.T) string {
			return covering(t, scalp.Step{Part: scalp.Centre{}}, scalp.Step{Part: scalp.EarToEar{}})
		}),
		computed("seven sections cover the scalp once, left like right", sections, "7 sections, 100.000 %, sides alike", func(t *testing.T) string {
			return covering(t, sevenSections(t)...)
		}),
		not("30 % of the hair out three times, 15 % twice", arithmetic, "thinning has no notation"),
	}
}

// length returns the length of a strand after a cut, no number where there is none.
func length(h *head.Head, g strand.Guide, root head.Point, l strand.Lift) float64 {
	cm, err := g.Length(h, root, l)
	if err != nil {
		return math.NaN()
	}
	return cm
}

// falling cuts a whole head one way and lets it fall.
func falling(t *testing.T, g strand.Guide, elevation float64) *silhouette.Fallen {
	t.Helper()
	plan, err := scalp.New(head.Adult(), scalp.Preview).Part(nil)
	if err != nil {
		t.Fatal(err)
	}
	cut := strand.Cut{Guide: g, Lift: strand.Lift{Elevation: geom.Degrees(elevation)}}
	return silhouette.Fall(&strand.Haircut{Plan: plan, Cuts: []strand.Cut{cut}, Dressing: strand.Gravity})
}

// levelled says how far the ends of hair lie from one level and how steep the
// perimeter is.
func levelled(f *silhouette.Fallen) string {
	low, high, slope := math.Inf(1), math.Inf(-1), 0.0
	for _, s := range f.Strands {
		z := s.Path.End().Z
		low, high = min(low, z), max(high, z)
	}
	for _, e := range f.Perimeter {
		slope = max(slope, math.Abs(geom.InDegrees(e.Slope)))
	}
	return fmt.Sprintf("%.3f cm, %.3f°, %s", high-low, slope, weighted(f))
}

func weighted(f *silhouette.Fallen) string {
	if f.Weighted {
		return "a weight line"
	}
	return "no weight line"
}

func lengths(f *silhouette.Fallen) string {
	return fmt.Sprintf("%.3f to %.3f cm, %s", f.Shortest, f.Longest, weighted(f))
}

// longest says where the longest and the shortest hair grows.
func longest(f *silhouette.Fallen) string {
	apex, _ := f.Plan.Head.Landmark("apex")
	where := func(p head.Point) string {
		switch {
		case head.Hair(f.Plan.Head, p.U) < 0.01:
			return "at the hairline"
		case p.P.Dist(apex.P) < 2:
			return "on top"
		}
		return fmt.Sprintf("at %.1f", p.P)
	}
	l := f.Lengths[0]
	return fmt.Sprintf("longest %s, shortest %s, %s", where(l.LongestAt), where(l.ShortestAt), weighted(f))
}

// sevenSections are the top, two sides, two at the crown and two at the nape.
func sevenSections(t *testing.T) []scalp.Step {
	t.Helper()
	bone, err := head.ParsePlace("occipital bone")
	if err != nil {
		t.Fatal(err)
	}
	return []scalp.Step{
		{Part: scalp.Horseshoe{}},
		{Part: scalp.EarToEar{}, Of: []string{"below"}, Gives: []string{"sides", "behind"}, Pieces: 2},
		{Part: scalp.Level{At: bone, To: "ear back"}, Of: []string{"behind"}, Gives: []string{"crown", "nape"}},
		{Part: scalp.Centre{}, Of: []string{"sides", "crown", "nape"}},
	}
}

// covering parts a head, and adds up the sections and those to each side by the sum
// of their polygons, which is not how a plan states its areas.
func covering(t *testing.T, steps ...scalp.Step) string {
	t.Helper()
	plan, err := scalp.New(head.Adult(), scalp.Preview).Part(steps)
	if err != nil {
		t.Fatal(err)
	}
	areas := make([]float64, len(plan.Sections))
	left, right := 0.0, 0.0
	for _, p := range plan.Mesh.Polygons {
		if p.Section == scalp.Skin {
			continue
		}
		areas[p.Section] += p.Area()
		if y := plan.Mesh.Points[p.Corners[0]].P.Y + plan.Mesh.Points[p.Corners[1]].P.Y + plan.Mesh.Points[p.Corners[2]].P.Y; y > 0 {
			left += p.Area()
		} else {
			right += p.Area()
		}
	}
	covered, sides := 0.0, "alike"
	for _, a := range areas {
		covered += a
	}
	if math.Abs(left-right) > 1e-6 {
		sides = fmt.Sprintf("of %.3f and %.3f cm²", left, right)
	}
	return fmt.Sprintf("%d sections, %.3f %%, sides %s", len(plan.Sections), covered/plan.Area*100, sides)
}
