package strand

import (
	"math"

	"plait/internal/geom"
	"plait/internal/head"
)

// Dressing is how hair is combed before it falls.
type Dressing string

// The dressings.
const (
	Gravity       Dressing = "gravity"        // straight down the head
	FromCrown     Dressing = "from the crown" // away from the crown all round
	CentreParting Dressing = "centre parting" // to both sides in front, from the crown behind
)

// Dressings returns all dressings.
func Dressings() []Dressing { return []Dressing{Gravity, FromCrown, CentreParting} }

// Weights of the dressings (modelled, own design): how strongly hair keeps to the
// comb where the head is level, and how far parted hair is combed off the face.
const (
	combing = 2.5
	offFace = 0.9
)

// step is the length of a step along the surface in cm. Midpoint steps of this size
// keep lengths on a ball within 0.001 cm.
const step = 0.25

// Path is a strand as it lies: points from root to end.
type Path []geom.Vec3

// Len returns the length of the path.
func (p Path) Len() float64 {
	total := 0.0
	for i := 1; i < len(p); i++ {
		total += p[i].Dist(p[i-1])
	}
	return total
}

// End returns the end of the strand.
func (p Path) End() geom.Vec3 { return p[len(p)-1] }

// Cut returns the path cut off at a length, whole where it is not longer.
func (p Path) Cut(length float64) Path {
	for i := 1; i < len(p); i++ {
		piece := p[i].Dist(p[i-1])
		if piece >= length {
			if piece == 0 {
				return p[:i]
			}
			return append(p[:i:i], p[i-1].Mix(p[i], length/piece))
		}
		length -= piece
	}
	return p
}

// Fall returns how a strand of a given length falls: along the surface as it is
// combed, until the surface turns under, and from there straight down. A shorter
// strand falls the same way, only less far.
func Fall(h *head.Head, root head.Point, dressing Dressing, length float64) Path {
	path := Path{root.P}
	at, left := root, length
	for at.N.Z > upright && left > 0 {
		next := advance(h, at, step, func(p head.Point) geom.Vec3 { return combed(h, p, dressing) })
		if next.N.Z < 0 {
			next = between(h, at, next, func(p head.Point) float64 { return p.N.Z })
		}
		moved := next.P.Dist(at.P)
		if moved < leastMove {
			break
		}
		path = append(path, next.P)
		at, left = next, left-moved
	}
	if left > 0 && at.N.Z <= upright {
		return append(path, at.P.Sub(geom.Vec3{Z: left}))
	}
	return path.Cut(length)
}

const (
	// upright is the height of a normal below which the surface stands upright.
	upright = 1e-9
	// leastMove is the step in cm below which hair lies still: where it was combed
	// together.
	leastMove = 1e-9
)

// advance moves along the surface by the midpoint rule: half a step, a new
// direction there, and the whole step in it.
func advance(s head.Surface, from head.Point, by float64, direction func(head.Point) geom.Vec3) head.Point {
	middle := head.Toward(s, from.P.Add(direction(from).Scale(by/2)))
	return head.Toward(s, from.P.Add(direction(middle).Scale(by)))
}

// combed returns the direction in which hair slides at a point: down, and where
// the head is level, as it was combed.
func combed(h *head.Head, p head.Point, dressing Dressing) geom.Vec3 {
	comb := comb(h, p, dressing)
	if comb == (geom.Vec3{}) {
		return Down(p)
	}
	pull := geom.Vec3{Z: -1}.Add(comb.Scale(float64(combing * max(0, p.N.Z))))
	across := pull.Across(p.N)
	if across.Len() < 1e-9 {
		return Down(p)
	}
	return across.Unit()
}

// comb returns the direction that a dressing combs hair in, zero for gravity.
func comb(h *head.Head, p head.Point, dressing Dressing) geom.Vec3 {
	crown, _ := h.Landmark("crown")
	away := p.P.Sub(crown.P).Across(p.N).Unit()
	switch dressing {
	case FromCrown:
		return away
	case CentreParting:
		share := smooth((p.P.X - crown.P.X + 1) / 4.5)
		aside := geom.Vec3{X: -offFace, Y: math.Copysign(1, p.P.Y)}.Unit()
		return away.Scale(1 - share).Add(aside.Scale(share))
	}
	return geom.Vec3{}
}

// smooth goes from 0 to 1 without a corner while x does.
func smooth(x float64) float64 {
	x = min(max(x, 0), 1)
	return float64(x * x * (3 - float64(2*x)))
}
