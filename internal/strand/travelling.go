package strand

import (
	"plait/internal/geom"
	"plait/internal/head"
)

// Travelling is a guide that moves up the head: a slice of what was cut last goes
// along.
type Travelling struct {
	Start float64 // length at the guide line, in cm
	// Line is the plane whose line on the head is the guide line, its normal up; where
	// hair ends above it, and where it is the zero Plane, the hairline is the guide line.
	// What grows below it is not reached.
	Line geom.Plane
	// Below is how the hair below the line was cut, if the guide goes on from there:
	// then the start is the length that it has on the line.
	Below *Cut
}

// Length follows from the ends p + L·d of neighbouring strands, which lie along the
// fingers. With u the way up the head, d the direction of the strand, q the one
// square to it in which it would rise and b the angle of the fingers off square,
// the next end lies where E'·d = tan b · E'·q, that is
//
//	L' = −u·d + tan b · (u·q + L·d'·q),
//
// from the start at the guide line up to the root. With square fingers and the
// elevation e from the head L' = cos e: longer above below a quarter turn, even at
// it, shorter beyond.
func (g Travelling) Length(h *head.Head, root head.Point, l Lift) (float64, error) {
	way, ok := downTo(h, root, g.line(h))
	if !ok {
		return 0, ErrOutOfReach
	}
	length, err := g.start(h, way[len(way)-1])
	if err != nil {
		return 0, err
	}
	for i := len(way) - 1; i > 0; i-- {
		length = l.next(way[i], way[i-1], length)
	}
	if length < 0 {
		return 0, ErrOutOfReach
	}
	return length, nil
}

// start returns the length at a point of the guide line.
func (g Travelling) start(h *head.Head, at head.Point) (float64, error) {
	if g.Below == nil {
		return g.Start, nil
	}
	return g.Below.Guide.Length(h, at, g.Below.Lift)
}

// Hold is straight.
func (g Travelling) Hold(h *head.Head, root head.Point, l Lift) (Held, error) {
	return straight(h, root, g, l)
}

// line returns the field whose zero is the guide line, positive above it.
func (g Travelling) line(h *head.Head) func(head.Point) float64 {
	if g.Line == (geom.Plane{}) {
		return func(p head.Point) float64 { return head.Hair(h, p.U) }
	}
	return func(p head.Point) float64 { return min(g.Line.At(p.P), head.Hair(h, p.U)) }
}

// next returns the length of the strand at b, a step up the head from a, where a
// strand is cut to a length. The law of Travelling is linear in the length; over
// the step its coefficients count as even and the length as the mean of its ends,
// which keeps the second order.
func (l Lift) next(a, b head.Point, length float64) float64 {
	by := b.P.Dist(a.P)
	if l.Fingers == 0 {
		return length + float64(by*(l.gain(a)+l.gain(b))/2)
	}
	alongA, squareA := l.frame(a)
	alongB, squareB := l.frame(b)
	downA, downB := Down(a), Down(b)
	gain := (downA.Dot(alongA) + downB.Dot(alongB)) / 2
	sin, cos := geom.Sincos(l.Fingers)
	lean := sin / cos
	rise := -(downA.Dot(squareA) + downB.Dot(squareB)) / 2
	bend := float64(lean*alongB.Sub(alongA).Dot(squareA.Add(squareB))) / 4
	return (float64(length*(1+bend)) + float64(by*(gain+float64(lean*rise)))) / (1 - bend)
}

// downTo returns the points on the way from a root down the head to the zero of a
// line, both ends included; ok is false where the root lies below it.
func downTo(h *head.Head, root head.Point, line func(head.Point) float64) (way []head.Point, ok bool) {
	const (
		most    = 400 // steps; the longest way on a head takes 100
		nothing = 1e-9
	)
	at, height := root, line(root)
	if height < -nothing {
		return nil, false
	}
	way = append(make([]head.Point, 0, 64), at)
	for height > nothing {
		at = advance(h, at, step, Down)
		if height = line(at); height < 0 {
			at, height = between(h, way[len(way)-1], at, line), 0
		}
		way = append(way, at)
		if len(way) > most {
			return nil, false
		}
	}
	return way, true
}

// between returns the point between two where a field is zero.
func between(s head.Surface, a, b head.Point, field func(head.Point) float64) head.Point {
	at := func(t float64) head.Point { return head.At(s, a.U.Mix(b.U, t).Unit()) }
	f := func(t float64) float64 { return field(at(t)) }
	return at(geom.Root(f, 0, f(0), 1, f(1), 1e-10))
}
