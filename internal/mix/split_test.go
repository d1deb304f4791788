package mix

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"plait/internal/exact"
	"plait/internal/measure"
)

// expectScales holds what to weigh on a scale of tenths and on one of whole grams,
// and the ratio that whole grams really give.
func expectScales(t *testing.T, text, onTenths, onWholes, ratio string) {
	t.Helper()
	fine, coarse := compute(t, text, tenth), compute(t, text, whole)
	if got := weighed(fine); got != onTenths {
		t.Errorf("%s on tenths: got %s, want %s", text, got, onTenths)
	}
	if got := weighed(coarse); got != onWholes {
		t.Errorf("%s on whole grams: got %s, want %s", text, got, onWholes)
	}
	if got := coarse.Weighed.String(); got != ratio {
		t.Errorf("%s on whole grams: ratio %s, want %s", text, got, ratio)
	}
}

// Derived by largest remainder.
func TestWeighed(t *testing.T) {
	expectScales(t, "1 6N | 1:2 | 6 % | 70 mixed", "23.3 + 46.7", "23 + 47", "1:2.0435")
	expectScales(t, "1 6N | 1:1.5 | 6 % | 45 mixed", "18 + 27", "18 + 27", "1:1.5")
	expectScales(t, "1 6N | 1:1.5 | 6 % | 37 mixed", "14.8 + 22.2", "15 + 22", "1:1.4667")
	expectScales(t, "2 6N + 1 6G | 1:1.5 | 6 % | 50 mixed", "13.3 + 6.7 + 30", "13 + 7 + 30", "1:1.5")
	expectScales(t, "1 6N + 1 6G + 1 6B | none | | 100 colour", "33.4 + 33.3 + 33.3", "34 + 33 + 33", "none")
	expectScales(t, "3 6N + 2 6G | 1:1.5 | 6 % | 80 mixed", "19.2 + 12.8 + 48", "19 + 13 + 48", "1:1.5")
}

func TestDrift(t *testing.T) {
	for text, want := range map[string]string{
		"1 6N | 1:2 | 6 % | 70 mixed":   "2.2",
		"1 6N | 1:1.5 | 6 % | 37 mixed": "-2.2",
		"1 6N | 1:1.5 | 6 % | 45 mixed": "0",
		"1 6N | none | | 45 colour":     "0",
	} {
		if got := compute(t, text, whole).Drift().Mul(exact.Int(100)).Decimal(1); got != want {
			t.Errorf("%s drifts by %s %%, want %s", text, got, want)
		}
	}
}

func TestSplitTies(t *testing.T) {
	expect := func(in, want string) {
		t.Helper()
		var masses []measure.Mass
		for _, n := range strings.Fields(in) {
			masses = append(masses, grams(t, n))
		}
		var out []string
		for _, m := range Split(masses, whole) {
			out = append(out, m.Grams().String())
		}
		if got := strings.Join(out, " "); got != want {
			t.Errorf("%s: got %s, want %s", in, got, want)
		}
	}
	expect("", "")
	expect("0.4", "0")
	expect("0.5", "1") // a total is rounded as a person does it, halves up
	expect("0.5 0.5", "1 0")
	expect("0.5 0.5 0.5", "1 1 0")
	expect("1/3 1/3 1/3", "1 0 0") // the first listed of equals
	expect("0.4 0.6 1", "0 1 1")
	expect("7 8 9", "7 8 9")
}

// Splitting keeps the total, as it is rounded once, and moves no part by a full step.
func TestSplitProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		step := exact.Of(rapid.Int64Range(1, 20).Draw(t, "step"), 10)
		masses := rapid.SliceOf(rapid.Custom(func(t *rapid.T) measure.Mass {
			return measure.Grams(exact.Of(rapid.Int64Range(0, 5000).Draw(t, "mass"), rapid.Int64Range(1, 60).Draw(t, "parts")))
		})).Draw(t, "masses")
		split := Split(masses, measure.Grams(step))
		want := measure.Total(masses...).Grams().Round(step)
		if got := measure.Total(split...).Grams(); !got.Equal(want) {
			t.Fatalf("parts add up to %s, want %s", got, want)
		}
		for i, s := range split {
			if moved := s.Sub(masses[i]).Grams().Abs(); !moved.Less(step) {
				t.Fatalf("%s moved to %s on steps of %s", masses[i], s, step)
			}
			if !s.Grams().Quo(step).IsInt() || s.Grams().Sign() < 0 {
				t.Fatalf("%s cannot be read off a scale of %s", s, step)
			}
		}
	})
}
