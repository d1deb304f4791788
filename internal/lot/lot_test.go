package lot

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// What pcg32 of pcg-cpp prints, the C++ library of the generator's author (Debian's
// libpcg-cpp-dev 0.98.1-2): its numbers for a seed and a stream, and those below a bound.
func TestPublishedNumbers(t *testing.T) {
	expectNumbers(t, newStream(42, 54), 0xa15c02b7, 0x7b47f409, 0xba1d3330, 0x83d2f293, 0xbfa4784b, 0xcbed606e)
	expectNumbers(t, New(0x0123456789abcdef), 0xe0ec9a88, 0x8ee3af5d, 0x4dae3108, 0x948b69a2)
	expectBelow(t, New(7), 52, 9, 26, 38, 2, 43, 10, 15, 6)
	// Nearly a third of all numbers lies below the threshold and is drawn again.
	expectBelow(t, New(1<<64-1), 3_000_000_000, 1386400290, 270193904, 162771754, 2706235813, 1719859171, 2640580441, 2657940736, 2287533550)
}

func expectNumbers(t *testing.T, l *Lots, want ...uint32) {
	t.Helper()
	for i, w := range want {
		if got := l.next(); got != w {
			t.Errorf("number %d: got %#x, want %#x", i, got, w)
		}
	}
}

func expectBelow(t *testing.T, l *Lots, bound int, want ...int) {
	t.Helper()
	for i, w := range want {
		if got := l.Below(bound); got != w {
			t.Errorf("number %d below %d: got %d, want %d", i, bound, got, w)
		}
	}
}

// SHA-256 of "abc\n" begins edeaaff3f1774ad2, as sha256sum prints it.
func TestSeed(t *testing.T) {
	if got := Seed("abc"); got != 0xedeaaff3f1774ad2 {
		t.Errorf("got %#x", got)
	}
	if Seed("a", "bc") == Seed("ab", "c") {
		t.Error("two pairs of words share a seed")
	}
}

func TestDrawTakesEachOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		of := rapid.IntRange(0, 60).Draw(t, "of")
		n := rapid.IntRange(0, of).Draw(t, "n")
		seed := rapid.Uint64().Draw(t, "seed")
		got := New(seed).Draw(n, of)
		if !slices.Equal(got, New(seed).Draw(n, of)) {
			t.Fatal("one seed, two draws")
		}
		sorted := slices.Sorted(slices.Values(got))
		if len(got) != n || len(slices.Compact(sorted)) != n || n > 0 && (sorted[0] < 0 || sorted[n-1] >= of) {
			t.Fatalf("%d of %d: got %v", n, of, got)
		}
	})
}

// Each of the 24 orders of four comes up about equally often: chi squared with 23
// degrees of freedom stays below its 99.9 % point, 49.73 (from a printed table, from
// memory). The seeds are fixed, so the test cannot fail by bad luck.
func TestShufflesAreFair(t *testing.T) {
	const rounds = 24000
	seen := map[[4]int]int{}
	for seed := range uint64(rounds) {
		seen[[4]int(New(seed).Draw(4, 4))]++
	}
	chi := 0.0
	for _, n := range seen {
		d := float64(n) - rounds/24
		chi += d * d / (rounds / 24)
	}
	if len(seen) != 24 || chi > 49.73 {
		t.Errorf("%d orders, chi squared %.1f", len(seen), chi)
	}
}
