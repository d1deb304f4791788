package hair

import (
	"fmt"
	"testing"

	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/shade"
)

// Web notes of trade educators: half white, the rest level 3, a shade of level 7.
func TestOnWhite(t *testing.T) {
	white, rest := OnWhite(3, 7)
	if white != 7 || rest.Mean.String() != "5" {
		t.Errorf("white reads %d and the rest %s, want 7 and 5", white, rest.Mean)
	}
}

// Half of the colour from the natural series is a trade article's rule; the bands
// are common practice, no source.
func TestNaturalShare(t *testing.T) {
	for percent, want := range map[int64][2]string{
		0: {"0", "0"}, 24: {"0", "0"},
		25: {"1/3", "1/3"}, 30: {"1/3", "1/3"}, 49: {"1/3", "1/3"},
		50: {"0.5", "0.5"}, 74: {"0.5", "0.5"},
		75: {"2/3", "1"}, 80: {"2/3", "1"}, 100: {"2/3", "1"},
	} {
		least, most := NaturalShare(exact.Of(percent, 100))
		if least.String() != want[0] || most.String() != want[1] {
			t.Errorf("%d %% white takes %s to %s, want %s to %s", percent, least, most, want[0], want[1])
		}
	}
	// Derived: the grams of both series.
	for _, c := range []struct{ colour, white, natural, fashion int64 }{{60, 50, 30, 30}, {45, 30, 15, 30}, {60, 80, 40, 20}} {
		share, _ := NaturalShare(exact.Of(c.white, 100))
		colour := measure.Grams(exact.Int(c.colour))
		natural := colour.Times(share)
		if fashion := colour.Sub(natural); !natural.Grams().Equal(exact.Int(c.natural)) || !fashion.Grams().Equal(exact.Int(c.fashion)) {
			t.Errorf("%s for %d %% white: %s + %s, want %d + %d", colour, c.white, natural, fashion, c.natural, c.fashion)
		}
	}
}

// Common practice, no source.
func TestNaturalShareByQuarters(t *testing.T) {
	for percent, want := range map[int64]string{0: "0", 1: "0.25", 25: "0.25", 26: "0.5", 40: "0.5", 75: "0.75", 76: "1", 100: "1"} {
		if got := NaturalShareByQuarters(exact.Of(percent, 100)); got.String() != want {
			t.Errorf("%d %% white takes %s, want %s", percent, got, want)
		}
	}
}

// That shades from level 8 on cover poorly is from notes of trade educators.
func TestCoversWhite(t *testing.T) {
	for applied, want := range map[shade.Level]bool{1: true, 7: true, 8: false, 10: false} {
		if CoversWhite(applied) != want {
			t.Errorf("level %d covers: want %v", applied, want)
		}
	}
}

func ExampleNaturalShare() {
	share, _ := NaturalShare(exact.Of(30, 100))
	colour := measure.Grams(exact.Int(45))
	fmt.Println(colour.Times(share), "of", colour, "come from the natural series")
	// Output:
	// 15 g of 45 g come from the natural series
}
