package scalp

import "math"

// strip is the part of a net beside a line. Cuts across the line stay within it, so
// that the tips of many teeth do not cut up the whole head.
type strip struct {
	mesh     *Mesh
	line     field
	reach    float64   // polygons that come this near to the line are cut, in cm
	values   []float64 // of the line at the points
	polygons []int     // those that are cut, and their neighbours
}

// widestPolygon is more than any polygon of a net measures across, in cm: what
// touches a polygon that is cut lies in the strip.
const widestPolygon = 2

func newStrip(m *Mesh, line field, reach float64) *strip {
	s := &strip{mesh: m, line: line, reach: reach}
	s.values = m.values(line, nil)
	for i, p := range m.Polygons {
		if s.comes(p.Corners, reach+widestPolygon) {
			s.polygons = append(s.polygons, i)
		}
	}
	return s
}

// comes tells whether a polygon has a corner within a distance of the line.
func (s *strip) comes(corners []int32, distance float64) bool {
	for _, c := range corners {
		if math.Abs(s.values[c]) <= distance {
			return true
		}
	}
	return false
}

// cut cuts the polygons within reach. One beside them gets the new point as a
// corner, so that the net stays closed.
func (s *strip) cut(f field) {
	c := s.mesh.newCutter(f)
	before := len(s.mesh.Polygons)
	var beside []int
	for _, i := range s.polygons {
		corners := s.mesh.Polygons[i].Corners
		switch {
		case !c.crosses(corners):
		case s.comes(corners, s.reach):
			c.split(i)
		default:
			beside = append(beside, i)
		}
	}
	for _, i := range beside {
		c.insert(&s.mesh.Polygons[i])
	}
	for i := before; i < len(s.mesh.Polygons); i++ {
		s.polygons = append(s.polygons, i)
	}
	s.values = s.mesh.values(s.line, s.values)
}

// insert gives a polygon that is not cut the points that its neighbours got on
// shared sides.
func (c *cutter) insert(p *Polygon) {
	corners := make([]int32, 0, len(p.Corners)+2)
	for k, corner := range p.Corners {
		corners = append(corners, corner)
		if i, ok := c.made[edgeOf(corner, p.Corners[(k+1)%len(p.Corners)])]; ok {
			corners = append(corners, i)
		}
	}
	p.Corners = corners
}
