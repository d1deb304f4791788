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

// Fall returns how a strand of a given length falls: along the surface as it is
// combed, until the surface turns under, and from there straight down.
func Fall(h *head.Head, root head.Point, dressing Dressing, length float64) Path {
	path := Path{root.P}
	at, left := root, length
	for at.N.Z > 0 && left > 0 {
		next := advance(h, at, min(step, left), func(p head.Point) geom.Vec3 { return combed(h, p, dressing) })
		if next.N.Z < 0 {
			next = turning(h, at, next)
		}
		moved := next.P.Dist(at.P)
		if moved < 1e-9 {
			break
		}
		path = append(path, next.P)
		at, left = next, left-moved
		if at.N.Z < 1e-9 {
			break
		}
	}
	if left > 1e-9 && at.N.Z < 1e-6 {
		path = append(path, at.P.Sub(geom.Vec3{Z: left}))
	}
	return path
}

// advance moves along the surface by the midpoint rule: half a step, a new
// direction there, and the whole step in it.
func advance(s head.Surface, from head.Point, by float64, direction func(head.Point) geom.Vec3) head.Point {
	middle := head.Toward(s, from.P.Add(direction(from).Scale(by/2)))
	return head.Toward(s, from.P.Add(direction(middle).Scale(by)))
}

// turning returns the point between two where the surface stands upright.
func turning(s head.Surface, a, b head.Point) head.Point {
	at := func(t float64) head.Point { return head.At(s, a.U.Mix(b.U, t).Unit()) }
	f := func(t float64) float64 { return at(t).N.Z }
	return at(geom.Root(f, 0, a.N.Z, 1, b.N.Z, 1e-11))
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

// toHairline walks from a point down the head to the hairline and calls visit with
// the ends of each step and its length.
func toHairline(h *head.Head, from head.Point, visit func(from, to head.Point, length float64)) {
	at := from
	const most = 400 // steps; the longest way on a head takes 100
	for range most {
		if head.Hair(h, at.U) <= 1e-9 {
			return
		}
		next := advance(h, at, step, Down)
		if head.Hair(h, next.U) < 0 {
			next = atHairline(h, at, next)
		}
		visit(at, next, next.P.Dist(at.P))
		at = next
	}
}

// atHairline returns the point of the hairline between one with hair and one
// without.
func atHairline(s head.Surface, a, b head.Point) head.Point {
	at := func(t float64) geom.Vec3 { return a.U.Mix(b.U, t).Unit() }
	f := func(t float64) float64 { return head.Hair(s, at(t)) }
	return head.At(s, at(geom.Root(f, 0, f(0), 1, f(1), 1e-10)))
}
