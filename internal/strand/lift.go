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
)

var sides = map[Toward]geom.Vec3{
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
	sin, cos := geom.Sincos(l.Elevation)
	down, out := Down(p), p.N
	if l.FromFloor {
		down, out = geom.Vec3{Z: -1}, level(p)
	}
	return l.overDirect(p, down.Scale(cos).Add(out.Scale(sin)))
}

// gain returns t·d, the cosine between a lifted strand and the way down: the length
// that one more cm up the head adds with a travelling guide.
func (l Lift) gain(p head.Point) float64 {
	if !l.FromFloor && l.By == 0 {
		_, cos := geom.Sincos(l.Elevation)
		return cos
	}
	return Down(p).Dot(l.Direction(p))
}

// level returns the level direction away from the head.
func level(p head.Point) geom.Vec3 {
	flat := geom.Vec3{X: p.N.X, Y: p.N.Y}
	if flat.Len() < 1e-9 {
		return geom.Vec3{X: -1}
	}
	return flat.Unit()
}

// overDirect turns a direction about the normal toward a side by the angle of the
// over-direction.
func (l Lift) overDirect(p head.Point, d geom.Vec3) geom.Vec3 {
	side, ok := sides[l.Toward]
	if !ok || l.By == 0 {
		return d
	}
	sin, cos := geom.Sincos(l.By)
	if p.N.Cross(d).Dot(side) < 0 {
		sin = -sin
	}
	along := p.N.Scale(p.N.Dot(d))
	return along.Add(d.Sub(along).Scale(cos)).Add(p.N.Cross(d).Scale(sin))
}
