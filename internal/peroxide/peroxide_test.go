package peroxide

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"plait/internal/exact"
)

func strength(t *testing.T, text string) Strength {
	t.Helper()
	s, err := Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func expectStrength(t *testing.T, got Strength, want string) {
	t.Helper()
	if got.Cmp(strength(t, want)) != 0 {
		t.Errorf("got %s (%s), want %s", got, got.Percent(), want)
	}
}

func TestParse(t *testing.T) {
	for in, want := range map[string]string{
		"6 vol":        "1.8",
		"20vol":        "6",
		"20 Volumes":   "6",
		"1 volume":     "0.3",
		"30 vols":      "9",
		"1.8 %":        "1.8",
		"1.9%":         "1.9",
		"12 per cent":  "12",
		" 6.5 vol ":    "1.95",
		"20/3 vol":     "2",
		"0 %":          "0",
		"13 %":         "13", // too strong for the law, yet a strength: rules judge it
		"50 vol":       "15",
		"1.2666667 %":  "",
		"four %":       "",
		"-6 %":         "",
		"6":            "",
		"%":            "",
		"vol":          "",
		"":             "",
		"6 volt":       "",
		"6 % vol":      "",
		"1,9 %":        "",
		"\u0130\u0130": "",
	} {
		s, err := Parse(in)
		switch {
		case want == "" && err == nil:
			t.Errorf("Parse(%q) = %s, want an error", in, s)
		case want != "" && (err != nil || s.Percent().String() != want):
			t.Errorf("Parse(%q) = %s, %v; want %s %%", in, s, err, want)
		}
	}
}

func TestParseSaysTheWayOut(t *testing.T) {
	for in, word := range map[string]string{
		"strong": "write volumes or per cent, as in 20 vol or 6 %",
		"%":      "write volumes or per cent",
		"1,9 %":  "as in 1.9",
		"-6 vol": "negative",
		// A letter whose small form is longer must not shift the cut.
		strings.Repeat("\u0130", 9) + " vol": "not a number",
	} {
		if _, err := Parse(in); err == nil || !strings.Contains(err.Error(), word) {
			t.Errorf("Parse(%q): %v, want %q", in, err, word)
		}
	}
}

func TestVolumes(t *testing.T) {
	for vol, percent := range map[string]string{
		"5 vol": "1.5 %", "7 vol": "2.1 %", "10 vol": "3 %", "13 vol": "3.9 %",
		"20 vol": "6 %", "30 vol": "9 %", "40 vol": "12 %", "100 vol": "30 %",
	} {
		expectStrength(t, strength(t, vol), percent)
		if got := strength(t, percent).VolumesString(); got != vol {
			t.Errorf("%s is %s, want %s", percent, got, vol)
		}
	}
	// 8.5 % by ×10/3 (derived).
	if got := strength(t, "8.5 %").Volumes().Decimal(3); got != "28.333" {
		t.Errorf("8.5 %% is %s vol, want 28.333", got)
	}
}

func TestAgrees(t *testing.T) {
	expect := func(vol, percent string, want bool) {
		t.Helper()
		a, b := strength(t, vol), strength(t, percent)
		if a.Agrees(b) != want || b.Agrees(a) != want {
			t.Errorf("%s is %s: %v, want %v", vol, percent, !want, want)
		}
	}
	// The law pairs them: Regulation (EU) 2019/831, replacing entry 12 of Annex III.
	expect("40 vol", "12 %", true)
	// A Handbook of Useful Drugs (American Medical Association): about 3 per cent is
	// about 10 volumes.
	expect("10 vol", "3 %", true)
	// The rest is derived from the tolerance of 0.15 %, on both sides of it.
	expect("20 vol", "9 %", false)
	expect("13 vol", "4 %", true)
	expect("6.5 vol", "1.9 %", true)
	expect("7 vol", "1.9 %", false)
	expect("10 vol", "3.15 %", true)
	expect("10 vol", "3.151 %", false)
}

func TestVolumesAndPercentAreOneStrength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := exact.Of(rapid.Int64Range(0, 100_000).Draw(t, "thousandths"), 1000)
		if s := Volumes(n); !s.Volumes().Equal(n) || Percent(s.Percent()).Cmp(s) != 0 {
			t.Fatalf("%s vol came back as %s", n, s.Volumes())
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"6 vol", "1.8 %", "12 per cent", "\u0130 vol", "1,9 %", "20/3 VOLUMES", "-1 vol", "100000.0001%"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := Parse(text)
		if err != nil {
			if !s.IsZero() || err.Error() == "" {
				t.Fatalf("Parse(%q) gave %s beside %q", text, s, err)
			}
			return
		}
		if s.Percent().Sign() < 0 || exact.Int(100).Less(s.Percent()) {
			t.Fatalf("Parse(%q) = %s", text, s)
		}
		// A fraction can take more digits to print than anybody may type.
		printed := s.Percent().String()
		if _, err := exact.Parse(printed); errors.Is(err, exact.ErrRange) {
			return
		}
		if again, err := Parse(printed + " %"); err != nil || again.Cmp(s) != 0 {
			t.Fatalf("Parse(%q) = %s, printed and read again %s, %v", text, s, again, err)
		}
	})
}

func ExampleParse() {
	s, _ := Parse("20 vol")
	fmt.Println(s, "is", s.VolumesString())
	// Output:
	// 6 % is 20 vol
}

// A bottle is called by whole volumes, else by its per cent (common practice, no source).
func TestNames(t *testing.T) {
	for _, test := range []struct{ strength, name, other string }{
		{"20 vol", "20 vol", "6 %"}, {"1.8 %", "6 vol", "1.8 %"}, {"1.9 %", "1.9 %", "6.3 vol"}, {"4 %", "4 %", "13.3 vol"},
	} {
		s, err := Parse(test.strength)
		if err != nil || s.Name() != test.name || s.Other() != test.other {
			t.Errorf("%s is called %s and %s, %v, want %s and %s", test.strength, s.Name(), s.Other(), err, test.name, test.other)
		}
	}
}
