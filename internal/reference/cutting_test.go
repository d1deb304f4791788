package reference

import (
	"fmt"
	"math"
	"sync"
	"testing"

	"plait/internal/geom"
	"plait/internal/head"
	"plait/internal/scalp"
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
	return []entry{
		gain(0, "1"), gain(45, "0.7071"), gain(60, "0.5"), gain(90, "0"), gain(135, "-0.7071"), gain(180, "-1"),
		toGuide(10, 6, "11.662"), toGuide(15, 8, "17"), toGuide(20, 5, "20.616"),
		computed("four sections cover the scalp once, left like right", college, "4 sections, 100.000 %, sides alike", func(t *testing.T) string {
			return covering(t, scalp.Step{Part: scalp.Centre{}}, scalp.Step{Part: scalp.EarToEar{}})
		}),
		computed("seven sections cover the scalp once, left like right", sections, "7 sections, 100.000 %, sides alike", func(t *testing.T) string {
			return covering(t, sevenSections(t)...)
		}),
		not("30 % of the hair out three times, 15 % twice", arithmetic, "thinning has no notation"),
	}
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
