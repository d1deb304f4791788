package exact

import (
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func expectString(t *testing.T, got Number, want string) {
	t.Helper()
	if got.String() != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestParse(t *testing.T) {
	for in, want := range map[string]string{
		"0": "0", "7": "7", "007": "7", "1.5": "1.5", "0.1": "0.1", "20/3": "20/3", "-4": "-4", "30.000001": "30000001/1000000",
	} {
		n, err := Parse(in)
		if err != nil {
			t.Errorf("Parse(%q): %v", in, err)
			continue
		}
		expectString(t, n, want)
	}
	for _, in := range []string{"", ".", "1.", ".5", "1,5", "1e3", "+1", "1 ", "0x1", "1/0", "1_000", "½", "--1", "1/2/3", "1.5/2"} {
		if n, err := Parse(in); err == nil {
			t.Errorf("Parse(%q) = %s, want an error", in, n)
		}
	}
	for _, in := range []string{"1234567890", "1.1234567"} {
		if _, err := Parse(in); err != ErrRange {
			t.Errorf("Parse(%q): %v, want ErrRange", in, err)
		}
	}
}

func TestRounding(t *testing.T) {
	tenth := Of(1, 10)
	for _, c := range []struct {
		in                 Number
		floor, round, ceil string
	}{
		{Of(70, 3), "23.3", "23.3", "23.4"},
		{Of(140, 3), "46.6", "46.7", "46.7"},
		{Of(5, 100), "0", "0.1", "0.1"}, // a half goes away from zero
		{Of(-5, 100), "-0.1", "-0.1", "0"},
		{Int(18), "18", "18", "18"},
	} {
		expectString(t, c.in.Floor(tenth), c.floor)
		expectString(t, c.in.Round(tenth), c.round)
		expectString(t, c.in.Ceil(tenth), c.ceil)
	}
}

func TestDecimal(t *testing.T) {
	for _, c := range []struct {
		in     Number
		places int
		want   string
	}{
		{Of(15, 7), 4, "2.1429"}, {Int(18), 1, "18"}, {Of(1, 1000), 1, "0"}, {Of(-1, 1000), 1, "0"}, {Int(100), 0, "100"},
	} {
		if got := c.in.Decimal(c.places); got != c.want {
			t.Errorf("%s to %d places: got %s, want %s", c.in, c.places, got, c.want)
		}
	}
}

func TestWith(t *testing.T) {
	for _, c := range []struct {
		in   Number
		want string
	}{
		{Of(70, 3), "23.33 g"}, {Int(60), "60 g"}, {Int(1 << 40), "1099511627776 g"}, {Of(-1, 1<<40), "0 g"},
	} {
		if got := c.in.With(" g", 2); got != c.want {
			t.Errorf("%s with its unit is %q, want %q", c.in, got, c.want)
		}
	}
}

// drawn yields numbers on both sides of the border between a machine word and
// math/big, and close to it.
func drawn(t *rapid.T, label string) Number {
	const border = 1 << 31
	near := rapid.Int64Range(border-3, border+3)
	num := rapid.OneOf(rapid.Int64Range(-1000, 1000), near, rapid.Map(near, func(n int64) int64 { return -n }), rapid.Int64()).Draw(t, label+" numerator")
	den := rapid.OneOf(rapid.Int64Range(1, 1000), near, rapid.Int64Range(1, 1<<62)).Draw(t, label+" denominator")
	return Of(num, den)
}

// Every operation agrees with math/big, the general library for exact rationals.
func TestAgreesWithBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawn(t, "a"), drawn(t, "b")
		expect := func(op string, got Number, want *big.Rat) {
			if got.rat().Cmp(want) != 0 {
				t.Fatalf("%s %s %s = %s, want %s", a, op, b, got, want)
			}
		}
		expect("+", a.Add(b), new(big.Rat).Add(a.rat(), b.rat()))
		expect("-", a.Sub(b), new(big.Rat).Sub(a.rat(), b.rat()))
		expect("·", a.Mul(b), new(big.Rat).Mul(a.rat(), b.rat()))
		if !b.IsZero() {
			expect("÷", a.Quo(b), new(big.Rat).Quo(a.rat(), b.rat()))
		}
		if got, want := a.Cmp(b), a.rat().Cmp(b.rat()); got != want {
			t.Fatalf("Cmp(%s, %s) = %d, want %d", a, b, got, want)
		}
		places := rapid.IntRange(0, 8).Draw(t, "places")
		if got, want := a.Decimal(places), decimalByBig(a.rat(), places); got != want {
			t.Fatalf("%s to %d places: got %s, want %s", a, places, got, want)
		}
		if want, _ := a.rat().Float64(); a.Float() != want {
			t.Fatalf("%s is %v as a float64, want %v", a, a.Float(), want)
		}
		tenth := new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil))
		if got, want := a.EndsWithin(places), new(big.Rat).Mul(a.rat(), tenth).IsInt(); got != want {
			t.Fatalf("%s ends within %d places: %v", a.rat(), places, got)
		}
		if s := a.String(); strings.Contains(s, "/") && s != a.rat().RatString() {
			t.Fatalf("%s prints as %s", a.rat().RatString(), s)
		}
		if n, ok := a.Int64(); ok != (a.rat().IsInt() && a.rat().Num().IsInt64()) || ok && n != a.rat().Num().Int64() {
			t.Fatalf("%s is the whole number %d: %v", a, n, ok)
		}
		if s := a.Floor(One); a.Less(s) || !a.Less(s.Add(One)) || !s.IsInt() {
			t.Fatalf("Floor(%s) = %s", a, s)
		}
	})
}

// decimalByBig rounds with math/big and drops what is needless at the end.
func decimalByBig(r *big.Rat, places int) string {
	s := r.FloatString(places)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"1.5", "20/3", "-0", "00.10"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		n, err := Parse(s)
		if err != nil {
			if !n.IsZero() {
				t.Fatalf("Parse(%q) gave %s beside %v", s, n, err)
			}
			return
		}
		if want, ok := readDecimal(s); !ok || n.rat().Cmp(want) != 0 {
			t.Fatalf("Parse(%q) = %s, math/big reads %v", s, n, want)
		}
	})
}

// readDecimal reads a number with math/big. The parts of a fraction are read on
// their own, because Rat.SetString takes a leading 0 in them for octal.
func readDecimal(s string) (*big.Rat, bool) {
	num, den, ok := strings.Cut(s, "/")
	if !ok {
		return new(big.Rat).SetString(s)
	}
	a, okA := new(big.Int).SetString(num, 10)
	b, okB := new(big.Int).SetString(den, 10)
	if !okA || !okB || b.Sign() == 0 {
		return nil, false
	}
	return new(big.Rat).SetFrac(a, b), true
}

func BenchmarkScaleBowl(b *testing.B) {
	parts := []Number{Int(2), One, Of(9, 2)}
	for b.Loop() {
		total := Sum(parts...)
		for _, p := range parts {
			_ = Int(50).Mul(p).Quo(total)
		}
	}
}
