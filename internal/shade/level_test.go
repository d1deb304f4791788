package shade

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"plait/internal/exact"
)

// Sources differ by up to two levels; this is the middle of three printed tables
// (study notes and two web charts). What cancels follows from the wheel.
func TestUndertone(t *testing.T) {
	for level, want := range map[Level][2]Hue{
		1: {Red, Green}, 2: {Red, Green}, 3: {Red, Green}, 4: {Red, Green}, 5: {RedOrange, BlueGreen},
		6: {Orange, Blue}, 7: {YellowOrange, BlueViolet}, 8: {Yellow, Violet}, 9: {Yellow, Violet}, 10: {Yellow, Violet},
		0: {Red, Green}, 12: {Yellow, Violet}, // beyond the scale its ends hold
	} {
		if h := Undertone(level); h != want[0] || h.Opposite() != want[1] {
			t.Errorf("level %d shows %s against %s, want %s against %s", level, h, h.Opposite(), want[0], want[1])
		}
	}
}

// The stages of lightening never change their order: black, brown, red, orange,
// yellow, pale yellow (a dermatology review of hair bleaches).
func TestUndertoneGoesFromRedToYellow(t *testing.T) {
	for l := Darkest; l < Lightest; l++ {
		if Undertone(l+1) < Undertone(l) || Undertone(l) < Red || Undertone(l+1) > Yellow {
			t.Errorf("level %d is %s and level %d %s", l, Undertone(l), l+1, Undertone(l+1))
		}
	}
}

// expectReading holds the mean level of doses at levels, given in pairs, and what
// it reads as.
func expectReading(t *testing.T, pairs [][2]int64, mean string, low, high Level) {
	t.Helper()
	var weights []exact.Number
	var levels []Level
	for _, p := range pairs {
		weights, levels = append(weights, exact.Int(p[0])), append(levels, Level(p[1]))
	}
	m, ok := Mean(weights, levels)
	if !ok {
		t.Errorf("%v has no mean", pairs)
		return
	}
	r := Read(m)
	if r.Mean.Decimal(3) != mean || r.Low != low || r.High != high || r.Tie() != (low != high) {
		t.Errorf("%v reads %s, between %d and %d; want %s, %d and %d", pairs, r.Mean.Decimal(3), r.Low, r.High, mean, low, high)
	}
}

// Derived: a weighted mean. That a tie reads the darker is common practice, no
// source.
func TestMeanAndRead(t *testing.T) {
	expectReading(t, [][2]int64{{2, 5}, {1, 7}}, "5.667", 6, 6)
	expectReading(t, [][2]int64{{1, 4}, {1, 7}}, "5.5", 5, 6)
	expectReading(t, [][2]int64{{3, 6}, {1, 8}}, "6.5", 6, 7)
	expectReading(t, [][2]int64{{1, 5}, {2, 6}, {1, 8}}, "6.25", 6, 6)
	expectReading(t, [][2]int64{{30, 7}, {20, 9}}, "7.8", 8, 8)
	expectReading(t, [][2]int64{{30, 6}, {10, 0}}, "6", 6, 6) // a clear thins, and leaves the level
	expectReading(t, [][2]int64{{1, 9}, {1, 10}}, "9.5", 9, 10)
	expectReading(t, [][2]int64{{5001, 5}, {4999, 6}}, "5.5", 5, 5) // a hair below half-way is no tie

	if m, ok := Mean([]exact.Number{exact.One}, []Level{0}); ok {
		t.Errorf("a clear alone has the mean level %s", m)
	}
	if m, ok := Mean(nil, nil); ok {
		t.Errorf("nothing has the mean level %s", m)
	}
}

// A mean lies between its levels, does not care for the size of the doses, and is
// read as a level no more than half away.
func TestMeanProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 5).Draw(t, "shades")
		weights, scaled, levels := make([]exact.Number, n), make([]exact.Number, n), make([]Level, n)
		factor := exact.Of(rapid.Int64Range(1, 500).Draw(t, "factor"), 7)
		lightest, darkest := Darkest, Lightest
		for i := range n {
			weights[i] = exact.Of(rapid.Int64Range(1, 1000).Draw(t, "weight"), 10)
			scaled[i] = weights[i].Mul(factor)
			levels[i] = Level(rapid.IntRange(1, 10).Draw(t, "level"))
			darkest, lightest = min(darkest, levels[i]), max(lightest, levels[i])
		}
		mean, _ := Mean(weights, levels)
		again, _ := Mean(scaled, levels)
		if !mean.Equal(again) {
			t.Fatalf("mean %s became %s by scaling", mean, again)
		}
		if mean.Less(exact.Int(int64(darkest))) || exact.Int(int64(lightest)).Less(mean) {
			t.Fatalf("mean %s of levels %d to %d", mean, darkest, lightest)
		}
		r := Read(mean)
		for _, l := range []Level{r.Low, r.High} {
			if exact.Half.Less(mean.Sub(exact.Int(int64(l))).Abs()) {
				t.Fatalf("mean %s reads %d", mean, l)
			}
		}
	})
}

func ExampleRead() {
	mean, _ := Mean([]exact.Number{exact.Int(1), exact.Int(1)}, []Level{4, 7})
	r := Read(mean)
	fmt.Println(r.Mean, "lies between", r.Low, "and", r.High)
	// Output:
	// 5.5 lies between 5 and 6
}
