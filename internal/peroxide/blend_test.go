package peroxide

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"plait/internal/exact"
	"plait/internal/measure"
)

func grams(n int64) measure.Mass { return measure.Grams(exact.Int(n)) }

// expectBlend holds how much of two stocks makes a total of the wanted strength.
func expectBlend(t *testing.T, total int64, wanted, strong, weak string, wantStrong, wantWeak string) {
	t.Helper()
	s, w, target := strength(t, strong), strength(t, weak), strength(t, wanted)
	a, b, err := Blend(s, w, target)
	if err != nil {
		t.Errorf("%s from %s and %s: %v", wanted, strong, weak, err)
		return
	}
	each := grams(total).Times(exact.One.Quo(a.Add(b)))
	first, second := each.Times(a), each.Times(b)
	if first.Grams().String() != wantStrong || second.Grams().String() != wantWeak {
		t.Errorf("%d g of %s: got %s of %s + %s of %s, want %s + %s", total, wanted, first, strong, second, weak, wantStrong, wantWeak)
	}
	if mixed := Mixed(Amount{first, s}, Amount{second, w}); mixed.Cmp(target) != 0 {
		t.Errorf("%s of %s and %s of %s are %s, want %s", first, s, second, w, mixed, target)
	}
}

func TestBlend(t *testing.T) {
	// From teaching texts of pharmacy on alligation and dilution: a technician's
	// tutorial, two alligation pages, a homework thread and slides on dilution.
	expectBlend(t, 5, "30 %", "70 %", "20 %", "1", "4")
	expectBlend(t, 2, "50 %", "90 %", "10 %", "1", "1")
	expectBlend(t, 100, "20 %", "30 %", "10 %", "50", "50")
	expectBlend(t, 300, "4 %", "5 %", "2 %", "200", "100")
	expectBlend(t, 120, "0.02 %", "2 %", "0 %", "1.2", "118.8")
	expectBlend(t, 4000, "0.05 %", "10 %", "0 %", "20", "3980")
	// The problem is from those slides, its answer derived.
	expectBlend(t, 120, "1 %", "3 %", "0 %", "40", "80")

	// Derived by mass balance.
	expectBlend(t, 90, "6 %", "12 %", "3 %", "30", "60")
	expectBlend(t, 100, "9 %", "12 %", "0 %", "75", "25")
	expectBlend(t, 80, "9 %", "12 %", "6 %", "40", "40")
	expectBlend(t, 60, "1.9 %", "6 %", "0 %", "19", "41")
	expectBlend(t, 82, "3 %", "6 %", "1.9 %", "22", "60")
	expectBlend(t, 100, "13 vol", "30 vol", "10 vol", "15", "85")
	expectBlend(t, 100, "25 vol", "40 vol", "20 vol", "25", "75")
	expectBlend(t, 750, "8 %", "12 %", "6 %", "250", "500") // 500 g of 6 % raised to 8 %
	// The order of the two does not matter, and either alone is its own blend.
	expectBlend(t, 90, "6 %", "3 %", "12 %", "60", "30")
	expectBlend(t, 90, "12 %", "12 %", "3 %", "90", "0")
	expectBlend(t, 90, "3 %", "12 %", "3 %", "0", "90")
}

func TestBlendRefuses(t *testing.T) {
	expect := func(strong, weak, wanted, word string) {
		t.Helper()
		_, _, err := Blend(strength(t, strong), strength(t, weak), strength(t, wanted))
		if err == nil || !strings.Contains(err.Error(), word) {
			t.Errorf("%s from %s and %s: %v, want %q", wanted, strong, weak, err, word)
		}
	}
	expect("6 %", "3 %", "9 %", "outside the two")
	expect("6 %", "3 %", "2.99 %", "outside the two")
	expect("6 %", "3 %", "6.01 %", "outside the two")
	expect("6 %", "6 %", "6 %", "changes nothing")
}

func TestMixed(t *testing.T) {
	expect := func(want string, amounts ...Amount) {
		t.Helper()
		expectStrength(t, Mixed(amounts...), want)
	}
	// From an alligation handout for pharmacy students.
	expect("50 %",
		Amount{grams(3000), strength(t, "40 %")},
		Amount{grams(1000), strength(t, "60 %")},
		Amount{grams(1000), strength(t, "70 %")})
	expect("70 %", Amount{grams(20), strength(t, "95 %")}, Amount{grams(25), strength(t, "50 %")})

	// Derived by mass balance.
	expect("8.5 %",
		Amount{grams(30), strength(t, "12 %")},
		Amount{grams(20), strength(t, "6 %")},
		Amount{grams(10), strength(t, "3 %")})
	expect("4 %", Amount{Mass: grams(30)}, Amount{grams(60), strength(t, "6 %")})
	expect("6.75 %", Amount{Mass: grams(25)}, Amount{grams(75), strength(t, "9 %")})
}

func TestInBowl(t *testing.T) {
	expect := func(bottle, ratio, want string) {
		t.Helper()
		r, err := measure.ParseRatio(ratio)
		if err != nil {
			t.Fatal(err)
		}
		b := strength(t, bottle)
		expectStrength(t, InBowl(b, r), want)
		if back := BottleFor(InBowl(b, r), r); back.Cmp(b) != 0 {
			t.Errorf("%s at %s came back as %s", b, r, back)
		}
	}
	// A textbook of hair science gives the peroxide on the head as 6 or 8 % for
	// extra-high-lift blondes, 4.5 % for light blondes and 3 % for medium blondes and
	// darker (a fibre-research institute's textbook, ch. 4, p. 125).
	expect("40 vol", "1:1", "6 %")
	expect("40 vol", "1:2", "8 %")
	expect("30 vol", "1:1", "4.5 %")
	expect("20 vol", "1:1", "3 %")

	// The rest of the table is derived.
	for bottle, row := range map[string][5]string{
		"3 %":  {"1.5 %", "1.8 %", "2 %", "15/7 %", "2.25 %"},
		"6 %":  {"3 %", "3.6 %", "4 %", "30/7 %", "4.5 %"},
		"9 %":  {"4.5 %", "5.4 %", "6 %", "45/7 %", "6.75 %"},
		"12 %": {"6 %", "7.2 %", "8 %", "60/7 %", "9 %"},
	} {
		for i, ratio := range []string{"1:1", "1:1.5", "1:2", "1:2.5", "1:3"} {
			expect(bottle, ratio, row[i])
		}
	}
	expect("1.9 %", "1:2", "19/15 %")
	if got := InBowl(strength(t, "6 %"), measure.Ratio{}); got.String() != "6 %" {
		t.Errorf("6 %% used as it is gives %s, want 6 %%", got)
	}
}

// drawn yields developers up to the ceiling in steps of a tenth.
func drawn(t *rapid.T, label string) Strength {
	return Percent(exact.Of(rapid.Int64Range(0, 120).Draw(t, label), 10))
}

// Pouring things together neither makes nor loses peroxide, and the order of
// pouring does not matter.
func TestMixingKeepsThePeroxide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		amounts := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Amount {
			return Amount{grams(rapid.Int64Range(1, 1000).Draw(t, "grams")), drawn(t, "strength")}
		}), 2, 6).Draw(t, "amounts")
		mixed := Amount{Strength: Mixed(amounts...)}
		peroxide := exact.Zero
		for _, a := range amounts {
			peroxide = peroxide.Add(a.Mass.Grams().Mul(a.Strength.Percent()))
			mixed.Mass = mixed.Mass.Add(a.Mass)
		}
		if got := mixed.Mass.Grams().Mul(mixed.Strength.Percent()); !got.Equal(peroxide) {
			t.Fatalf("%s of peroxide became %s", peroxide, got)
		}
		first := Amount{amounts[0].Mass.Add(amounts[1].Mass), Mixed(amounts[0], amounts[1])}
		if step := Mixed(append([]Amount{first}, amounts[2:]...)...); step.Cmp(mixed.Strength) != 0 {
			t.Fatalf("all at once %s, in two goes %s", mixed.Strength, step)
		}
	})
}

// Blend and Mixed undo each other for every strength between the two.
func TestBlendIsTheInverseOfMixed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, wanted := drawn(t, "one"), drawn(t, "other"), drawn(t, "wanted")
		partsA, partsB, err := Blend(a, b, wanted)
		low, high := min(a.Cmp(wanted), b.Cmp(wanted)), max(a.Cmp(wanted), b.Cmp(wanted))
		if possible := a.Cmp(b) != 0 && low <= 0 && high >= 0; possible != (err == nil) {
			t.Fatalf("%s from %s and %s: %v", wanted, a, b, err)
		}
		if err != nil {
			return
		}
		if partsA.Sign() < 0 || partsB.Sign() < 0 {
			t.Fatalf("%s from %s and %s: %s and %s parts", wanted, a, b, partsA, partsB)
		}
		if got := Mixed(Amount{measure.Grams(partsA), a}, Amount{measure.Grams(partsB), b}); got.Cmp(wanted) != 0 {
			t.Fatalf("%s parts of %s and %s of %s give %s, want %s", partsA, a, partsB, b, got, wanted)
		}
	})
}

func ExampleBlend() {
	strong, weak, wanted := Volumes(exact.Int(30)), Volumes(exact.Int(10)), Volumes(exact.Int(13))
	partsStrong, partsWeak, _ := Blend(strong, weak, wanted)
	share := partsStrong.Quo(partsStrong.Add(partsWeak))
	fmt.Println("100 g takes", grams(100).Times(share), "of", strong.VolumesString())
	// Output:
	// 100 g takes 15 g of 30 vol
}

func ExampleBottleFor() {
	atOneToTwo := measure.Ratio{Colour: exact.One, Developer: exact.Int(2)}
	bottle := BottleFor(Percent(exact.Int(4)), atOneToTwo)
	fmt.Println("4 % on the hair at 1:2 needs", bottle)
	// Output:
	// 4 % on the hair at 1:2 needs 6 %
}
