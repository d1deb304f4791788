package shade

import (
	"fmt"
	"testing"
)

// Opposites mix to brown or grey: the colour wheel (Hair Colour for Hairstylists:
// Level 2, BCcampus 2021, ch. 1.1).
func TestOpposite(t *testing.T) {
	for a, b := range map[Hue]Hue{
		Red: Green, RedOrange: BlueGreen, Orange: Blue, YellowOrange: BlueViolet, Yellow: Violet, YellowGreen: RedViolet,
	} {
		if a.Opposite() != b || b.Opposite() != a {
			t.Errorf("%s and %s are opposites; got %s and %s", a, b, a.Opposite(), b.Opposite())
		}
	}
	if NoHue.Opposite() != NoHue {
		t.Errorf("no hue has the opposite %s", NoHue.Opposite())
	}
}

func TestHueNames(t *testing.T) {
	if len(Hues()) != 12 {
		t.Fatalf("the wheel has %d hues, want 12", len(Hues()))
	}
	for i, name := range Hues() {
		if h, ok := ParseHue(name); !ok || h != Hue(i+1) || h.String() != name {
			t.Errorf("ParseHue(%q) = %v, %v", name, h, ok)
		}
	}
	for _, name := range []string{"", "pink", "Red", "red orange"} {
		if h, ok := ParseHue(name); ok || h != NoHue {
			t.Errorf("ParseHue(%q) = %v, %v; want none", name, h, ok)
		}
	}
}

func TestNear(t *testing.T) {
	expect := func(a, b Hue, want bool) {
		t.Helper()
		if a.Near(b) != want || b.Near(a) != want {
			t.Errorf("%s near %s: want %v", a, b, want)
		}
	}
	expect(Red, Red, true)
	expect(Red, RedOrange, true)
	expect(Red, RedViolet, true) // the wheel closes
	expect(Red, Orange, false)
	expect(Red, Green, false)
	expect(Red, NoHue, false)
	expect(NoHue, NoHue, false)
}

func ExampleHue_Opposite() {
	warmth := Undertone(8)
	fmt.Println("level 8 shows", warmth, "and", warmth.Opposite(), "cancels it")
	// Output:
	// level 8 shows yellow and violet cancels it
}
