package hair

import (
	"testing"

	"plait/internal/shade"
)

// Common practice, no source; some courses take three levels for two.
func TestFilling(t *testing.T) {
	expect := func(state State, from, target shade.Level, needed bool, hue shade.Hue, twoSteps bool) {
		t.Helper()
		if got := NeedsFilling(state, from, target, FillBeyond); got != needed {
			t.Errorf("%s from %d to %d needs filling: %v, want %v", state, from, target, got, needed)
		}
		if f := FillingFor(from, target, shade.Undertone); f.Hue != hue || f.TwoSteps != twoSteps {
			t.Errorf("%d to %d is filled with %s, two steps %v; want %s, %v", from, target, f.Hue, f.TwoSteps, hue, twoSteps)
		}
	}
	expect(Lightened, 9, 5, true, shade.RedOrange, false)
	expect(Lightened, 7, 5, false, shade.RedOrange, false) // just two levels
	expect(Lightened, 8, 5, true, shade.RedOrange, false)
	expect(Lightened, 10, 3, true, shade.Red, true)
	expect(Natural, 9, 5, false, shade.RedOrange, false)
	expect(Coloured, 9, 5, false, shade.RedOrange, false)
	expect(Lightened, 5, 9, false, shade.Yellow, false)

	if NeedsFilling(Lightened, 8, 5, 3) {
		t.Error("a course that fills beyond three levels fills at three")
	}
	maker := func(shade.Level) shade.Hue { return shade.Orange }
	if f := FillingFor(9, 5, maker); f.Hue != shade.Orange {
		t.Errorf("by a maker's own table the filling is %s, want orange", f.Hue)
	}
}

func TestSuits(t *testing.T) {
	if SuitsFiller(Natural) || !SuitsFiller(Lightened) || !SuitsFiller(Coloured) {
		t.Error("a filler is for hair that has lost warmth")
	}
	for level, want := range map[shade.Level]bool{5: false, 6: true, 8: true} {
		if SuitsHighLift(Natural, level) != want || SuitsHighLift(Coloured, level) {
			t.Errorf("high-lift colour on natural %d: want %v, and never on coloured hair", level, want)
		}
	}
}

// Opposite hues cancel: the colour wheel (Hair Colour for Hairstylists: Level 2,
// BCcampus 2021, ch. 1.1). Which base is taken at which level, and that blue on
// yellow turns green, is common practice, no source.
func TestCancels(t *testing.T) {
	expect := func(level shade.Level, base shade.Hue, want bool) {
		t.Helper()
		if Cancels(base, shade.Undertone(level)) != want {
			t.Errorf("%s against the warmth of level %d, %s: want %v", base, level, shade.Undertone(level), want)
		}
	}
	expect(4, shade.Green, true)
	expect(5, shade.BlueGreen, true)
	expect(6, shade.Blue, true)
	expect(7, shade.Blue, true) // a neighbour of blue-violet
	expect(7, shade.BlueViolet, true)
	expect(8, shade.Violet, true)
	expect(9, shade.BlueViolet, true)
	expect(9, shade.Blue, false)
	expect(6, shade.YellowOrange, false)
	expect(6, shade.NoHue, false)

	for base, want := range map[shade.Hue]bool{shade.Blue: true, shade.BlueGreen: true, shade.BlueViolet: false, shade.Violet: false, shade.NoHue: false} {
		if TurnsGreen(base, shade.Yellow) != want || TurnsGreen(base, shade.Orange) {
			t.Errorf("%s turns yellow green: want %v, and orange never", base, want)
		}
	}
}

func TestNames(t *testing.T) {
	for _, s := range States() {
		if got, ok := ParseState(string(s)); !ok || got != s {
			t.Errorf("ParseState(%q) = %q, %v", s, got, ok)
		}
	}
	if _, ok := ParseState("bleached"); ok {
		t.Error(`ParseState("bleached") found a state`)
	}
}
