package head

import (
	"math"
	"sort"

	"plait/internal/geom"
)

// Trace is a closed line on the surface that is walked by angle round an axis: the
// section of a plane, or the circle that a compass draws. It knows its arc lengths.
type Trace struct {
	axis   geom.Vec3 // direction of the axis, a unit vector
	origin geom.Vec3 // a point of the axis
	e1, e2 geom.Vec3 // directions of angle 0 and of a quarter turn
	point  func(angle float64) Point
	arc    []float64 // length from angle 0 to each step
}

// traceSteps is the number of chords of a trace. On a head their sum falls short of
// the arc by less than a millionth.
const traceSteps = 1440

const (
	fullTurn  = 2 * math.Pi
	stepAngle = fullTurn / traceSteps
)

// Section returns the line in which a plane meets the surface. Angles start in the
// direction of start and grow as seen from the side that the plane's normal points
// to, counter-clockwise. ok is false where the plane misses the surface.
func Section(s Surface, plane geom.Plane, start geom.Vec3) (t *Trace, ok bool) {
	origin := plane.Foot(s.Centre())
	if !inside(s, origin) {
		return nil, false
	}
	t = &Trace{axis: plane.N, origin: origin}
	t.e1, t.e2 = geom.Frame(plane.N, start)
	t.point = func(angle float64) Point { return onRay(s, origin, t.direction(angle)) }
	t.measure()
	return t, true
}

// Compass returns the line of all points at a straight distance from a point of the
// surface, as a compass stuck into it would draw. Angle 0 is toward start. ok is
// false where the circle does not lie on the surface all round.
func Compass(s Surface, at Point, distance float64, start geom.Vec3) (t *Trace, ok bool) {
	t = &Trace{axis: at.N, origin: at.P}
	t.e1, t.e2 = geom.Frame(at.N, start)
	if !inside(s, at.P.Sub(at.N.Scale(distance))) {
		return nil, false
	}
	t.point = func(angle float64) Point { return onCircle(s, t, distance, angle) }
	t.measure()
	return t, true
}

func (t *Trace) direction(angle float64) geom.Vec3 {
	sin, cos := geom.Sincos(angle)
	return t.e1.Scale(cos).Add(t.e2.Scale(sin))
}

func (t *Trace) measure() {
	t.arc = make([]float64, traceSteps+1)
	last := t.point(0)
	first := last
	for i := 1; i <= traceSteps; i++ {
		next := first
		if i < traceSteps {
			next = t.point(float64(float64(i) * stepAngle))
		}
		t.arc[i] = t.arc[i-1] + next.P.Dist(last.P)
		last = next
	}
}

// Axis returns the direction of the axis that the trace runs round, a unit vector.
func (t *Trace) Axis() geom.Vec3 { return t.axis }

// Origin returns the point of the axis that angles are counted at.
func (t *Trace) Origin() geom.Vec3 { return t.origin }

// Len returns the length of the whole line.
func (t *Trace) Len() float64 { return t.arc[traceSteps] }

// ArcAt returns the arc length from the start of the trace to the point of it that
// has the same angle as p, 0 ≤ arc < Len.
func (t *Trace) ArcAt(p geom.Vec3) float64 {
	d := p.Sub(t.origin)
	angle := geom.Atan2(d.Dot(t.e2), d.Dot(t.e1))
	if angle < 0 {
		angle += fullTurn
	}
	steps := angle / stepAngle
	i := min(int(steps), traceSteps-1)
	return t.arc[i] + float64((steps-float64(i))*(t.arc[i+1]-t.arc[i]))
}

// At returns the point of the trace at an arc length from its start, which wraps
// round.
func (t *Trace) At(arc float64) Point {
	arc -= float64(math.Floor(arc/t.Len()) * t.Len())
	i := max(sort.SearchFloat64s(t.arc, arc), 1)
	i = min(i, traceSteps)
	share := (arc - t.arc[i-1]) / (t.arc[i] - t.arc[i-1])
	return t.point(float64((float64(i-1) + share) * stepAngle))
}

// onTolerance is how near to the surface a found point must lie, in cm.
const onTolerance = 1e-11

// inside tells whether a point lies within the surface.
func inside(s Surface, p geom.Vec3) bool { return height(s, p) < 0 }

// height returns how far a point lies outside the surface, along its own ray.
func height(s Surface, p geom.Vec3) float64 {
	d := p.Sub(s.Centre())
	distance := d.Len()
	if distance == 0 {
		r, _ := s.Radius(geom.Vec3{Z: 1})
		return -r
	}
	r, _ := s.Radius(d.Scale(1 / distance))
	return distance - r
}

// onRay returns where a ray from inside the surface leaves it.
func onRay(s Surface, origin, direction geom.Vec3) Point {
	at := func(t float64) geom.Vec3 { return origin.Add(direction.Scale(t)) }
	f := func(t float64) float64 { return height(s, at(t)) }
	near, far := 0.0, 1.0
	nearHeight, farHeight := f(near), f(far)
	for farHeight < 0 {
		near, nearHeight = far, farHeight
		far = float64(far * 2)
		farHeight = f(far)
	}
	return Toward(s, at(geom.Root(f, near, nearHeight, far, farHeight, onTolerance)))
}

// onCircle returns the point of the surface at a straight distance from the origin
// of a trace, in the half plane of an angle: the compass leg is turned down until
// its tip touches.
func onCircle(s Surface, t *Trace, distance, angle float64) Point {
	out := t.direction(angle)
	tip := func(down float64) geom.Vec3 {
		sin, cos := geom.Sincos(down)
		return t.origin.Add(out.Scale(float64(distance * cos))).Sub(t.axis.Scale(float64(distance * sin)))
	}
	f := func(down float64) float64 { return height(s, tip(down)) }
	up, down := -math.Pi/2, math.Pi/2
	return Toward(s, tip(geom.Root(f, up, f(up), down, f(down), onTolerance)))
}
