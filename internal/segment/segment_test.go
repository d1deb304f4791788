package segment

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// expectDepths scores the gaps between units, which stand with strokes between them.
func expectDepths(t *testing.T, units string, block int, want ...float64) {
	t.Helper()
	var list [][]string
	for _, u := range strings.Split(units, "/") {
		list = append(list, strings.Fields(u))
	}
	got := Depths(list, block)
	if len(got) != len(want) {
		t.Fatalf("%s: got %v, want %v", units, got, want)
	}
	for i := range got {
		if math.Abs(got[i]-want[i]) > 1e-9 {
			t.Errorf("%s in blocks of %d: gap %d is %v deep, want %v", units, block, i, got[i], want[i])
		}
	}
}

// Worked by hand from the formulas of Hearst (1997): a gap's score is the cosine of
// the counts on its two sides, its depth the drop from the peaks on both.
func TestDepths(t *testing.T) {
	root := math.Sqrt
	// Cosines 1, 0, 1.
	expectDepths(t, "a b / a b / c d / c d", 1, 0, 2, 0)
	// Cosines: a b against a b c d is 2 ÷ √(2·4), then 0, then the same again.
	expectDepths(t, "a b / a b / c d / c d", 2, 0, 2/root(2), 0)
	// Cosines 1/√2, 1/√2 ("b" against "b c", "a b" against "b"), 0, 1: the valley before d is as
	// deep as its left peak and its right one together.
	expectDepths(t, "a b / b / b c / d / d", 1, 0, 0, 1/root(2)+1, 0)
	// Two words the same: 2·1 ÷ √(4·1) is 1 whatever their number.
	expectDepths(t, "a a / a / b", 1, 0, 1)
	expectDepths(t, "a / b / c", 2, 0, 0)
	expectDepths(t, "a /  / a", 1, 0, 0)
	expectDepths(t, "a", 1)
	expectDepths(t, "", 3)
}

func TestDepthsOfNothing(t *testing.T) {
	if got := Depths(nil, 3); got != nil {
		t.Errorf("no units have the depths %v", got)
	}
}

// expectWords checks the words that carry the subject of a text.
func expectWords(t *testing.T, text, want string) {
	t.Helper()
	if got := strings.Join(Words(text), " "); got != want {
		t.Errorf("%q gives %q, want %q", text, got, want)
	}
}

func TestWords(t *testing.T) {
	expectWords(t, "So I'm going to fold the foils.", "fold foil")
	expectWords(t, "It’s the toner, and the tonic; 8N!", "toner tonic")
	expectWords(t, "glass genus masses", "glass genus masse")
	expectWords(t, "well, um, so… it's", "")
	expectWords(t, "Für die Längen 30 Minuten", "für die längen minuten")
}

func BenchmarkDepths(b *testing.B) {
	units := make([][]string, 1000) // an hour of captions
	for i := range units {
		for j := range 8 {
			units[i] = append(units[i], fmt.Sprint("word", (i/40*7+j*i)%300))
		}
	}
	b.ReportAllocs()
	for b.Loop() {
		Depths(units, 8)
	}
}
