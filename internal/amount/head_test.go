package amount

import (
	"fmt"
	"testing"
)

// Common practice, no source. A web guide mixes 60 mL for roots alone, and the
// committee's 100 g lie at the shoulder.
func TestPerHead(t *testing.T) {
	expect := func(h Head, least, most, middle string) {
		t.Helper()
		e, ok := PerHead(h)
		if !ok || e.Least.String() != least || e.Most.String() != most || e.Middle().String() != middle {
			t.Errorf("%+v: %s to %s, %s in the middle, %v; want %s to %s, %s", h, e.Least, e.Most, e.Middle(), ok, least, most, middle)
		}
	}
	expect(Head{Length: Regrowth}, "40 g", "60 g", "50 g")
	expect(Head{Length: Short}, "60 g", "60 g", "60 g")
	expect(Head{Length: Chin, Density: Medium}, "80 g", "90 g", "85 g")
	expect(Head{Length: Shoulder}, "100 g", "120 g", "110 g")
	expect(Head{Length: BelowShoulder}, "140 g", "160 g", "150 g")
	expect(Head{Length: MidBack}, "180 g", "220 g", "200 g")
	expect(Head{Length: Shoulder, Density: Fine}, "80 g", "96 g", "88 g")
	expect(Head{Length: Shoulder, Density: Dense}, "125 g", "150 g", "137.5 g")
	expect(Head{Length: Shoulder, Porous: true}, "120 g", "144 g", "132 g")
	expect(Head{Length: Shoulder, Lightener: true}, "130 g", "156 g", "143 g")
	expect(Head{Length: Shoulder, Density: Dense, Porous: true, Lightener: true}, "195 g", "234 g", "214.5 g")

	if e, ok := PerHead(Head{Length: "long"}); ok {
		t.Errorf("a length that is none takes %s", e.Middle())
	}
}

func TestNames(t *testing.T) {
	for _, l := range Lengths() {
		if got, ok := ParseLength(string(l)); !ok || got != l {
			t.Errorf("ParseLength(%q) = %q, %v", l, got, ok)
		}
		if _, ok := PerHead(Head{Length: l}); !ok {
			t.Errorf("hair to the length %q takes nothing", l)
		}
	}
	for _, d := range Densities() {
		if got, ok := ParseDensity(string(d)); !ok || got != d {
			t.Errorf("ParseDensity(%q) = %q, %v", d, got, ok)
		}
	}
	if _, ok := ParseLength(""); ok {
		t.Error("no length was read as one")
	}
	if _, ok := ParseDensity("thick"); ok {
		t.Error(`"thick" was read as a density`)
	}
}

func ExamplePerHead() {
	e, _ := PerHead(Head{Length: Shoulder, Density: Fine})
	fmt.Println(e.Least, "to", e.Most, "of mix")
	// Output:
	// 80 g to 96 g of mix
}
