package strand

import (
	"errors"
	"math"
	"slices"
	"testing"

	"plait/internal/head"
	"plait/internal/scalp"
)

// One length: every end hangs on one level, whatever the comb did.
func TestOneLengthIsLevel(t *testing.T) {
	for _, dressing := range []Dressing{Gravity, FromCrown, CentreParting} {
		cut := whole(parted(t, adultBase()), Perimeter{Z: -8, Dressing: dressing}, Lift{})
		cut.Dressing = dressing
		strands := cut.Fall()
		if len(strands) < 2500 {
			t.Fatalf("%d strands", len(strands))
		}
		for _, s := range strands {
			if off := math.Abs(s.Path.End().Z + 8); off > 1e-9 {
				t.Fatalf("%s: an end hangs %g cm off the line", dressing, off)
			}
		}
	}
}

// Left is right mirrored, strand by strand.
func TestFallIsSymmetric(t *testing.T) {
	cut := whole(parted(t, adultBase()), Travelling{Start: 8}, elevated(60))
	cut.Dressing = CentreParting
	var left, right []float64
	for _, s := range cut.Fall() {
		end := s.Path.End()
		if end.Y > 0 {
			left = append(left, end.Z)
		} else {
			right = append(right, end.Z)
		}
	}
	slices.Sort(left)
	slices.Sort(right)
	if len(left) != len(right) {
		t.Fatalf("%d strands on the left, %d on the right", len(left), len(right))
	}
	for i := range left {
		expectNear(t, "height of an end", left[i], right[i], 1e-6)
	}
}

func TestHairThatIsNotCut(t *testing.T) {
	plan := parted(t, adultBase(), scalp.Step{Part: scalp.EarToEar{}})
	front, nape := landmark(t, "front hairline"), landmark(t, "nape")
	cut := &Haircut{Plan: plan, Cuts: []Cut{{}, {Guide: Fixed{25}}}, Before: 20}
	expect := func(section int, root head.Point, want float64, why error) {
		t.Helper()
		got, err := cut.Length(section, root)
		if got != want || !errors.Is(err, why) {
			t.Errorf("section %d: got %g, %v; want %g, %v", section, got, err, want, why)
		}
	}
	expect(0, front, 20, ErrNotCut)
	expect(1, nape, 20, ErrShort)
	for _, s := range cut.Fall() {
		if s.Cut {
			t.Fatal("a strand counts as cut")
		}
		expectNear(t, "length", s.Path.Len(), 20, 1e-9)
	}
	if m := cut.Measure(1); m.Missed != 1 || m.Why != ErrShort {
		t.Errorf("%g of the back is not cut (%v), want all for being short", m.Missed, m.Why)
	}
	cut.Before = 0
	expect(1, nape, 25, nil)
	for _, s := range cut.Fall() {
		if s.Section == 0 {
			t.Fatal("hair of unknown length falls")
		}
	}
	if cm, ok := cut.At("nape"); !ok || cm != 25 {
		t.Errorf("at the nape: %g, %t", cm, ok)
	}
	if _, ok := cut.At("front hairline"); ok {
		t.Error("the front counts as cut")
	}
	if _, ok := cut.At("chin"); ok {
		t.Error("the chin is no landmark")
	}
}

func landmark(t *testing.T, name string) head.Point {
	t.Helper()
	p, ok := adult().Landmark(name)
	if !ok {
		t.Fatal(name)
	}
	return p
}
