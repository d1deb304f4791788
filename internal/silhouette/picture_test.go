package silhouette

import (
	"math"
	"testing"

	"plait/internal/strand"
)

// Of lines that run side by side those are drawn that can be told apart, and where one
// ends its neighbour takes over.
func TestVisible(t *testing.T) {
	upright := func(x, from, to float64) Line { return Line{Points: []Point{{x, from}, {x, to}}} }
	got := Visible([]Line{upright(0.1, 8, -5), upright(0.12, 9, 0), upright(3.1, 9, 0), {}})
	if len(got) != 3 {
		t.Fatalf("%d pieces are drawn, want two lines and the lower part of the third: %v", len(got), got)
	}
	lower := got[2].Points
	expectNear(t, "the lower part starts where the upper line ends", lower[0].Y, 0, 2*apart)
	expectNear(t, "and goes on to its own end", lower[len(lower)-1].Y, -5, 1e-9)
	for i, a := range got {
		for _, b := range got[i+1:] {
			for _, p := range a.walk() {
				for _, q := range b.walk() {
					if d := p.dist(q); d < pace && p.Y > 0.5 {
						t.Fatalf("drawn lines come within %.2f cm at %v", d, p)
					}
				}
			}
		}
	}
}

// Around a square of hair the ends along its lower side make the perimeter, those that
// lie well inside it none.
func TestHem(t *testing.T) {
	var outline, ends, inside []Point
	corners := []Point{{-5, -5}, {5, -5}, {5, 5}, {-5, 5}, {-5, -5}}
	for i := 1; i < len(corners); i++ {
		a, b := corners[i-1], corners[i]
		for k := range 70 {
			share := float64(k) / 70
			outline = append(outline, Point{a.X + (b.X-a.X)*share, a.Y + (b.Y-a.Y)*share})
		}
	}
	outline = append(outline, outline[0])
	for k := range 21 {
		ends = append(ends, Point{float64(k)/2 - 5, -4.8})
		inside = append(inside, Point{float64(k)/5 - 2, 1})
	}
	parts := Hem([][]Point{outline}, append(ends, inside...))
	if len(parts) != 1 {
		t.Fatalf("%d parts, want the lower side", len(parts))
	}
	left, right := math.Inf(1), math.Inf(-1)
	for _, p := range parts[0] {
		if p.Y > -4.8+alongHem {
			t.Fatalf("the perimeter goes up to %v", p)
		}
		left, right = min(left, p.X), max(right, p.X)
	}
	expectNear(t, "left", left, -5, 1e-9)
	expectNear(t, "right", right, 5, 1e-9)
	if parts := Hem([][]Point{outline}, inside); len(parts) != 0 {
		t.Errorf("hidden ends make a perimeter: %v", parts)
	}
	if parts := Hem([][]Point{outline}, outline); len(parts) != 1 || len(parts[0]) != len(outline) {
		t.Error("ends all round do not make the whole outline the perimeter")
	}
}

// From the side, one length at the jaw is seen as one level perimeter line from the
// face to the back.
func TestHemOfOneLength(t *testing.T) {
	f := Fall(haircut(t, adultBase(), strand.Perimeter{Z: -8}, 0, strand.Gravity))
	var near []strand.Strand
	var ends []Point
	for _, s := range f.Strands {
		if s.Root.P.Y >= 0 {
			near = append(near, s)
			ends = append(ends, left.Of(s.Path.End()))
		}
	}
	long := 0.0
	for _, part := range Hem(Outline(Of(left, near, now)), ends) {
		for i := 1; i < len(part); i++ {
			long += part[i].dist(part[i-1])
			if part[i].Y > -7 {
				t.Fatalf("the perimeter goes up to %v", part[i])
			}
		}
	}
	if long < 15 {
		t.Errorf("the perimeter is %.1f cm long, want the depth of the head", long)
	}
}
