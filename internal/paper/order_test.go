package paper

import (
	"slices"
	"strings"
	"testing"
)

// Whatever order an author lists things in, a paper shows them in the same.
func TestOrderIsOne(t *testing.T) {
	want := []string{"9 g", "10 g", "1:2", "Brush", "scale"}
	for _, p := range [][]string{{"9 g", "10 g", "1:2"}, {"10 g", "1:2", "9 g"}, {"1:2", "9 g", "10 g"}} {
		list := append(p, "scale", "Brush")
		slices.SortFunc(list, alphabetical)
		if got := strings.Join(list, ", "); got != strings.Join(want, ", ") {
			t.Errorf("%q are shown as %s", p, got)
		}
	}
}
