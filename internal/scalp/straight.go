package scalp

import (
	"plait/internal/geom"
	"plait/internal/head"
)

// Centre parts left from right in the middle.
type Centre struct{}

// Kind is "centre".
func (Centre) Kind() string { return "centre" }

func (Centre) divide(*site) (division, *Problem) { return single(upright, "left", "right"), nil }

// Side parts left from right in a plane beside the middle.
type Side struct {
	Right    bool    // of the middle, else left of it
	Distance float64 // straight from the middle, in cm
}

// Kind is "side".
func (Side) Kind() string { return "side" }

func (p Side) divide(*site) (division, *Problem) {
	if bad := within("distance", p.Distance, SideDistance); bad != nil {
		return division{}, bad
	}
	plane := geom.Plane{N: upright.N, D: p.Distance}
	if p.Right {
		plane.D = -p.Distance
	}
	return single(flat{plane}, "left", "right"), nil
}

// EarToEar parts front from back, in the plane through the tops of both ears and a
// point of the midline.
type EarToEar struct {
	Over head.Place // the apex where it is the zero Place
}

// Kind is "ear to ear".
func (EarToEar) Kind() string { return "ear to ear" }

func (p EarToEar) divide(s *site) (division, *Problem) {
	if p.Over == (head.Place{}) {
		p.Over.Landmark = "apex"
	}
	over, bad := s.findMidline(p.Over)
	if bad != nil {
		return division{}, bad
	}
	ear, bad := s.pair("ear top")
	if bad != nil {
		return division{}, bad
	}
	plane, bad := planeThrough(ear[0].P, over.P, ear[1].P, forward)
	return single(plane, "front", "back"), bad
}

// Horizontal parts above from below at the height of a point.
type Horizontal struct{ At head.Place }

// Kind is "horizontal".
func (Horizontal) Kind() string { return "horizontal" }

func (p Horizontal) divide(s *site) (division, *Problem) {
	at, bad := s.find(p.At)
	return single(flat{geom.PlaneAt(at.P, up)}, "above", "below"), bad
}

// Level parts above from below in the plane through a point of the midline and a
// pair of landmarks, such as occipital bone and ear back.
type Level struct {
	At head.Place
	To string // name of the pair, without left and right
}

// Kind is "level".
func (Level) Kind() string { return "level" }

func (p Level) divide(s *site) (division, *Problem) {
	at, bad := s.findMidline(p.At)
	if bad != nil {
		return division{}, bad
	}
	to, bad := s.pair(p.To)
	if bad != nil {
		return division{}, bad
	}
	plane, bad := planeThrough(at.P, to[0].P, to[1].P, up)
	return single(plane, "above", "below"), bad
}

// Line is a parting from one point to another, in the plane through both and a
// third point of the head, or else its centre. The first part lies to the left of
// one who walks along it. It has no names of its own.
type Line struct {
	From, To head.Place
	Through  head.Place // may be the zero Place
}

// Kind is "line".
func (Line) Kind() string { return "line" }

func (p Line) divide(s *site) (division, *Problem) {
	from, bad := s.find(p.From)
	if bad != nil {
		return division{}, bad
	}
	to, bad := s.find(p.To)
	if bad != nil {
		return division{}, bad
	}
	third := s.head.Centre()
	if p.Through != (head.Place{}) {
		through, bad := s.find(p.Through)
		if bad != nil {
			return division{}, bad
		}
		third = through.P
	}
	left := from.N.Cross(to.P.Sub(from.P))
	plane, bad := planeThrough(from.P, to.P, third, left)
	return single(plane, "", ""), bad
}
