// Package strand says how long each strand is after a cut and where it falls: how
// it is lifted, which guide it is cut to, how it slides down the head.
//
// It is geometry alone, an own design: hair has no thickness, curl or stiffness
// here, and neck and shoulders are not there. Lengths are in cm and angles in
// radians.
package strand

import (
	"plait/internal/geom"
	"plait/internal/head"
)

// Down returns the direction along the surface in which hair lies by itself at a
// point: the steepest way down, a unit vector. On the very top, where there is
// none, it is backward.
func Down(p head.Point) geom.Vec3 {
	across := geom.Vec3{Z: -1}.Across(p.N)
	if across.Len() < 1e-6 {
		return geom.Vec3{X: -1}.Across(p.N).Unit()
	}
	return across.Unit()
}

// Lift is how a strand is held for the cut.
type Lift struct {
	// Elevation is measured from the head where the strand grows: 0 lies flat down
	// the head, a quarter turn stands straight out, a half turn lies flat upward. With
	// FromFloor it is measured from plumb: a quarter turn is level.
	Elevation float64
	FromFloor bool
	// Toward and By turn the strand toward a direction by an angle: over-direction.
	Toward Toward
	By     float64
	// Fingers is the angle between the fingers and a line square to the strand: above
	// zero they lean outward up the head and leave more length there, below zero less.
	Fingers float64
}

// Toward is a side of the head that strands are over-directed to.
type Toward string

// The sides.
const (
	Nowhere     Toward = ""
	TowardFront Toward = "front"
	TowardBack  Toward = "back"
	TowardLeft  Toward = "left"
	TowardRight Toward = "right"
	TowardTop   Toward = "up" // for walls
)

var sides = map[Toward]geom.Vec3{
	TowardTop:   {Z: 1},
	TowardFront: {X: 1}, TowardBack: {X: -1}, TowardLeft: {Y: 1}, TowardRight: {Y: -1},
}

// Direction returns the direction of a lifted strand, a unit vector. With t the way
// down, n the normal, h its level part and z up, elevation e gives
//
//	cos e · t + sin e · n   from the head,
//	−cos e · z + sin e · h  from the floor.
//
// Over-direction turns it about the normal.
func (l Lift) Direction(p head.Point) geom.Vec3 {
	along, _ := l.frame(p)
	return along
}

// gain returns the cosine between a lifted strand and the way down: the length that
// one more cm up the head adds where the fingers are square to the strand.
func (l Lift) gain(p head.Point) float64 {
	if !l.FromFloor && l.By == 0 {
		_, cos := geom.Sincos(l.Elevation)
		return cos
	}
	return Down(p).Dot(l.Direction(p))
}

// Hold returns the direction of the fingers that hold a lifted strand, up the head,
// a unit vector.
func (l Lift) Hold(p head.Point) geom.Vec3 {
	along, square := l.frame(p)
	sin, cos := geom.Sincos(l.Fingers)
	return square.Scale(cos).Add(along.Scale(sin))
}

// frame returns the direction of a lifted strand and the one square to it in which
// it would rise.
func (l Lift) frame(p head.Point) (along, square geom.Vec3) {
	sin, cos := geom.Sincos(l.Elevation)
	down, out := Down(p), p.N
	if l.FromFloor {
		down, out = geom.Vec3{Z: -1}, level(p)
	}
	along = down.Scale(cos).Add(out.Scale(sin))
	square = out.Scale(cos).Sub(down.Scale(sin))
	by := l.turn(p, along)
	return about(p.N, along, by), about(p.N, square, by)
}

// level returns the level direction away from the head.
func level(p head.Point) geom.Vec3 {
	flat := geom.Vec3{X: p.N.X, Y: p.N.Y}
	if flat.Len() < 1e-9 {
		return geom.Vec3{X: -1}
	}
	return flat.Unit()
}

// turn returns the angle by which over-direction turns a strand counter-clockwise
// about the normal.
func (l Lift) turn(p head.Point, d geom.Vec3) float64 {
	side, ok := sides[l.Toward]
	switch {
	case !ok:
		return 0
	case p.N.Cross(d).Dot(side) < 0:
		return -l.By
	}
	return l.By
}

// about returns a direction turned about an axis by an angle.
func about(axis, d geom.Vec3, by float64) geom.Vec3 {
	if by == 0 {
		return d
	}
	sin, cos := geom.Sincos(by)
	along := axis.Scale(axis.Dot(d))
	return along.Add(d.Sub(along).Scale(cos)).Add(axis.Cross(d).Scale(sin))
}
