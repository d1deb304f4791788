// Package scalp parts the hair-bearing part of a head into named sections and
// measures them.
//
// A net of small polygons covers the whole head. A parting cuts every polygon that
// it runs through in two, along the true line on the true surface, and then gives
// the polygons of the sections it parts their new section. Each polygon belongs to
// one section and cutting loses nothing, so the sections cover the scalp once by
// construction; it is checked again after every parting. Lengths are in cm and
// areas in cm². The method is an own design.
package scalp

import (
	"plait/internal/geom"
	"plait/internal/head"
)

// Skin is the section of a polygon that bears no hair.
const Skin = -1

// Facing says from which sides a polygon is seen: bits of the signs of its normal.
type Facing uint8

// The bits of Facing: seen from the front rather than from behind, from the left
// rather than from the right, from above rather than from below.
const (
	FromFront Facing = 1 << iota
	FromLeft
	FromAbove
)

// Polygon is a convex piece of the surface. Its sides are arcs that the straight
// lines between its corners cast from the centre.
type Polygon struct {
	Corners []int32 // indices of points, counter-clockwise from outside; never changed
	Section int     // index of the section, or Skin
	Facing  Facing
	area    float64 // below zero where it is not known yet
}

const unknown = -1

// Area returns the area of a polygon with hair in cm², 0 for one without.
func (p Polygon) Area() float64 { return max(p.area, 0) }

// Mesh is a net of polygons over a surface that share their corners: every side
// inside it has exactly one polygon on each hand.
type Mesh struct {
	Points   []head.Point
	Polygons []Polygon
	surface  head.Surface
}

// newMesh returns a net of triangles: an octahedron with corners on the axes whose
// triangles are split in four the given number of times, without the triangles
// that reach beyond the surface's limit.
func newMesh(s head.Surface, level int) *Mesh {
	m := &Mesh{surface: s}
	corners := []geom.Vec3{{X: 1}, {Y: 1}, {X: -1}, {Y: -1}, {Z: 1}, {Z: -1}}
	var triangles [][3]int32
	for i := range int32(4) {
		next := (i + 1) % 4
		triangles = append(triangles, [3]int32{i, next, 4}, [3]int32{next, i, 5})
	}
	for range level {
		corners, triangles = quarter(corners, triangles)
	}
	m.keep(corners, triangles)
	return m
}

// quarter splits each triangle in four at the middles of its sides, which are
// pushed out to the unit sphere.
func quarter(corners []geom.Vec3, triangles [][3]int32) ([]geom.Vec3, [][3]int32) {
	middles := make(map[edge]int32, int(3*len(triangles))/2)
	middle := func(a, b int32) int32 {
		e := edgeOf(a, b)
		i, ok := middles[e]
		if !ok {
			i = int32(len(corners))
			corners = append(corners, corners[e.low].Add(corners[e.high]).Unit())
			middles[e] = i
		}
		return i
	}
	finer := make([][3]int32, 0, len(triangles)<<2)
	for _, t := range triangles {
		ab, bc, ca := middle(t[0], t[1]), middle(t[1], t[2]), middle(t[2], t[0])
		finer = append(finer,
			[3]int32{t[0], ab, ca}, [3]int32{ab, t[1], bc}, [3]int32{ca, bc, t[2]}, [3]int32{ab, bc, ca})
	}
	return corners, finer
}

// keep takes over the triangles within the surface's limit and numbers the corners
// that they use.
func (m *Mesh) keep(corners []geom.Vec3, triangles [][3]int32) {
	_, lowest := geom.Sincos(m.surface.Limit())
	const slack = 1e-9
	number := make([]int32, len(corners))
	arena := make([]int32, 0, int(3*len(triangles)))
	m.Points = make([]head.Point, 0, len(corners))
	m.Polygons = make([]Polygon, 0, len(triangles))
	for _, t := range triangles {
		if min(corners[t[0]].Z, corners[t[1]].Z, corners[t[2]].Z) < lowest-slack {
			continue
		}
		for _, c := range t {
			if number[c] == 0 {
				m.Points = append(m.Points, head.At(m.surface, corners[c]))
				number[c] = int32(len(m.Points))
			}
			arena = append(arena, number[c]-1)
		}
		n := len(arena)
		m.Polygons = append(m.Polygons, Polygon{Corners: arena[n-3 : n : n], Section: Skin, area: unknown})
	}
}

// clone returns a mesh that can be cut without touching this one.
func (m *Mesh) clone() *Mesh {
	points := make([]head.Point, len(m.Points), len(m.Points)+len(m.Points)/4)
	polygons := make([]Polygon, len(m.Polygons), len(m.Polygons)+len(m.Polygons)/4)
	copy(points, m.Points)
	copy(polygons, m.Polygons)
	return &Mesh{Points: points, Polygons: polygons, surface: m.surface}
}

// edge is a side of a polygon without direction.
type edge struct{ low, high int32 }

func edgeOf(a, b int32) edge { return edge{min(a, b), max(a, b)} }
