package scalp

import (
	"math"

	"plait/internal/head"
)

// SectionAt returns the index of the section in which a point of the surface lies;
// of a point on a border the first of its sections, and of one beyond the hairline
// the nearest.
func (p *Plan) SectionAt(at head.Point) int {
	const slack = 1e-9 // a point of a border lies in several polygons, save for rounding
	section, most := Skin, math.Inf(-1)
	for _, polygon := range p.Mesh.Polygons {
		if polygon.Section == Skin {
			continue
		}
		depth := p.Mesh.depth(polygon.Corners, at)
		if depth > most+slack || depth > most-slack && polygon.Section < section {
			section, most = polygon.Section, max(depth, most)
		}
	}
	return section
}

// depth returns how far a point lies inside a polygon, as an angle: the distance from
// its nearest side, below zero outside.
func (m *Mesh) depth(corners []int32, at head.Point) float64 {
	depth := math.Inf(1)
	for k, c := range corners {
		next := corners[(k+1)%len(corners)]
		side := m.Points[c].U.Cross(m.Points[next].U)
		if l := side.Len(); l > 0 {
			depth = min(depth, side.Dot(at.U)/l)
		}
	}
	return depth
}
