package amount

import (
	"errors"
	"testing"

	"pgregory.net/rapid"

	"plait/internal/exact"
	"plait/internal/measure"
)

// Derived by proportion.
func TestShare(t *testing.T) {
	sizes := []exact.Number{exact.Int(120), exact.Int(60), exact.Zero, exact.Int(20)}
	parts, err := Share(measure.Grams(exact.Int(100)), sizes)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []string{"60 g", "30 g", "0 g", "10 g"} {
		if parts[i].String() != want {
			t.Errorf("section %d takes %s, want %s", i, parts[i], want)
		}
	}
	for _, sizes := range [][]exact.Number{nil, {exact.Zero}, {exact.Int(-1)}, {exact.Int(3), exact.Int(-1)}} {
		if parts, err := Share(measure.Grams(exact.One), sizes); !errors.Is(err, ErrNoSize) || parts != nil {
			t.Errorf("sizes %v: %v, %v; want %v", sizes, parts, err, ErrNoSize)
		}
	}
}

func TestShareAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := measure.Grams(exact.Of(rapid.Int64Range(1, 5000).Draw(t, "tenths"), 10))
		sizes := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) exact.Number {
			return exact.Int(rapid.Int64Range(1, 700).Draw(t, "cm²"))
		}), 1, 9).Draw(t, "sizes")
		parts, err := Share(whole, sizes)
		if err != nil {
			t.Fatal(err)
		}
		if got := measure.Total(parts...); got.Cmp(whole) != 0 {
			t.Fatalf("%s was shared out as %s", whole, got)
		}
	})
}
