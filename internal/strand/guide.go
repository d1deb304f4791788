package strand

import (
	"errors"

	"plait/internal/geom"
	"plait/internal/head"
)

// Guide says what strands are cut to.
type Guide interface {
	// Length returns the length of a strand from its root, held as the lift says.
	Length(h *head.Head, root head.Point, l Lift) (float64, error)
}

// Errors of a strand that a guide cannot cut.
var (
	// ErrOutOfReach is of a strand that does not meet the guide: it points past it or
	// away from it, or grows beyond it.
	ErrOutOfReach = errors.New("the strand does not reach the guide")
	// ErrNoGuide is of a guide that lies inside the head.
	ErrNoGuide = errors.New("the guide lies inside the head")
)

// Shortest is the length in cm below which a strand is not held and cut any more;
// what a guide would make shorter is for the caller to warn of (common practice, no
// source).
const Shortest = 0.5

// Perimeter is a guide for natural fall: every strand ends at a height, z in cm. The
// lift does not matter.
type Perimeter struct{ Z float64 }

// Length is the way that the strand falls to that height: over the head until it
// turns under, then straight down.
func (g Perimeter) Length(h *head.Head, root head.Point, _ Lift) (float64, error) {
	if root.P.Z < g.Z {
		return 0, ErrOutOfReach
	}
	reach := root.P.Z - g.Z + float64(4*root.P.Dist(h.Centre())) // more than any way round
	path := Fall(h, root, Gravity, reach)
	total := 0.0
	for i := 1; i < len(path); i++ {
		from, to := path[i-1], path[i]
		if to.Z <= g.Z {
			return total + float64(from.Dist(to)*(from.Z-g.Z))/(from.Z-to.Z), nil
		}
		total += from.Dist(to)
	}
	return 0, ErrOutOfReach
}

// Fixed is a guide of one length everywhere, cut with the fingers along the head.
type Fixed struct{ Cm float64 }

// Length is that length.
func (g Fixed) Length(*head.Head, head.Point, Lift) (float64, error) { return g.Cm, nil }

// Travelling is a guide that moves up the head: a slice of what was cut last goes
// along, and the fingers stay square to the strand. It starts with a length at the
// hairline.
type Travelling struct{ Start float64 }

// Length follows from the ends p + L·d of neighbouring strands, which lie square to
// the strand: L' = −p'·d. With t the way down the head and d the direction of the
// strand that is
//
//	L = start + ∫ t·d ds
//
// from the root to the hairline, and start + s·cos e where the elevation e is from
// the head: longer above below a quarter turn, even at it, shorter beyond.
func (g Travelling) Length(h *head.Head, root head.Point, l Lift) (float64, error) {
	length := g.Start
	toHairline(h, root, func(from, to head.Point, by float64) {
		length += float64(by * (l.gain(from) + l.gain(to)) / 2)
	})
	if length < 0 {
		return 0, ErrOutOfReach
	}
	return length, nil
}

// Wall is a guide in a plane: every strand is held in its direction and cut where it
// meets it.
type Wall struct{ geom.Plane }

// leastFacing is how squarely, as a cosine, a strand must meet a wall.
const leastFacing = 0.1

// Length is the distance to the plane along the strand, (D − N·p)/(N·d).
func (g Wall) Length(_ *head.Head, root head.Point, l Lift) (float64, error) {
	facing := g.N.Dot(l.Direction(root))
	length := -g.At(root.P) / facing
	if facing < leastFacing || length < 0 {
		return 0, ErrOutOfReach
	}
	return length, nil
}

// Stationary is a guide that stays at a point: every strand is brought to it, round
// the head where it must. The lift does not matter.
type Stationary struct{ At geom.Vec3 }

// Length is that of a taut string from the root to the point, in the plane that
// holds both and the centre of the head: straight where the root sees the point,
// else along the head until it does. On the midline and on a ball no way is shorter.
func (g Stationary) Length(h *head.Head, root head.Point, _ Lift) (float64, error) {
	out := g.At.Sub(h.Centre())
	if r, _ := h.Radius(out.Unit()); out.Len() < r {
		return 0, ErrNoGuide
	}
	return taut(h, root, out), nil
}
