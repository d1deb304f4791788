package page

import (
	"testing"

	"plait/internal/strand"
)

// Lengths stand to the half centimetre, as they are measured on a strand that
// stretches.
func TestLengthsAfter(t *testing.T) {
	expect := func(shortest, longest float64, want string) {
		t.Helper()
		if got := lengthsAfter(strand.Lengths{Shortest: shortest, Longest: longest}); got != want {
			t.Errorf("%g to %g cm: got %q, want %q", shortest, longest, got, want)
		}
	}
	expect(4, 9.4, "4–9.5\u00a0cm")
	expect(10.9, 11.1, "11\u00a0cm")
	expect(0, 0, "")
}
