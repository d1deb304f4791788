package head

import (
	"strings"

	"plait/internal/geom"
)

// mark is a landmark: a named point of the head.
type mark struct {
	name string
	at   Point
}

// addMidline sets the landmarks on the midline. Those between the hairlines are
// shares of the arc from front hairline to nape, as a tape laid over the head
// would give them.
func (h *Head) addMidline(where scheme) {
	front, nape := h.onHairline(0), h.onHairline(180)
	front.P.Y, nape.P.Y = 0, 0
	start := h.midline.ArcAt(front.P)
	length := h.midline.ArcAt(nape.P) - start
	along := func(share float64) Point { return h.midlinePoint(start + float64(share*length)) }
	h.add("front hairline", front)
	h.add("apex", At(h, geom.Vec3{Z: 1}))
	h.add("crown", along(where.crown))
	h.add("below crown", along(where.belowCrown))
	h.add("occipital bone", along(where.occipital))
	h.add("nape", nape)
	h.add("widest back", h.upright(-1))
}

// addSides sets the landmarks that come in pairs. The parietal ridge is where the
// plane through both recessions and the point below the crown meets the plane of
// the apex.
func (h *Head) addSides(where scheme) {
	h.addPair("recession", h.onHairline(where.recession))
	h.addPair("ear top", h.onHairline(where.earTop))
	h.addPair("ear back", h.onHairline(where.earBack))
	h.addPair("nape corner", h.onHairline(where.napeCorner))
	plane := h.HorseshoePlane()
	side := func(phi float64) Point { return At(h, Direction(phi, geom.Degrees(90))) }
	f := func(phi float64) float64 { return plane.At(side(phi).P) }
	low := geom.Degrees(90)
	h.addPair("parietal ridge", side(geom.Root(f, 0, f(0), low, f(low), onTolerance)))
}

// HorseshoePlane returns the plane through both recessions and the point below the
// crown, its normal up.
func (h *Head) HorseshoePlane() geom.Plane {
	recession, _ := h.Pair("recession")
	return through(recession[0], recession[1], h.mark("below crown")).Toward(geom.Vec3{Z: 1})
}

func (h *Head) add(name string, at Point) { h.marks = append(h.marks, mark{name, at}) }

func (h *Head) addPair(name string, left Point) {
	h.add("left "+name, left)
	h.add("right "+name, Point{U: left.U.Mirror(), P: left.P.Mirror(), N: left.N.Mirror()})
}

// midlinePoint returns the point of the midline at an arc, exactly in the plane
// y = 0, so that nothing on it counts as left or right.
func (h *Head) midlinePoint(arc float64) Point {
	p := h.midline.At(arc)
	p.U.Y, p.P.Y, p.N.Y = 0, 0, 0
	return p
}

// upright returns the point of the midline where the surface stands upright, in
// front (+1) or behind (−1): the ends of the head's length.
func (h *Head) upright(side float64) Point {
	at := func(phi float64) Point {
		sin, cos := geom.Sincos(phi)
		return At(h, geom.Vec3{X: float64(side * sin), Z: cos})
	}
	f := func(phi float64) float64 { return at(phi).N.Z }
	high, low := geom.Degrees(45), geom.Degrees(100)
	return at(geom.Root(f, high, f(high), low, f(low), 1e-12))
}

// Landmarks returns the names of all landmarks, from front to back and then the
// pairs.
func (h *Head) Landmarks() []string {
	var names []string
	for _, m := range h.marks {
		names = append(names, m.name)
	}
	return names
}

// Landmark returns a landmark by its name, such as "crown" or "left ear top".
func (h *Head) Landmark(name string) (p Point, ok bool) {
	for _, m := range h.marks {
		if m.name == name {
			return m.at, true
		}
	}
	return Point{}, false
}

// Pair returns the left and the right landmark of a name without side, such as
// "ear top".
func (h *Head) Pair(name string) (pair [2]Point, ok bool) {
	left, hasLeft := h.Landmark("left " + name)
	right, hasRight := h.Landmark("right " + name)
	return [2]Point{left, right}, hasLeft && hasRight
}

// Pairs returns the names of the landmarks that Pair knows.
func (h *Head) Pairs() []string {
	var names []string
	for _, m := range h.marks {
		if name, ok := strings.CutPrefix(m.name, "left "); ok {
			names = append(names, name)
		}
	}
	return names
}

// mark returns a landmark that every head has.
func (h *Head) mark(name string) Point {
	p, _ := h.Landmark(name)
	return p
}
