package mix

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"plait/internal/exact"
	"plait/internal/measure"
)

const twoShades = "2 6N + 1 7B | 1:1.5 | 20 vol | 45 colour"

func TestRescale(t *testing.T) {
	b := compute(t, twoShades, tenth)
	expect := func(what string, got Bowl, want string) {
		t.Helper()
		if weights(got) != want {
			t.Errorf("%s: got %s, want %s", what, weights(got), want)
		}
	}
	expect("60 g of colour", b.ToColour(grams(t, "60")), "40 + 20 + 90")
	expect("12 g left of the second", b.ToPart(1, grams(t, "12")), "24 + 12 + 54")
	expect("30 g left of the developer", b.ToPart(2, grams(t, "30")), "40/3 + 20/3 + 30")
	if got := b.ToPart(2, grams(t, "30")); weighed(got) != "13.3 + 6.7 + 30" {
		t.Errorf("on the scale %s", weighed(got))
	}
	// An additive of fixed weight keeps its proportion.
	with := compute(t, "1 6N | 1:1 | 6 % | 40 colour | 4 g drops", tenth)
	expect("double", with.Rescale(exact.Int(2)), "80 + 8 + 80")
	if weights(b) != "30 + 15 + 67.5" {
		t.Errorf("the first bowl became %s", weights(b))
	}
	// A bowl too small for the scale has no ratio left, not that of the larger one.
	if got := compute(t, "1 6N | 1:2 | 6 % | 10 colour", whole).ToColour(grams(t, "0.1")); !got.Weighed.IsZero() {
		t.Errorf("0.1 g of colour on whole grams: %s at %s", weighed(got), got.Weighed)
	}
}

func TestRescaleThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawnBowl(t)
		factor := exact.Of(rapid.Int64Range(1, 400).Draw(t, "factor"), rapid.Int64Range(1, 40).Draw(t, "divisor"))
		other := b.Rescale(factor)
		back := other.Rescale(exact.One.Quo(factor))
		if weights(back) != weights(b) || weighed(back) != weighed(b) || back.Weighed.String() != b.Weighed.String() {
			t.Fatalf("%s became %s", weights(b), weights(back))
		}
		if other.Strength.Cmp(b.Strength) != 0 || !other.ColourShare().Equal(b.ColourShare()) {
			t.Fatalf("%s of %s became %s of %s", b.Strength, b.Mixed, other.Strength, other.Mixed)
		}
		if got := b.ToColour(other.Colour); weights(got) != weights(other) {
			t.Fatalf("to %s of colour: %s, want %s", other.Colour, weights(got), weights(other))
		}
		part := rapid.IntRange(0, len(b.Parts)-1).Draw(t, "part")
		if got := b.ToPart(part, other.Parts[part].Exact); weights(got) != weights(other) {
			t.Fatalf("to %s of part %d: %s, want %s", other.Parts[part].Exact, part, weights(got), weights(other))
		}
	})
}

// expectRescue holds what to add after pouring, and the weights of the new bowl.
func expectRescue(t *testing.T, b Bowl, poured, add, bowl string) {
	t.Helper()
	var masses []measure.Mass
	for _, n := range strings.Fields(poured) {
		masses = append(masses, grams(t, n))
	}
	r := b.Rescue(masses)
	var out []string
	for _, m := range r.Add {
		out = append(out, m.Grams().String())
	}
	if got := strings.Join(out, " "); got != add || weighed(r.Bowl) != bowl {
		t.Errorf("poured %s: add %s for %s, want %s for %s", poured, got, weighed(r.Bowl), add, bowl)
	}
}

// Derived by proportion.
func TestRescue(t *testing.T) {
	b := compute(t, twoShades, tenth)
	expectRescue(t, b, "0 0 0", "30 15 67.5", "30 + 15 + 67.5")
	expectRescue(t, b, "30 0 0", "0 15 67.5", "30 + 15 + 67.5")
	expectRescue(t, b, "36 0 0", "0 18 81", "36 + 18 + 81")
	expectRescue(t, b, "30 18 0", "6 0 81", "36 + 18 + 81")
	expectRescue(t, b, "36 18 81", "0 0 0", "36 + 18 + 81")
	expectRescue(t, b, "31 16 90", "9 4 0", "40 + 20 + 90")

	// Pouring just what the scale was to show is not too much, although rounding has
	// put 47 in place of 46.67.
	coarse := compute(t, "1 6N | 1:2 | 6 % | 70 mixed", whole)
	expectRescue(t, coarse, "23 47", "0 0", "23 + 47")
	expectRescue(t, coarse, "0 47", "23 0", "23 + 47")
	expectRescue(t, coarse, "24 47", "0 1", "24 + 48")
	expectRescue(t, coarse, "0 48", "24 0", "24 + 48")

	// Here the larger bowl would take a step less of the developer than is in it.
	uneven := compute(t, "2001 6N | 1:2 | 6 % | 1000.4 colour", whole)
	expectRescue(t, uneven, "1000 2001", "0 0", "1000 + 2001")
	expectRescue(t, uneven, "1001 2001", "0 1", "1001 + 2002")
}

// Nothing can be taken out of a bowl: rescue never asks for less than is there, adds
// no more than it must, and keeps the formula to a step of the scale.
func TestRescueProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawnBowl(t)
		poured := make([]measure.Mass, len(b.Parts))
		over := false
		for i, p := range b.Parts {
			steps := rapid.Int64Range(0, 800).Draw(t, "steps poured")
			poured[i] = b.Step.Times(exact.Int(steps))
			over = over || poured[i].Cmp(p.Weighed) > 0
		}
		r := b.Rescue(poured)
		for i, p := range r.Bowl.Parts {
			if r.Add[i].Grams().Sign() < 0 || poured[i].Add(r.Add[i]).Cmp(p.Weighed) != 0 {
				t.Fatalf("%s poured, %s to add, %s wanted", poured[i], r.Add[i], p.Weighed)
			}
			if moved := p.Weighed.Sub(p.Exact).Grams().Abs(); !moved.Less(b.Step.Grams()) && over {
				t.Fatalf("part %d is %s and should be %s", i, p.Weighed, p.Exact)
			}
		}
		if !over && weights(r.Bowl) != weights(b) {
			t.Fatalf("nothing is over, yet %s became %s", weights(b), weights(r.Bowl))
		}
		if over && r.Bowl.Mixed.Cmp(b.Mixed) <= 0 {
			t.Fatalf("too much is in it, yet %s became %s", b.Mixed, r.Bowl.Mixed)
		}
	})
}

func ExampleBowl_Rescue() {
	b := Bowl{
		Step: measure.Grams(exact.Of(1, 10)),
		Parts: []Part{
			{Name: "6N", Exact: measure.Grams(exact.Int(30)), Weighed: measure.Grams(exact.Int(30))},
			{Name: "7B", Exact: measure.Grams(exact.Int(15)), Weighed: measure.Grams(exact.Int(15))},
		},
	}
	slipped := []measure.Mass{measure.Grams(exact.Int(36)), {}}
	rescue := b.Rescue(slipped)
	for i, p := range rescue.Bowl.Parts {
		fmt.Println("add", rescue.Add[i], "of", p.Name)
	}
	// Output:
	// add 0 g of 6N
	// add 18 g of 7B
}
