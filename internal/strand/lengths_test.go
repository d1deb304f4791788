package strand

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
)

var (
	adultBase = sync.OnceValue(func() *scalp.Base { return scalp.New(adult(), scalp.Preview) })
	ballBase  = sync.OnceValue(func() *scalp.Base { return scalp.New(ball(), scalp.Preview) })
)

func parted(t testing.TB, b *scalp.Base, steps ...scalp.Step) *scalp.Plan {
	t.Helper()
	p, err := b.Part(steps)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// whole cuts all sections of a plan alike.
func whole(plan *scalp.Plan, g Guide, l Lift) *Haircut {
	c := &Haircut{Plan: plan}
	for range plan.Sections {
		c.Cuts = append(c.Cuts, Cut{g, l})
	}
	return c
}

// On the half ball the mean height is half the radius, so hair cut straight up to a
// height H measures H − R/2 in the mean; a travelling guide at 45° adds the mean arc
// to the equator, R·∫(π/2 − φ) sin φ dφ = R·(π/2 − 1).
func TestMeanOnBall(t *testing.T) {
	plan := parted(t, ballBase())
	up := whole(plan, Wall{geom.Plane{N: geom.Vec3{Z: 1}, D: 20}}, Lift{Elevation: math.Pi, FromFloor: true}).Measure(0)
	expectNear(t, "mean, straight up", up.Mean, 20-4.5, 0.01)
	expectNear(t, "shortest", up.Shortest, 11, 1e-9)
	expectNear(t, "shortest on the apex", up.ShortestAt.P.Z, 9, 1e-9)
	expectNear(t, "longest", up.Longest, 20, 1e-9)
	expectNear(t, "missed", up.Missed, 0, 1e-12)
	graduated := whole(plan, Travelling{Start: 4}, elevated(45)).Measure(0)
	expectNear(t, "mean, 45°", graduated.Mean, 4+9*(math.Pi/2-1)*math.Sqrt2/2, 0.01)
	expectNear(t, "longest, 45°", graduated.Longest, 4+9*math.Pi/2*math.Sqrt2/2, 0.002)
}

// Cases from any textbook of cutting: even layers are even, a guide behind leaves
// the front longest, straight up leaves the hairline longest.
func TestTextbookCases(t *testing.T) {
	plan := parted(t, adultBase())
	even := whole(plan, Travelling{Start: 11}, elevated(90)).Measure(0)
	expectNear(t, "even layers, shortest", even.Shortest, 11, 1e-9)
	expectNear(t, "even layers, longest", even.Longest, 11, 1e-9)

	behind := whole(plan, Stationary{geom.Vec3{X: -20.333, Z: 11.189}}, Lift{}).Measure(0)
	if behind.LongestAt.P.X < 5 || behind.ShortestAt.P.X > -7 {
		t.Errorf("guide behind: longest at %v, shortest at %v", behind.LongestAt.P, behind.ShortestAt.P)
	}
	up := whole(plan, Wall{geom.Plane{N: geom.Vec3{Z: 1}, D: 18}}, Lift{Elevation: math.Pi, FromFloor: true}).Measure(0)
	if up.LongestAt.P.Z > -5.5 {
		t.Errorf("straight up: longest at %v, want the nape", up.LongestAt.P)
	}
	nape, _ := adult().Landmark("nape")
	expectNear(t, "straight up, longest", up.Longest, 18-nape.P.Z, 0.05)
	left := parted(t, adultBase(), scalp.Step{Part: scalp.Centre{}})
	line := whole(left, Perimeter{Z: -8}, Lift{})
	a, b := line.Measure(0), line.Measure(1)
	expectNear(t, "left and right", a.Mean, b.Mean, 1e-6)
}

// A guide at the height of the ears cuts nothing that grows lower.
func TestMissed(t *testing.T) {
	crown := head.Place{Landmark: "occipital bone"}
	plan := parted(t, adultBase(), scalp.Step{Part: scalp.Horizontal{At: crown}})
	occipital, _ := adult().Landmark("occipital bone")
	below := whole(plan, Perimeter{Z: occipital.P.Z + 0.01}, Lift{}).Measure(1)
	if below.Missed != 1 || below.Mean != 0 || below.Longest != 0 {
		t.Errorf("got %+v of strands below the guide", below.Missed)
	}
	above := whole(plan, Perimeter{Z: occipital.P.Z - 0.01}, Lift{}).Measure(0)
	expectNear(t, "missed above", above.Missed, 0, 1e-9)
}

// sum is the hash of the bits of some cuts and falls. It must be the same on every
// machine, with any number of processors and with every setting of the compiler;
// change it only with the model.
const sum = "886aa2a6e12ff5c6"

func TestSameBitsEverywhere(t *testing.T) {
	plan := parted(t, adultBase(), scalp.Step{Part: scalp.EarToEar{}})
	hash := sha256.New()
	for _, g := range []Guide{Perimeter{Z: -8}, Travelling{Start: 5}, Stationary{geom.Vec3{X: -20}}} {
		for section := range plan.Sections {
			l := Lift{Elevation: geom.Degrees(45), Toward: TowardBack, By: geom.Degrees(20), Fingers: geom.Degrees(10)}
			cut := whole(plan, g, l).Measure(section)
			fmt.Fprintf(hash, "%b %b %b\n", cut.Cm, cut.Mean, cut.Missed)
			for i := 0; i < len(cut.Points); i += 50 {
				fmt.Fprintf(hash, "%b\n", Fall(plan.Head, plan.Mesh.Points[cut.Points[i]], CentreParting, 25))
			}
		}
	}
	if got := hex.EncodeToString(hash.Sum(nil))[:16]; got != sum {
		t.Errorf("the cuts give %s, want %s", got, sum)
	}
}

func BenchmarkHaircut(b *testing.B) {
	cut := whole(parted(b, adultBase()), Perimeter{Z: -8, Dressing: CentreParting}, Lift{})
	cut.Dressing, cut.Before = CentreParting, 30
	for b.Loop() {
		cut.Fall()
	}
}

func benchmarkMeasure(b *testing.B, g Guide, l Lift) {
	plan := parted(b, adultBase())
	for b.Loop() {
		whole(plan, g, l).Measure(0)
	}
}

func BenchmarkMeasurePerimeter(b *testing.B) { benchmarkMeasure(b, Perimeter{Z: -8}, Lift{}) }
func BenchmarkMeasureTravelling(b *testing.B) {
	benchmarkMeasure(b, Travelling{Start: 5}, elevated(45))
}
func BenchmarkMeasureStationary(b *testing.B) {
	benchmarkMeasure(b, Stationary{geom.Vec3{X: -20}}, Lift{})
}
