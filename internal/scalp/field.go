package scalp

import (
	"plait/internal/geom"
	"plait/internal/head"
)

// line is the field of a parting that a zigzag can run along: a plane or a circle.
type line interface {
	field
	// slope returns how the field changes in space, a unit vector.
	slope(p *head.Point) geom.Vec3
	// trace returns the line on the surface; ok is false where it misses.
	trace(s head.Surface) (t *head.Trace, ok bool)
}

// flat is the line in which a plane meets the surface.
type flat struct{ geom.Plane }

func (f flat) at(p *head.Point) float64 { return f.Plane.At(p.P) }

func (f flat) slope(*head.Point) geom.Vec3 { return f.N }

func (f flat) trace(s head.Surface) (*head.Trace, bool) {
	return head.Section(s, f.Plane, geom.Vec3{Z: -1})
}

// round is the circle that a compass draws; the inside is positive.
type round struct {
	middle head.Point
	radius float64
}

func (r round) at(p *head.Point) float64 { return r.radius - p.P.Dist(r.middle.P) }

func (r round) slope(p *head.Point) geom.Vec3 { return r.middle.P.Sub(p.P).Unit() }

func (r round) trace(s head.Surface) (*head.Trace, bool) {
	return head.Compass(s, r.middle, r.radius, geom.Vec3{X: 1})
}

// upright is the middle plane, positive on the left.
var upright = flat{geom.Plane{N: geom.Vec3{Y: 1}}}
