package timing

import (
	"testing"

	"plait/internal/hair"
	"plait/internal/measure"
	"plait/internal/shade"
)

// A root colour and a gloss over the lengths, the second begun while the first works.
// Derived by addition.
func TestTwoBowls(t *testing.T) {
	roots := timeline(t, bowl(t, "10:00", "left 8:00, right 8:00", "30-35 min", LastSection)) // on by 26:00, off 56:00-1:01:00
	gloss := timeline(t, bowl(t, "30:00", "lengths 10:00", "15-20 min", LastSection))         // off 55:00-1:00:00
	both := []Timeline{roots, gloss}
	if got := Clashes(both); got != nil {
		t.Errorf("clashes %v, want none", got)
	}
	expectTimes(t, "chair", Chair(both, clock(t, "10:00")), "1:06:00-1:11:00")
	if got := Chair(nil, clock(t, "10:00")); !got.IsZero() {
		t.Errorf("without a bowl the client sits %s", got)
	}
}

func TestClashes(t *testing.T) {
	roots := bowl(t, "10:00", "left 8:00, right 8:00", "30-35 min", LastSection)
	expect := func(other Bowl, want ...Clash) {
		t.Helper()
		got := Clashes([]Timeline{timeline(t, roots), timeline(t, other)})
		if len(got) != len(want) {
			t.Errorf("%s: got %v, want %v", other.Name, got, want)
			return
		}
		for i := range got {
			if got[i] != want[i] {
				t.Errorf("%s: got %v, want %v", other.Name, got[i], want[i])
			}
		}
	}
	over := func(from, to string) measure.Span { return measure.Span{Min: clock(t, from), Max: clock(t, to)} }

	// Begun just as the roots are done, and a minute too soon.
	expect(bowl(t, "26:00", "lengths 10:00", "30 min", LastSection))
	expect(bowl(t, "25:00", "lengths 10:00", "30 min", LastSection),
		Clash{Bowl: 0, Section: 1, Other: 1, OtherSection: 0, Over: over("25:00", "26:00")})
	// Across both sections.
	expect(bowl(t, "15:00", "lengths 10:00", "30 min", LastSection),
		Clash{Bowl: 0, Section: 0, Other: 1, OtherSection: 0, Over: over("15:00", "18:00")},
		Clash{Bowl: 0, Section: 1, Other: 1, OtherSection: 0, Over: over("18:00", "25:00")})
	// The roots must come off between 56:00 and 1:01:00: all of it while the lengths
	// are being covered, then with a minute left at the end.
	expect(bowl(t, "55:00", "lengths 10:00", "30 min", LastSection),
		Clash{Bowl: 1, Section: 0, Other: 0, OtherSection: Rinsing, Over: over("56:00", "1:01:00")})
	expect(bowl(t, "55:00", "lengths 5:00", "30 min", LastSection))
	// Between two sections there is a moment for it.
	expect(bowl(t, "50:00", "lengths 10:00, ends 10:00", "30 min", LastSection))
	// A lightener that is off before the roots are half on.
	expect(bowl(t, "0:00", "fringe 4:00", "14 min", FirstTouch),
		Clash{Bowl: 0, Section: 0, Other: 1, OtherSection: Rinsing, Over: over("14:00", "14:00")})
}

func TestUsual(t *testing.T) {
	expect := func(kind shade.Kind, want string) {
		t.Helper()
		got, ok := Usual(kind)
		if !ok || got.String() != want {
			t.Errorf("%s stays %s, %v; want %s", kind, got, ok, want)
		}
	}
	// Hair Colour for Hairstylists: Level 2, BCcampus 2021, ch. 3.1, as 30-40, 20-30
	// and 20-30 minutes.
	expect(shade.Permanent, "30-40 min")
	expect(shade.Demi, "20-30 min")
	expect(shade.Direct, "20-30 min")
	// Common practice, no source.
	expect(shade.HighLift, "45-55 min")
	expect(shade.Toner, "5-20 min")
	expect(shade.Lightener, "up to 50 min")
	if got, ok := Usual(shade.Filler); ok {
		t.Errorf("a filler stays %s, want no usual time", got)
	}
	// A European committee reckons with about 30 minutes for oxidation dye (SCCP opinion
	// on toluene-2,5-diamine, 2 October 2007).
	if s, _ := Usual(shade.Permanent); !s.Contains(stays(t, "30 min")) {
		t.Errorf("30 min lie outside %s", s)
	}
}

// Roots last when lightening: Hair Colour for Hairstylists: Level 2, BCcampus 2021,
// ch. 4.5. Roots first when darkening: common practice, no source.
func TestOrder(t *testing.T) {
	if got := Order(true); got[len(got)-1] != hair.Roots {
		t.Errorf("lightening in the order %v, want the roots last", got)
	}
	if got := Order(false); got[0] != hair.Roots || got[2] != hair.Ends {
		t.Errorf("darkening in the order %v, want from roots to ends", got)
	}
}
