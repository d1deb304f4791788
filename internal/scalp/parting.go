package scalp

import (
	"plait/internal/geom"
	"plait/internal/head"
)

// Parting is a line, or a family of lines, that divides sections. Its kinds are the
// types of this package that have a Kind.
type Parting interface {
	// Kind returns the trade's name of the parting.
	Kind() string
	// divide works out the lines.
	divide(s *site) (division, *Problem)
}

// site is what a parting may look at while it is worked out.
type site struct {
	head    *head.Head
	mesh    *Mesh
	parents func(section int) bool // the sections to be parted
}

// division is a parting worked out.
type division struct {
	fields []field
	names  []string // of the parts, where the author gives none
	// side is what decides in a parting in two, from the values of the fields: the
	// first part where it is positive, else the second.
	side func(values []float64) float64
	// part is what decides in a parting in many: the index of the part, or crossed.
	part func(values []float64) int
	// bends lists the fields that are lines which a zigzag can replace.
	bends []int
	foil  Foil    // of slices
	width float64 // of slices, in cm
}

// crossed is the part of a polygon that two slices claim.
const crossed = -1

func (d division) partOf(values []float64) int {
	switch {
	case d.part != nil:
		return d.part(values)
	case d.side(values) > 0:
		return 0
	}
	return 1
}

// single returns the division by one line.
func single(f field, names ...string) division {
	d := division{
		fields: []field{f},
		names:  names,
		side:   func(values []float64) float64 { return values[0] },
	}
	if _, isLine := f.(line); isLine {
		d.bends = []int{0}
	}
	return d
}

// find returns the point at a place.
func (s *site) find(p head.Place) (head.Point, *Problem) {
	at, err := s.head.Find(p)
	if err != nil {
		return head.Point{}, &Problem{Code: BadPlace, Cause: err}
	}
	return at, nil
}

// findMidline returns the point at a place that must lie on the midline, for a
// parting that is alike on both sides.
func (s *site) findMidline(p head.Place) (head.Point, *Problem) {
	at, bad := s.find(p)
	if bad == nil && at.P.Y != 0 {
		bad = &Problem{Code: OffMidline, What: p.String()}
	}
	return at, bad
}

// pair returns two mirrored landmarks.
func (s *site) pair(name string) (pair [2]head.Point, p *Problem) {
	pair, ok := s.head.Pair(name)
	if !ok {
		err := &head.PlaceError{Place: name, Reason: head.UnknownLandmark, Known: s.head.Pairs()}
		return pair, &Problem{Code: BadPlace, Cause: err}
	}
	return pair, nil
}

// planeThrough returns the plane through three points with d on its positive side.
func planeThrough(a, b, c, d geom.Vec3) (flat, *Problem) {
	p, ok := geom.PlaneThrough(a, b, c)
	if !ok {
		return flat{}, &Problem{Code: NoLine}
	}
	return flat{p.Toward(d)}, nil
}

// Directions that partings are turned to.
var (
	forward = geom.Vec3{X: 1}
	up      = geom.Vec3{Z: 1}
)
