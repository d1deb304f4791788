package scalp

import (
	"math"

	"plait/internal/geom"
	"plait/internal/head"
)

// field is a function on the surface whose zeros are a line. Near the line its
// value is about the distance from it in cm.
type field interface {
	at(p *head.Point) float64
}

const (
	// snap is the distance in cm within which a point counts as lying on a line, so
	// that lines through one landmark meet in one point.
	snap = 1e-7
	// onLine is how near to zero a field is at a point made by a cut.
	onLine = 1e-10
)

// values returns the field at all points, snapped, in a slice that begins with the
// values known already.
func (m *Mesh) values(f field, known []float64) []float64 {
	for i := len(known); i < len(m.Points); i++ {
		v := f.at(&m.Points[i])
		if math.Abs(v) < snap {
			v = 0
		}
		known = append(known, v)
	}
	return known
}

// cut cuts all polygons along the line of a field and returns its values at all
// points.
func (m *Mesh) cut(f field) []float64 {
	c := m.newCutter(f)
	most := len(m.Polygons) + mostSplits
	for i := range len(m.Polygons) {
		if len(m.Polygons) > most {
			break
		}
		if c.crosses(m.Polygons[i].Corners) {
			c.split(i)
		}
	}
	return c.values
}

// mostSplits is how many polygons one cut may add. A line round the head adds some
// 400, in a zigzag 1,500; a family of lines that cross each other over and over
// would go on without end.
const mostSplits = 6_000

// cutAll cuts by one field after the other and returns the values of each at all
// points. ok is false where a line adds more polygons than it may.
func (m *Mesh) cutAll(fields []field) (values [][]float64, ok bool) {
	values = make([][]float64, len(fields))
	for k, f := range fields {
		before := len(m.Polygons)
		values[k] = m.cut(f)
		if len(m.Polygons)-before > mostSplits {
			return nil, false
		}
	}
	for k, f := range fields {
		values[k] = m.values(f, values[k])
	}
	return values, true
}

// cutter is one cut in progress.
type cutter struct {
	mesh   *Mesh
	field  field
	values []float64
	made   map[edge]int32 // points made so far
	probe  head.Point     // the place tried last; kept here, since a field takes a pointer
}

func (m *Mesh) newCutter(f field) *cutter {
	return &cutter{
		mesh:   m,
		field:  f,
		values: m.values(f, make([]float64, 0, len(m.Points)+len(m.Points)/8)),
		made:   make(map[edge]int32),
	}
}

// crosses tells whether there are corners on both sides of the line.
func (c *cutter) crosses(corners []int32) bool {
	var above, below bool
	for _, i := range corners {
		above = above || c.values[i] > 0
		below = below || c.values[i] < 0
	}
	return above && below
}

// split parts a polygon in two; the part below the line goes to the end of the
// list. A curved line can cross a polygon more than twice; then its triangles are
// split one by one.
func (c *cutter) split(i int) {
	p := c.mesh.Polygons[i]
	signs := c.signs(p.Corners)
	if changes(signs) > 2 {
		for k, t := range fan(p.Corners) {
			part := Polygon{Corners: t, Section: p.Section, Facing: p.Facing, area: unknown}
			at := i
			if k == 0 {
				c.mesh.Polygons[i] = part
			} else {
				at = len(c.mesh.Polygons)
				c.mesh.Polygons = append(c.mesh.Polygons, part)
			}
			if c.crosses(t) {
				c.split(at)
			}
		}
		return
	}
	above := make([]int32, 0, len(p.Corners)+1)
	below := make([]int32, 0, len(p.Corners)+1)
	for k, corner := range p.Corners {
		next := (k + 1) % len(p.Corners)
		if signs[k] >= 0 {
			above = append(above, corner)
		}
		if signs[k] <= 0 {
			below = append(below, corner)
		}
		if signs[k] == -signs[next] && signs[k] != 0 {
			cross := c.point(corner, p.Corners[next])
			above, below = append(above, cross), append(below, cross)
		}
	}
	c.mesh.Polygons[i] = Polygon{Corners: above, Section: p.Section, Facing: p.Facing, area: unknown}
	c.mesh.Polygons = append(c.mesh.Polygons, Polygon{Corners: below, Section: p.Section, Facing: p.Facing, area: unknown})
}

// signs returns on which side of the line each corner counts. A corner on the line
// has no side where the line passes through it from one side to the other; where
// the line only touches, the corner counts as its neighbours do.
func (c *cutter) signs(corners []int32) []int {
	n := len(corners)
	raw := func(k int) int { return sign(c.values[corners[(k+n)%n]]) }
	signs := make([]int, n)
	for k := range corners {
		signs[k] = raw(k)
		if signs[k] != 0 {
			continue
		}
		before, after := k-1, k+1
		for raw(before) == 0 {
			before--
		}
		for raw(after) == 0 {
			after++
		}
		if raw(before) == raw(after) || before != k-1 {
			signs[k] = raw(after)
		}
	}
	return signs
}

func sign(v float64) int {
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}

// changes counts how often the sign changes on the way round.
func changes(signs []int) int {
	count, last := 0, 0
	for range 2 {
		count = 0
		for _, s := range signs {
			if s != 0 && last != 0 && s != last {
				count++
			}
			if s != 0 {
				last = s
			}
		}
	}
	return count
}

// fan returns the triangles of a convex polygon.
func fan(corners []int32) [][]int32 {
	var triangles [][]int32
	for k := 2; k < len(corners); k++ {
		triangles = append(triangles, []int32{corners[0], corners[k-1], corners[k]})
	}
	return triangles
}

// point returns the point where the line crosses a side, the same one for the
// polygons on both hands.
func (c *cutter) point(a, b int32) int32 {
	e := edgeOf(a, b)
	if i, ok := c.made[e]; ok {
		return i
	}
	from, to := c.mesh.Points[e.low].U, c.mesh.Points[e.high].U
	f := func(t float64) float64 {
		c.probe = head.At(c.mesh.surface, from.Mix(to, t).Unit())
		return c.field.at(&c.probe)
	}
	t := geom.Root(f, 0, c.values[e.low], 1, c.values[e.high], onLine)
	i := int32(len(c.mesh.Points))
	c.mesh.Points = append(c.mesh.Points, head.At(c.mesh.surface, from.Mix(to, t).Unit()))
	c.values = append(c.values, 0)
	c.made[e] = i
	return i
}

// sum adds the values of a polygon's corners; its sign is the side the polygon
// lies on.
func sum(values []float64, corners []int32) float64 {
	total := 0.0
	for _, i := range corners {
		total += values[i]
	}
	return total
}
