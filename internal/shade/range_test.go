package shade

import (
	"slices"
	"strings"
	"testing"

	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/peroxide"
)

// saltmarsh is an invented range whose codes have three separators.
func saltmarsh() *Range {
	return &Range{
		Name:     "Saltmarsh",
		Grammar:  Grammar{Style: Digits, Separators: []string{".", "/", "-"}, Clear: []string{"CL"}, Powder: []string{"PW"}},
		Darkest:  1,
		Lightest: 12,
		Tones: map[string]Tone{
			"0": {Code: "0", Name: "natural"},
			"1": {Code: "1", Name: "blue ash", Base: Blue},
			"3": {Code: "3", Name: "gold", Base: YellowOrange},
		},
		Shades: []string{"6.0", "6/3", "6.33", "6.03", "12.1", "0.11"},
		Warmth: map[Level]Hue{5: Orange},
	}
}

func TestFind(t *testing.T) {
	r := saltmarsh()
	for text, want := range map[string]string{
		"6.0": "6.0", "6/3": "6/3", "6.3": "6/3", "6-3": "6/3", "6.33": "6.33", "6/03": "6.03", "12-1": "12.1", "0/11": "0.11", "CL": "CL", "PW": "PW",
	} {
		if code, err := r.Find(text); err != nil || code.Text != want {
			t.Errorf("Find(%q) = %q, %v; want %q", text, code.Text, err, want)
		}
	}
	for text, word := range map[string]string{
		"13.1": "is level 13, and Saltmarsh runs from 1 to 12",
		"6.1":  "Saltmarsh has no shade",
		"6":    "Saltmarsh has no shade", // no tone is not the natural tone
		"6.30": "Saltmarsh has no shade",
		"0":    "Saltmarsh has no shade",
		"6.9":  `has the tone "9", which Saltmarsh does not have`,
		"6,3":  "write 6.3",
		"6RV":  "after the level comes",
	} {
		code, err := r.Find(text)
		if err == nil || !strings.Contains(err.Error(), word) {
			t.Errorf("Find(%q) = %+v, %v; want %q", text, code, err, word)
		}
	}
}

func TestBases(t *testing.T) {
	r := saltmarsh()
	for text, want := range map[string][]Hue{
		"6.0": nil, "6.3": {YellowOrange}, "6.33": {YellowOrange}, "6.03": {YellowOrange}, "0.11": {Blue}, "CL": nil,
	} {
		code, err := r.Find(text)
		if err != nil {
			t.Error(err)
		}
		if got := r.Bases(code); !slices.Equal(got, want) {
			t.Errorf("%s has the bases %v, want %v", text, got, want)
		}
	}
}

func TestRangeUndertone(t *testing.T) {
	r := saltmarsh()
	if r.Undertone(5) != Orange || r.Undertone(6) != Undertone(6) {
		t.Errorf("got %s and %s, want the maker's orange and the usual %s", r.Undertone(5), r.Undertone(6), Undertone(6))
	}
}

func TestAllows(t *testing.T) {
	percent := func(hundredths int64) peroxide.Strength { return peroxide.Percent(exact.Of(hundredths, 100)) }
	terms := Terms{Strengths: []peroxide.Strength{percent(190), percent(600)}}
	for hundredths, want := range map[int64]bool{
		190: true,
		180: true,  // 6 vol, a tenth of a per cent away
		210: false, // 7 vol, a fifth away
		600: true, 900: false,
	} {
		if terms.Allows(percent(hundredths)) != want {
			t.Errorf("%s is allowed: want %v", percent(hundredths), want)
		}
	}
	if !(Terms{}).Allows(percent(900)) {
		t.Error("terms without strengths allow none, want any")
	}
}

func TestKinds(t *testing.T) {
	for _, k := range Kinds() {
		if got, ok := ParseKind(string(k)); !ok || got != k {
			t.Errorf("ParseKind(%q) = %q, %v", k, got, ok)
		}
		if k.Oxidative() == (k == Direct) {
			t.Errorf("%s is oxidative: %v", k, k.Oxidative())
		}
	}
	if _, ok := ParseKind("tint"); ok {
		t.Error(`ParseKind("tint") found a kind`)
	}
}

func TestPriceString(t *testing.T) {
	for want, p := range map[string]Price{
		"7.90 GBP": {790, "GBP"}, "0.05 EUR": {5, "EUR"}, "100.00 GBP": {10_000, "GBP"}, "": {},
	} {
		if p.String() != want {
			t.Errorf("got %q, want %q", p, want)
		}
	}
}

// Limits after mixing: Regulation (EC) No 1223/2009, Annex III, entries 8a (2 %)
// and 8 (3 %, several together by the sum of ratios). The contents are derived.
func TestIngredients(t *testing.T) {
	share := func(ratio string) exact.Number {
		r, err := measure.ParseRatio(ratio)
		if err != nil {
			t.Fatal(err)
		}
		return r.Colour.Quo(r.Colour.Add(r.Developer))
	}
	expect := func(got exact.Number, want string) {
		t.Helper()
		if got.Decimal(4) != want {
			t.Errorf("got %s, want %s", got.Decimal(4), want)
		}
	}
	tube := Ingredient{Name: "precursor", Content: exact.Of(36, 1000)}
	limit := exact.Of(2, 100)
	expect(tube.InBowl(share("1:1")), "0.018")
	expect(tube.InBowl(exact.Of(2, 3)), "0.024") // 1:0.5 is over the limit
	expect(MostInTube(limit, share("1:1")), "0.04")
	expect(MostInTube(limit, share("1:1.5")), "0.05")
	expect(MostInTube(limit, share("1:2")), "0.06")

	held := func(a, b int64) []Held {
		limit := exact.Of(3, 100)
		return []Held{{exact.Of(a, 1000), limit}, {exact.Of(b, 1000), limit}}
	}
	expect(Load(held(12, 15)), "0.9")
	expect(Load(held(20, 15)), "1.1667")
	expect(Load(nil), "0")
}
