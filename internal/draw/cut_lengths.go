package draw

import (
	"fmt"
	"math"

	"plait/internal/path"
	"plait/internal/strand"
)

// Lines of equal length are drawn every two centimetres, further apart where there
// would be too many to tell apart.
const (
	levelEvery = 2.0 // cm
	mostLevels = 20
)

// Lengths returns the map of the lengths after the cut in a view, as an SVG picture
// whose ids start with id: lines of equal length, every second one with its value.
func (c *Cuts) Lengths(v View, id string) []byte {
	b := c.bald(v)
	step := levelEvery
	for (c.fallen.Longest-c.fallen.Shortest)/step > mostLevels {
		step += levelEvery
	}
	var thin, thick path.Data
	var labels []caption
	for section := range c.fallen.Plan.Sections {
		m := c.heights(b, section)
		for level := float64(math.Ceil(m.low/step) * step); level <= m.high; level += step {
			named := math.Mod(math.Round(level/step), 2) == 0
			for _, line := range m.lines(level) {
				if lengthOf(line) < shortest {
					continue
				}
				if !named {
					thin.Add(path.Fit(line, path.Medium))
					continue
				}
				thick.Add(path.Fit(line, path.Medium))
				if at, ok := c.clear(b, line, labels); ok {
					labels = append(labels, caption{at, fmt.Sprintf("%.0f", level)})
				}
			}
		}
		if even, ok := c.even(b, section, m); ok {
			labels = append(labels, even)
		}
	}
	levels := element(`class="c" stroke="`+levelTint+`" stroke-width=".8"`, thin.String()) +
		element(`class="c" stroke="`+levelTint+`" stroke-width="1.5"`, thick.String())
	description := "Lines of equal length every " + fmt.Sprintf("%.0f cm. ", step) + c.sections(b, c.lengths)
	return c.picture(v, id, "lengths", description, v.Canvas(),
		b.layers.Body, b.layers.Sections, levels, b.layers.Partings, b.layers.Outline, captions(labels, valueHeight))
}

// heights are the lengths at the corners of the seen polygons of a section.
type heights struct {
	scene     *scene
	polygons  []int32
	at        map[int32]float64
	low, high float64
}

func (c *Cuts) heights(b bald, section int) heights {
	l := c.fallen.Lengths[section]
	m := heights{scene: b.scene, at: make(map[int32]float64, len(l.Points)), low: math.Inf(1), high: math.Inf(-1)}
	for i, p := range l.Points {
		m.at[p] = l.Cm[i]
	}
	for i, k := range b.keys {
		if k != int32(section)+1 {
			continue
		}
		low, high := m.extremes(b.scene.mesh.Polygons[i].Corners)
		if low == strand.NotCut || high-low > steep {
			continue
		}
		m.polygons = append(m.polygons, int32(i))
		m.low, m.high = min(m.low, low), max(m.high, high)
	}
	return m
}

// steep is the difference in cm within a polygon, some 5 mm wide, beyond which no line
// is drawn: on the top of the head, where hair falls to all sides, neighbours differ
// by whatever way they take.
const steep = 2.0

// extremes returns the least and the greatest length at the corners of a polygon.
func (m *heights) extremes(corners []int32) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, c := range corners {
		low, high = min(low, m.at[c]), max(high, m.at[c])
	}
	return low, high
}

// meshSide is a side of a polygon without direction.
type meshSide struct{ low, high int32 }

// lines follows a length over the polygons. A line comes into a polygon on the side
// where the lengths, walked round it, rise through the level, and goes out where they
// fall, so each has one way on.
func (m *heights) lines(level float64) [][]path.Point {
	next := make(map[meshSide]meshSide)
	entered := make(map[meshSide]bool)
	var sides []meshSide
	for _, i := range m.polygons {
		in, out := m.through(i, level)
		for k := range min(len(in), len(out)) {
			next[in[k]] = out[k]
			entered[out[k]] = true
			sides = append(sides, in[k])
		}
	}
	var lines [][]path.Point
	follow := func(at meshSide) {
		var line []path.Point
		for {
			line = append(line, m.crossing(at, level))
			to, ok := next[at]
			if !ok {
				break
			}
			delete(next, at)
			at = to
		}
		if len(line) > 1 {
			lines = append(lines, line)
		}
	}
	for _, s := range sides { // lines with a start, then loops
		if !entered[s] {
			follow(s)
		}
	}
	for _, s := range sides {
		if _, ok := next[s]; ok {
			follow(s)
		}
	}
	return lines
}

// through returns the sides of a polygon on which lengths rise and fall through a
// level, in order round it.
func (m *heights) through(polygon int32, level float64) (in, out []meshSide) {
	corners := m.scene.mesh.Polygons[polygon].Corners
	for k, a := range corners {
		b := corners[(k+1)%len(corners)]
		side := meshSide{min(a, b), max(a, b)}
		switch above, next := m.at[a] >= level, m.at[b] >= level; {
		case next && !above:
			in = append(in, side)
		case above && !next:
			out = append(out, side)
		}
	}
	return in, out
}

// crossing returns where a level crosses a side.
func (m *heights) crossing(s meshSide, level float64) path.Point {
	from, to := m.at[s.low], m.at[s.high]
	return m.scene.points[s.low].Mix(m.scene.points[s.high], (level-from)/(to-from))
}

// Room in pixels that the value on a line needs: from the outline of what is seen,
// from other values and along its line.
const (
	valueHeight    = 18.0
	valueFromEdge  = 14.0
	valueFromValue = 32.0
	valueOnLine    = 54.0
)

// clear finds a place for the value of a line: as near to its middle as there is
// room.
func (c *Cuts) clear(b bald, line []path.Point, others []caption) (path.Point, bool) {
	length := lengthOf(line)
	if length < valueOnLine {
		return path.Point{}, false
	}
	for _, share := range []float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8} {
		at := back(line, float64(length*share))
		if c.free(b, at, others) {
			return at, true
		}
	}
	return path.Point{}, false
}

// free tells whether a value can stand at a point.
func (c *Cuts) free(b bald, at path.Point, others []caption) bool {
	for _, o := range others {
		if at.Dist(o.at) < valueFromValue {
			return false
		}
	}
	ear := overhang(c.parted, b.scene.view)
	skull := region{lines: [][]path.Point{contour(c.fallen.Plan.Head, b.scene.view)}}
	return !ear.contains(at) && ear.margin(at, valueFromEdge) >= valueFromEdge &&
		skull.margin(at, valueFromEdge) >= valueFromEdge
}

// even returns the one length of a section that no line of equal length runs through,
// in its middle.
func (c *Cuts) even(b bald, section int, m heights) (caption, bool) {
	const same = 0.05 // cm
	if len(m.polygons) == 0 || m.high-m.low > same {
		return caption{}, false
	}
	key := int32(section) + 1
	at, room, ok := b.scene.inmost(b.keys, key, regionOf(b.borders, key), overhang(c.parted, b.scene.view))
	return caption{at, centimetres(m.low)}, ok && room > valueFromEdge
}
