package measure

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"plait/internal/exact"
)

func TestParseRatio(t *testing.T) {
	for in, want := range map[string]string{
		"1:1":     "1:1",
		"1:1.5":   "1:1.5",
		"2:3":     "1:1.5",
		" 1 : 2 ": "1:2",
		"3:7":     "1:2.3333",
		"1/2:1":   "1:2",
	} {
		r, err := ParseRatio(in)
		if err != nil {
			t.Errorf("ParseRatio(%q): %v", in, err)
			continue
		}
		if r.String() != want {
			t.Errorf("ParseRatio(%q) = %s, want %s", in, r, want)
		}
	}
	for in, words := range map[string][]string{
		// A textbook prints the demi ratio as 2:1 where others print 1:2 (Hair Colour
		// for Hairstylists: Level 2, BCcampus 2021, ch. 3.1).
		"2:1":     {"ambiguous", "if you mean 2 of developer to 1 of colour, write 1:2"},
		"1:0.5":   {"ambiguous", "write 0.5:1"},
		"":        {"not a ratio", "colour:developer"},
		":":       {"not a ratio"},
		"1:":      {"not a ratio"},
		"1.5":     {"not a ratio"},
		"0:1":     {"no colour"},
		"1:0":     {"no developer", "developer: none"},
		"1:1,5":   {"as in 1.5"},
		"-1:2":    {"negative"},
		"1:2:3":   {"not a number"},
		"one:two": {"not a number"},
	} {
		_, err := ParseRatio(in)
		expectErr(t, in, err, words...)
	}
}

func TestRatio(t *testing.T) {
	// 70 g at 1:2 on a scale of whole grams is 23 + 47 (derived).
	r := NewRatio(Grams(exact.Int(23)), Grams(exact.Int(47)))
	if r.String() != "1:2.0435" {
		t.Errorf("23 g + 47 g is %s, want 1:2.0435", r)
	}
	if (Ratio{}).String() != "none" || !(Ratio{}).IsZero() {
		t.Errorf("the zero ratio prints %s, want none", Ratio{})
	}
}

// A ratio is a proportion: it does not change with the size of the bowl.
func TestRatioScales(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		grams := rapid.Int64Range(1, 1000)
		colour := Grams(exact.Int(grams.Draw(t, "colour")))
		developer := Grams(exact.Int(grams.Draw(t, "developer")))
		factor := exact.Of(grams.Draw(t, "factor"), grams.Draw(t, "divisor"))
		small, large := NewRatio(colour, developer), NewRatio(colour.Times(factor), developer.Times(factor))
		if !small.Equal(large) || small.String() != large.String() {
			t.Fatalf("%s became %s", small, large)
		}
		if got := colour.Times(small.PerColour()); got.Cmp(developer) != 0 {
			t.Fatalf("%s of colour at %s takes %s, want %s", colour, small, got, developer)
		}
	})
}

func FuzzParseRatio(f *testing.F) {
	for _, s := range []string{"1:1.5", "2:1", "1/2:1", "1:", "0:0", "1:1,5"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		r, err := ParseRatio(s)
		if err != nil {
			expectNothing(t, s, err, r == Ratio{})
			return
		}
		if r.Colour.Sign() <= 0 || r.PerColour().Less(exact.One) {
			t.Fatalf("ParseRatio(%q) = %s with %s of colour", s, r, r.Colour)
		}
		back, err := ParseRatio(typed(r.Colour) + ":" + typed(r.Developer))
		if err != nil || !back.Equal(r) {
			t.Fatalf("ParseRatio(%q) = %s, printed and read again %s, %v", s, r, back, err)
		}
	})
}

func ExampleRatio() {
	r, _ := ParseRatio("1:1.5")
	colour := Grams(exact.Int(40))
	fmt.Println(colour, "of colour takes", colour.Times(r.PerColour()), "of developer")

	_, err := ParseRatio("2:1")
	fmt.Println(err)
	// Output:
	// 40 g of colour takes 60 g of developer
	// ratio "2:1" is ambiguous: plait reads colour:developer, and colour is never the larger; if you mean 2 of developer to 1 of colour, write 1:2
}
