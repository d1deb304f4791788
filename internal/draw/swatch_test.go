package draw

import (
	"testing"

	"plait/internal/path"
)

// A swatch is told from all others by its lines, and they stay on it.
func TestSwatchesDiffer(t *testing.T) {
	seen := make(map[string]Hatch)
	for _, h := range hatches {
		data := flatHatch(h)
		if other, ok := seen[data]; ok {
			t.Errorf("%v and %v look alike", h, other)
		}
		seen[data] = h
		for _, line := range flatten(t, data) {
			for _, p := range line {
				if p.X < -0.05 || p.Y < -0.05 || p.X > swatchWidth+0.05 || p.Y > swatchHeight+0.05 {
					t.Errorf("%v: a line runs off the swatch at %v", h, p)
				}
			}
		}
	}
}

func TestClipped(t *testing.T) {
	for _, c := range []struct {
		through, direction path.Point
		want               bool
	}{
		{path.Point{X: 15, Y: 10}, path.Point{X: 1}, true},
		{path.Point{X: 15, Y: 10}, path.Point{X: 0.6, Y: 0.8}, true},
		{path.Point{X: 15, Y: 25}, path.Point{X: 1}, false},
		{path.Point{X: -40, Y: 10}, path.Point{Y: 1}, false},
	} {
		if _, _, ok := clipped(c.through, c.direction); ok != c.want {
			t.Errorf("a line through %v along %v is on the swatch: %v", c.through, c.direction, ok)
		}
	}
}
