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
	// Hold returns how the strand is held when it is cut.
	Hold(h *head.Head, root head.Point, l Lift) (Held, error)
}

// Held is a strand as it is held for the cut.
type Held struct {
	Path Path
	// Fingers is the direction of the fingers at its end, a unit vector; zero where the
	// strand is brought to a point.
	Fingers geom.Vec3
}

// Errors of a strand that a guide cannot cut.
var (
	// ErrOutOfReach is of a strand that does not meet the guide: it points past it or
	// away from it, or grows beyond it.
	ErrOutOfReach = errors.New("the strand does not reach the guide")
	// ErrNoGuide is of a guide that lies inside the head.
	ErrNoGuide = errors.New("the guide lies inside the head")
	// ErrShort is of hair that was shorter than the cut before.
	ErrShort = errors.New("the hair is too short for the guide")
	// ErrNotCut is of a section without a cut.
	ErrNotCut = errors.New("the section is not cut")
)

// Shortest is the length in cm below which a strand is not held and cut any more;
// what a guide would make shorter is for the caller to warn of (common practice, no
// source).
const Shortest = 0.5

// Perimeter is a guide for natural fall: every strand ends at a height, z in cm,
// when it is combed as it will be worn. The lift does not matter.
type Perimeter struct {
	Z        float64
	Dressing Dressing // "" is gravity
}

// Length is the way that the strand falls to that height: over the head until it
// turns under, then straight down.
func (g Perimeter) Length(h *head.Head, root head.Point, _ Lift) (float64, error) {
	total := 0.0
	path := g.fall(h, root)
	for i := 1; i < len(path); i++ {
		from, to := path[i-1], path[i]
		if to.Z <= g.Z {
			return total + float64(from.Dist(to)*(from.Z-g.Z))/(from.Z-to.Z), nil
		}
		total += from.Dist(to)
	}
	return 0, ErrOutOfReach
}

// fall returns the way down past the height of the guide, nothing for a root below
// it.
func (g Perimeter) fall(h *head.Head, root head.Point) Path {
	if root.P.Z < g.Z {
		return nil
	}
	reach := root.P.Z - g.Z + float64(4*root.P.Dist(h.Centre())) // more than any way round
	return Fall(h, root, g.Dressing, reach)
}

// Hold is the fall itself, with level fingers.
func (g Perimeter) Hold(h *head.Head, root head.Point, l Lift) (Held, error) {
	length, err := g.Length(h, root, l)
	if err != nil {
		return Held{}, err
	}
	return Held{g.fall(h, root).Cut(length), geom.Vec3{Z: 1}.Cross(level(root))}, nil
}

// Fixed is a guide of one length everywhere, cut with the fingers along the head.
type Fixed struct{ Cm float64 }

// Length is that length.
func (g Fixed) Length(*head.Head, head.Point, Lift) (float64, error) { return g.Cm, nil }

// Hold is straight.
func (g Fixed) Hold(h *head.Head, root head.Point, l Lift) (Held, error) {
	return straight(h, root, g, l)
}

// straight holds a strand straight in the direction of its lift.
func straight(h *head.Head, root head.Point, g Guide, l Lift) (Held, error) {
	length, err := g.Length(h, root, l)
	if err != nil {
		return Held{}, err
	}
	end := root.P.Add(l.Direction(root).Scale(length))
	return Held{Path{root.P, end}, l.Hold(root)}, nil
}

// Wall is a guide in a plane: every strand is held in its direction and cut where it
// meets it.
type Wall struct{ geom.Plane }

// Facing returns the wall at a distance in cm from the middle between the ears, on a
// side of the head or above it.
func Facing(side Toward, at float64) Wall { return Wall{geom.Plane{N: sides[side], D: at}} }

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

// Hold is straight, the fingers along the wall.
func (g Wall) Hold(h *head.Head, root head.Point, l Lift) (Held, error) {
	held, err := straight(h, root, g, l)
	held.Fingers = held.Fingers.Across(g.N).Unit()
	return held, err
}

// Stationary is a guide that stays at a point: every strand is brought to it, round
// the head where it must. The lift does not matter.
type Stationary struct{ At geom.Vec3 }

// Beside returns the guide at a point that lies behind, above and to the left of a
// point of the head, in cm; less than zero is the other way.
func Beside(p head.Point, back, up, left float64) Stationary {
	return Stationary{p.P.Add(geom.Vec3{X: -back, Y: left, Z: up})}
}

// Length is that of a taut string from the root to the point, in the plane that
// holds both and the centre of the head: straight where the root sees the point,
// else along the head until it does. On the midline and on a ball no way is shorter.
func (g Stationary) Length(h *head.Head, root head.Point, l Lift) (float64, error) {
	held, err := g.Hold(h, root, l)
	return held.Path.Len(), err
}

// Hold is that string.
func (g Stationary) Hold(h *head.Head, root head.Point, _ Lift) (Held, error) {
	out := g.At.Sub(h.Centre())
	if r, _ := h.Radius(out.Unit()); out.Len() < r {
		return Held{}, ErrNoGuide
	}
	return Held{Path: taut(h, root, out)}, nil
}
