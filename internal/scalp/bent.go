package scalp

import (
	"math"

	"plait/internal/geom"
	"plait/internal/head"
)

// Diagonal parts above from below along a line that slopes down from a point of the
// midline, alike on both sides: toward the face, or toward the back.
type Diagonal struct {
	At    head.Place
	Slope float64 // in radians from level
	Back  bool    // falls toward the centre back
}

// Kind is "diagonal forward" or "diagonal back".
func (p Diagonal) Kind() string {
	if p.Back {
		return "diagonal back"
	}
	return "diagonal forward"
}

func (p Diagonal) divide(s *site) (division, *Problem) {
	if bad := slopeWithin(p.Slope); bad != nil {
		return division{}, bad
	}
	at, bad := s.findMidline(p.At)
	left, right := diagonalPlanes(at, p.Slope, p.Back)
	return division{
		fields: []field{upright, left, right},
		names:  []string{"above", "below"},
		side:   diagonalSide,
		bends:  []int{1, 2},
	}, bad
}

func slopeWithin(slope float64) *Problem { return within("slope", geom.InDegrees(slope), SlopeAngle) }

// diagonalSide picks the plane of the polygon's own side of the head.
func diagonalSide(values []float64) float64 {
	if values[0] > 0 {
		return values[1]
	}
	return values[2]
}

// diagonalPlanes returns the planes of the left and the right side through a point
// p of the midline. With slope b they are N·(q − p) = 0 with
//
//	N = (± sin b/√2, ± sin b/√2, cos b),
//
// the sign of y following the side and both signs turned where it falls backward.
func diagonalPlanes(at head.Point, slope float64, back bool) (left, right flat) {
	sin, cos := geom.Sincos(slope)
	lean := sin / math.Sqrt2
	if back {
		lean = -lean
	}
	left = flat{geom.PlaneAt(at.P, geom.Vec3{X: lean, Y: lean, Z: cos})}
	right = flat{geom.PlaneAt(at.P, geom.Vec3{X: lean, Y: -lean, Z: cos})}
	return left, right
}

// Horseshoe parts the top from what lies below it: from recession to recession
// round the back, in the plane through both and the point below the crown. What is
// in front of the recessions belongs to the top, though some of it lies lower.
type Horseshoe struct{}

// Kind is "horseshoe".
func (Horseshoe) Kind() string { return "horseshoe" }

func (Horseshoe) divide(s *site) (division, *Problem) {
	recession, bad := s.pair("recession")
	return division{
		fields: []field{flat{s.head.HorseshoePlane()}, flat{geom.PlaneAt(recession[0].P, forward)}},
		names:  []string{"top", "below"},
		side:   func(values []float64) float64 { return max(values[0], values[1]) },
		bends:  []int{0},
	}, bad
}

// Triangle parts a fringe off: from both recessions straight to a point of the
// midline.
type Triangle struct{ Point head.Place }

// Kind is "triangle".
func (Triangle) Kind() string { return "triangle" }

func (p Triangle) divide(s *site) (division, *Problem) {
	point, bad := s.findMidline(p.Point)
	if bad != nil {
		return division{}, bad
	}
	recession, bad := s.pair("recession")
	if bad != nil {
		return division{}, bad
	}
	d := division{
		names: []string{"fringe", "rest"},
		side:  func(values []float64) float64 { return min(values[0], values[1]) },
		bends: []int{0, 1},
	}
	front, _ := s.head.Landmark("front hairline")
	for _, r := range recession {
		plane, bad := planeThrough(point.P, r.P, s.head.Centre(), forward)
		if bad != nil {
			return division{}, bad
		}
		if plane.at(&front) < 0 {
			plane = flat{plane.Flip()}
		}
		d.fields = append(d.fields, plane)
	}
	return d, nil
}
