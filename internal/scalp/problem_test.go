package scalp

import (
	"errors"
	"math"
	"strings"
	"testing"

	"plait/internal/head"
)

// expectProblem holds the kind of problem, its step, and words of its text.
func expectProblem(t *testing.T, code Code, step int, words string, steps ...Step) *Problem {
	t.Helper()
	plan, err := adultCoarse().Part(steps)
	var p *Problem
	if !errors.As(err, &p) {
		t.Errorf("%s: got no problem", code)
		return &Problem{}
	}
	if plan != nil {
		t.Errorf("%s: got a plan beside the problem", code)
	}
	if p.Code != code || p.Step != step || !strings.Contains(p.Error(), words) {
		t.Errorf("got %s at step %d: %v; want %s at step %d with %q", p.Code, p.Step, p, code, step, words)
	}
	return p
}

func TestMisses(t *testing.T) {
	p := expectProblem(t, Misses, 2, `misses "left"`,
		Step{Part: EarToEar{}},
		Step{Part: Side{Distance: 5}, Of: of("front")},
		Step{Part: Side{Right: true, Distance: 5}, Of: of("left")})
	expectNear(t, "distance", p.Value, 10, 1e-6) // from 5 cm left to 5 cm right
	p = expectProblem(t, Misses, 1, `misses "left"`, Step{Part: Centre{}}, Step{Part: Centre{}})
	expectNear(t, "distance", p.Value, 0, 1e-9)
	p = expectProblem(t, Misses, 1, `misses "left"`, Step{Part: Side{Distance: 4}}, Step{Part: Side{Distance: 1}})
	expectNear(t, "distance", p.Value, 3, 1e-6)
}

// A zigzag along a line that misses is told as the miss it is.
func TestZigzagMisses(t *testing.T) {
	teeth := Zigzag{Teeth: 8, Depth: 1}
	p := expectProblem(t, Misses, 1, `misses "left"`, Step{Part: Centre{}},
		Step{Part: Side{Right: true, Distance: 4}, Of: of("left"), Zigzag: teeth})
	if p.Value < 2.9 {
		t.Errorf("the line is said to miss by %g cm", p.Value)
	}
	expectProblem(t, Misses, 1, `misses "above"`, Step{Part: Horizontal{At: place("crown")}},
		Step{Part: Horizontal{At: place("occipital bone")}, Of: of("above"), Zigzag: teeth})
}

func TestProblemsOfNames(t *testing.T) {
	p := expectProblem(t, UnknownSection, 1, `"top", "below"`, Step{Part: Horseshoe{}}, Step{Part: Centre{}, Of: of("topp")})
	if len(p.Known) != 2 || p.Section != "topp" {
		t.Errorf("the problem names %q and knows %q", p.Section, p.Known)
	}
	expectProblem(t, UnknownSection, 1, "", Step{Part: Horseshoe{}}, Step{Part: Centre{}, Of: of(Whole)})
	expectProblem(t, NameTaken, 1, `"left"`, Step{Part: Centre{}}, Step{Part: EarToEar{}, Of: of("right"), Gives: gives("left", "back")})
	expectProblem(t, NameTaken, 0, `"a"`, Step{Part: Centre{}, Gives: gives("a", "a")})
	expectProblem(t, WrongNames, 0, "1 names", Step{Part: Centre{}, Gives: gives("left")})
	expectProblem(t, WrongNames, 0, "3 names", Step{Part: Radial{Round: place("crown"), Into: 4}, Gives: gives("a", "b", "c")})
	expectProblem(t, WrongNames, 0, "0 names", Step{Part: Line{From: place("nape"), To: place("left ear top")}})
	expectProblem(t, WrongNames, 0, "0 names", Step{Part: Centre{}, Gives: gives("", "b")})
}

func TestProblemsOfPlaces(t *testing.T) {
	unknown := head.Place{Landmark: "chin"}
	p := expectProblem(t, BadPlace, 0, "chin", Step{Part: Horizontal{At: unknown}})
	var place1 *head.PlaceError
	if !errors.As(p, &place1) || place1.Reason != head.UnknownLandmark || len(place1.Known) == 0 {
		t.Errorf("the cause is %v", p.Cause)
	}
	for _, part := range []Parting{
		EarToEar{Over: unknown}, Level{At: unknown, To: "ear top"}, Level{At: place("nape"), To: "chin"},
		Diagonal{At: unknown, Slope: 0.5}, Circle{Round: unknown, Radius: 3}, Triangle{Point: unknown},
		Line{From: unknown, To: place("nape")}, Line{From: place("nape"), To: unknown},
		Line{From: place("nape"), To: place("crown"), Through: unknown},
		Radial{Round: unknown, Into: 4}, Concentric{Round: unknown, Into: 4},
	} {
		expectProblem(t, BadPlace, 0, part.Kind(), Step{Part: part, Gives: gives("a", "b")})
	}
	ear := place("left ear top")
	for _, part := range []Parting{
		EarToEar{Over: ear}, Level{At: ear, To: "ear back"}, Diagonal{At: ear, Slope: 0.5}, Triangle{Point: ear},
	} {
		expectProblem(t, OffMidline, 0, "left ear top", Step{Part: part})
	}
	expectProblem(t, NoLine, 0, "no line", Step{Part: Line{From: ear, To: ear}, Gives: gives("a", "b")})
}

// Each range has a case on each side of each end.
func TestRanges(t *testing.T) {
	crown := place("crown")
	for _, part := range []Parting{
		Side{Distance: 0.49}, Side{Distance: 6.01}, Side{Distance: math.NaN()},
		Diagonal{At: crown, Slope: 0.08}, Diagonal{At: crown, Slope: 1.4},
		Circle{Round: crown, Radius: 0.99}, Circle{Round: crown, Radius: 15.01},
		Radial{Round: crown, Into: 1}, Radial{Round: crown, Into: 37}, Radial{Round: crown, Into: 3, Start: math.Inf(1)},
		Concentric{Round: crown, Into: 1}, Concentric{Round: crown, Into: 13},
		Slices{}, Slices{Into: 1}, Slices{Into: 61}, Slices{Every: 0.29}, Slices{Every: 10.1}, Slices{Every: math.NaN()},
		Slices{Into: 4, Along: AlongDiagonalBack},
		Slices{Into: 4, Foil: Foil{Take: 3, Of: 2}}, Slices{Into: 4, Foil: Foil{Of: 2}}, Slices{Into: 4, Foil: Foil{Take: 1}},
		Slices{Into: 4, Foil: Foil{Take: 1, Of: 2, Weave: 61}},
	} {
		expectProblem(t, OutOfRange, 0, "between", Step{Part: part})
	}
	for _, part := range []Parting{
		Side{Distance: 0.5}, Side{Distance: 6}, Diagonal{At: crown, Slope: 0.088}, Diagonal{At: crown, Slope: 1.39},
		Circle{Round: crown, Radius: 1}, Circle{Round: crown, Radius: 15},
		Radial{Round: crown, Into: 2}, Radial{Round: crown, Into: 36}, Concentric{Round: crown, Into: 12}, Slices{Into: 2},
	} {
		if _, err := adultCoarse().Part([]Step{{Part: part}}); err != nil {
			t.Errorf("%#v: %v", part, err)
		}
	}
}

func TestZigzagProblems(t *testing.T) {
	zigzag := func(teeth int, depth float64) Step {
		return Step{Part: Circle{Round: place("crown"), Radius: 3}, Zigzag: Zigzag{Teeth: teeth, Depth: depth}} // 18.5 cm round
	}
	expectProblem(t, OutOfRange, 0, "teeth 1", zigzag(1, 1))
	expectProblem(t, OutOfRange, 0, "teeth 61", zigzag(61, 1))
	expectProblem(t, OutOfRange, 0, "depth 0.1", zigzag(8, 0.1))
	expectProblem(t, OutOfRange, 0, "depth 3.1", zigzag(8, 3.1))
	expectProblem(t, OutOfRange, 0, "width of a tooth", zigzag(50, 0.5))
	expectProblem(t, OutOfRange, 0, "depth 1", zigzag(40, 1))
	expectProblem(t, NoZigzag, 0, "zigzag", Step{Part: Radial{Round: place("crown"), Into: 4}, Zigzag: Zigzag{Teeth: 5, Depth: 1}})
	expectProblem(t, NoZigzag, 0, "zigzag", Step{Part: Slices{Into: 4}, Zigzag: Zigzag{Teeth: 5, Depth: 1}})
	if _, err := adultCoarse().Part([]Step{zigzag(40, 0.85)}); err != nil {
		t.Error(err)
	}
}

func TestSliceProblems(t *testing.T) {
	expectProblem(t, NoStretch, 2, "does not touch",
		Step{Part: Centre{}}, Step{Part: Side{Distance: 2}, Of: of("left"), Gives: gives("outer", "inner")},
		Step{Part: Slices{Into: 3}, Of: of("outer")})
	expectProblem(t, SlicesCross, 0, "cross", Step{Part: Slices{Into: 10, Along: AlongEarToEar}})
	expectProblem(t, Empty, 1, "stays empty",
		Step{Part: Horizontal{At: place("occipital bone")}}, Step{Part: Radial{Round: place("crown"), Into: 8}, Of: of("below")})
}

func TestTooMany(t *testing.T) {
	wedges := Step{Part: Radial{Round: place("apex"), Into: 36}}
	expectProblem(t, TooMany, 1, "sections", wedges, Step{Part: Concentric{Round: place("apex"), Into: 12}})
	zigzag := Step{Part: Centre{}, Zigzag: Zigzag{Teeth: 60, Depth: 0.5}}
	ear := Step{Part: EarToEar{}, Zigzag: Zigzag{Teeth: 60, Depth: 0.5}}
	level := Step{Part: Horizontal{At: place("crown")}, Zigzag: Zigzag{Teeth: 60, Depth: 0.5}}
	expectProblem(t, TooMany, 3, "cuts", zigzag, ear, level, Step{Part: Horseshoe{}, Zigzag: Zigzag{Teeth: 60, Depth: 0.5}})
}

func expectWarning(t *testing.T, code Code, section string, steps ...Step) {
	t.Helper()
	p := parted(t, adultCoarse(), steps...)
	for _, w := range p.Warnings {
		if w.Code == code && w.Section == section {
			return
		}
	}
	t.Errorf("no warning %s of %q among %v", code, section, p.Warnings)
}

func TestWarnings(t *testing.T) {
	sides := []Step{{Part: Horseshoe{}}, {Part: EarToEar{}, Of: of("below"), Gives: gives("sides", "back")}}
	expectWarning(t, Split, "sides", sides...)
	sides[1].Pieces = 2
	if p := parted(t, adultCoarse(), sides...); len(p.Warnings) != 0 {
		t.Errorf("two pieces were announced and yet: %v", p.Warnings)
	}
	strip := []Step{{Part: Side{Distance: 4}}, {Part: Side{Distance: 4.4}, Of: of("left"), Gives: gives("outer", "strip")}}
	expectWarning(t, Sliver, "strip", strip...) // 4 mm wide
	strip[1].Part = Side{Distance: 4.7}
	if p := parted(t, adultCoarse(), strip...); len(p.Warnings) != 0 {
		t.Errorf("a strip of 7 mm gives %v", p.Warnings)
	}
}

func TestWholeScalp(t *testing.T) {
	p := parted(t, adultCoarse())
	if len(p.Sections) != 1 || p.Sections[0].Name != Whole || p.Sections[0].Share != 1 || p.Sections[0].Pieces != 1 || len(p.Warnings) != 0 {
		t.Errorf("got %+v, warnings %v", p.Sections, p.Warnings)
	}
	if _, ok := p.Section("nape"); ok {
		t.Error("a section was found that is not there")
	}
}

// Lines that cross each other over and over end in a problem, and soon.
func TestCrowdedLines(t *testing.T) {
	_, err := adultPreview().Part([]Step{{Part: Slices{Into: 60}}})
	var p *Problem
	if !errors.As(err, &p) || p.Code != TooMany && p.Code != SlicesCross {
		t.Errorf("60 slices over the whole head: %v", err)
	}
}
