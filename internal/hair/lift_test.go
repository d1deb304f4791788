package hair

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"plait/internal/exact"
	"plait/internal/peroxide"
	"plait/internal/shade"
)

func strength(t testing.TB, text string) peroxide.Strength {
	t.Helper()
	s, err := peroxide.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Ranges that hold both of two sets of study notes for hairdressers: 10 vol
// deposits, 20 vol 1-2 or 2, 30 vol 2-3 or 3, 40 vol 3-4 or 4 levels. Weaker and
// between: common practice, no source.
func TestLiftBy(t *testing.T) {
	for developer, want := range map[string]Lift{
		"1.5 %": {}, "1.9 %": {}, "7 vol": {},
		"10 vol": {0, 1}, "13 vol": {0, 1}, "5.8 %": {0, 1},
		"20 vol": {1, 2}, "5.85 %": {1, 2}, // one developer with 6 %, by the tolerance of a typed pair
		"25 vol": {1, 2}, "30 vol": {2, 3}, "35 vol": {2, 3}, "40 vol": {3, 4}, "50 vol": {3, 4},
	} {
		if got := LiftBy(strength(t, developer)); got != want {
			t.Errorf("%s lifts %v, want %v", developer, got, want)
		}
	}
}

// Only permanent colour lifts, and colour does not lift colour (common practice, no
// source).
func TestLiftPossible(t *testing.T) {
	expect := func(kind shade.Kind, state State, want Lift, computed bool) {
		t.Helper()
		if got, ok := LiftPossible(kind, state, strength(t, "30 vol")); got != want || ok != computed {
			t.Errorf("%s on %s hair lifts %v, %v; want %v, %v", kind, state, got, ok, want, computed)
		}
	}
	expect(shade.Permanent, Natural, Lift{2, 3}, true)
	expect(shade.HighLift, Natural, Lift{2, 3}, true)
	expect(shade.Permanent, Coloured, Lift{}, true)
	expect(shade.Permanent, Lightened, Lift{}, true)
	expect(shade.Demi, Natural, Lift{}, true)
	expect(shade.Direct, Natural, Lift{}, true)
	expect(shade.Lightener, Natural, Lift{}, false)
}

func TestShadeFor(t *testing.T) {
	expect := func(natural, target, want shade.Level) {
		t.Helper()
		if got := ShadeFor(natural, target); got != want {
			t.Errorf("from %d to %d takes a shade of %d, want %d", natural, target, got, want)
		}
	}
	// A self-training guide for formulating colour: shade = preferred + (preferred −
	// natural), with this example.
	expect(4, 7, 10)
	// Derived from it.
	expect(5, 7, 9)
	expect(6, 9, 12)
	expect(3, 8, 13)
	expect(5, 8, 11)
	// Level for level and darker: common practice, no source.
	expect(6, 6, 6)
	expect(7, 5, 5)
}

func TestResult(t *testing.T) {
	expect := func(natural, applied shade.Level, want string) {
		t.Helper()
		if got := Result(natural, applied).Mean.String(); got != want {
			t.Errorf("a %d on a %d reads %s, want %s", applied, natural, got, want)
		}
	}
	// Web notes of trade educators: the average of hair and shade, with this example.
	expect(2, 6, "4")
	// Derived from it.
	expect(5, 9, "7")
	expect(2, 5, "3.5")
	expect(3, 7, "5")
	// A darker shade deposits itself: common practice, no source.
	expect(7, 5, "5")
	expect(6, 6, "6")
	if r := Result(2, 5); !r.Tie() || r.Low != 3 || r.High != 4 {
		t.Errorf("a 5 on a 2 reads between %d and %d, want 3 and 4", r.Low, r.High)
	}
}

// The two rules are one equation: the shade found for a target averages back to it.
func TestResultIsTheInverseOfShadeFor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		natural := shade.Level(rapid.IntRange(1, 10).Draw(t, "natural"))
		target := shade.Level(rapid.IntRange(1, 10).Draw(t, "target"))
		got := Result(natural, ShadeFor(natural, target))
		if !got.Mean.Equal(exact.Int(int64(target))) || got.Tie() {
			t.Fatalf("from %d to %d by a shade of %d reads %s", natural, target, ShadeFor(natural, target), got.Mean)
		}
	})
}

// Common practice, no source.
func TestDeveloperFor(t *testing.T) {
	expect := func(natural, target shade.Level, white bool, want string) {
		t.Helper()
		got, ok := DeveloperFor(LiftWanted(natural, target), white)
		if ok != (want != "") || ok && got.VolumesString() != want {
			t.Errorf("from %d to %d, white %v: %s, %v; want %q", natural, target, white, got.VolumesString(), ok, want)
		}
	}
	expect(5, 6, false, "20 vol")
	expect(5, 7, false, "20 vol")
	expect(5, 8, false, "30 vol")
	expect(5, 9, false, "40 vol")
	expect(4, 9, false, "") // five levels are a lightener's work
	expect(6, 6, false, "10 vol")
	expect(6, 6, true, "20 vol")
	expect(6, 4, false, "10 vol")
	expect(6, 4, true, "20 vol")
	expect(5, 8, true, "30 vol")
}

// The developer picked can lift that far, and is never one too strong for the work.
func TestDeveloperForIsEnoughAndNoMore(t *testing.T) {
	for lift := range MostLift + 1 {
		developer, ok := DeveloperFor(lift, false)
		if !ok {
			t.Fatalf("no developer for a lift of %d", lift)
		}
		if by := LiftBy(developer); by.Max < lift || by.Min > lift {
			t.Errorf("a lift of %d is asked of %s, which lifts %d to %d", lift, developer, by.Min, by.Max)
		}
		if e := ExcessOf(5, 5+shade.Level(lift), developer); e.Levels > 0 {
			t.Errorf("a lift of %d by %s opens %d levels more", lift, developer, e.Levels)
		}
	}
}

// The limits are common practice, no source; a textbook of hair science agrees that
// dark brown to light blonde is out of reach of a tint (ch. 4, p. 144).
func TestJudge(t *testing.T) {
	expect := func(state State, natural, target, lightest shade.Level, want Reach) {
		t.Helper()
		if got := Judge(state, natural, target, lightest); got != want {
			t.Errorf("%s %d to %d in a range up to %d: %d, want %d", state, natural, target, lightest, got, want)
		}
	}
	expect(Natural, 4, 7, 10, Within) // needs a 10
	expect(Natural, 5, 7, 10, Within)
	expect(Natural, 6, 9, 10, OffScale) // needs a 12
	expect(Natural, 6, 9, 12, Within)
	expect(Natural, 6, 9, 11, OffScale)
	expect(Natural, 5, 8, 10, OffScale)
	expect(Natural, 3, 8, 10, TooFar)
	expect(Natural, 3, 8, 13, TooFar) // even where a range went that far
	expect(Natural, 4, 9, 13, TooFar)
	expect(Natural, 3, 7, 11, Within) // just four levels
	expect(Natural, 7, 5, 10, Within)
	expect(Coloured, 5, 7, 10, NotLifted)
	expect(Lightened, 5, 7, 10, NotLifted)
	expect(Coloured, 3, 8, 10, NotLifted)
	expect(Coloured, 7, 7, 10, Within)
	expect(Lightened, 9, 5, 10, Within)
}

// Derived from the lift of developers; the thresholds are the project's own.
func TestExcessOf(t *testing.T) {
	expect := func(natural, target shade.Level, developer string, want Excess, warmth shade.Hue, grave bool) {
		t.Helper()
		got := ExcessOf(natural, target, strength(t, developer))
		if got != want || got.Grave() != grave {
			t.Errorf("%d to %d with %s: %+v, grave %v; want %+v, %v", natural, target, developer, got, got.Grave(), want, grave)
		}
		if got.Levels > 0 && shade.Undertone(got.Opened) != warmth {
			t.Errorf("%d to %d with %s shows %s, want %s", natural, target, developer, shade.Undertone(got.Opened), warmth)
		}
	}
	expect(6, 6, "40 vol", Excess{3, 9}, shade.Yellow, true)
	expect(5, 6, "30 vol", Excess{1, 7}, shade.YellowOrange, false)
	expect(5, 7, "20 vol", Excess{}, shade.NoHue, false)
	expect(6, 5, "30 vol", Excess{2, 8}, shade.Yellow, true)
	expect(6, 6, "20 vol", Excess{1, 7}, shade.YellowOrange, false)
	expect(6, 6, "10 vol", Excess{}, shade.NoHue, false)
	expect(9, 8, "40 vol", Excess{3, 10}, shade.Yellow, true) // no warmth lies beyond the scale
}

// Common practice, no source.
func TestNeedless(t *testing.T) {
	expect := func(natural, applied shade.Level, onHair string, want bool) {
		t.Helper()
		if Needless(natural, applied, strength(t, onHair)) != want {
			t.Errorf("a %d on a %d at %s: want %v", applied, natural, onHair, want)
		}
	}
	expect(6, 6, "3 %", false)
	expect(6, 6, "3.01 %", true)
	expect(6, 5, "4.5 %", true)
	expect(6, 8, "4.5 %", false)
}

func ExampleShadeFor() {
	shadeLevel := ShadeFor(5, 7)
	developer, _ := DeveloperFor(LiftWanted(5, 7), false)
	fmt.Println("a shade of level", shadeLevel, "with", developer.VolumesString(), "reads", Result(5, shadeLevel).Mean)
	// Output:
	// a shade of level 9 with 20 vol reads 7
}

func ExampleExcessOf() {
	e := ExcessOf(6, 6, peroxide.Volumes(exact.Int(40)))
	fmt.Println(e.Levels, "levels nobody asked for show", shade.Undertone(e.Opened))
	// Output:
	// 3 levels nobody asked for show yellow
}
