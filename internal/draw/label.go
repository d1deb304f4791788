package draw

import (
	"fmt"
	"math"
	"strings"

	"plait/internal/geom"
	"plait/internal/path"
)

// Heights of numbers in pixels. On a page a head is drawn at about half its size.
const (
	largeNumber = 21.0
	smallNumber = 14.0
)

// roomFor returns the room in pixels that a number needs around its middle: half the
// diagonal of its box, a little of which may be empty.
func roomFor(text string, height float64) float64 {
	wide, high := float64(0.56*height*float64(len(text))), float64(0.72*height)
	return math.Sqrt(float64(wide*wide)+float64(high*high))/2 + 1
}

// A section of which less than this can be seen, in square pixels, is neither numbered
// nor named in the view.
const leastSeen = 30

// label is a number and where it stands. From is where a leader line starts.
type label struct {
	section int
	text    string
	at      path.Point
	small   bool
	leader  bool
	from    path.Point
}

// labels finds a place for the number of each section that is seen.
func (d *Drawings) labels(s *scene, keys []int32, borders []border) []label {
	blocked := overhang(d, s.view)
	var list []label
	for i, section := range d.sheet.Sections {
		if section.Number == 0 {
			continue
		}
		r := regionOf(borders, int32(i)+1)
		at, room, ok := s.inmost(keys, int32(i)+1, r, blocked)
		if !ok {
			continue
		}
		l := label{section: i, text: fmt.Sprint(section.Number), at: at}
		switch {
		case room >= roomFor(l.text, largeNumber):
		case room >= roomFor(l.text, smallNumber):
			l.small = true
		default:
			l.leader, l.from, l.small = true, at, true
			l.at = outside(s, contour(d.sheet.Plan.Head, s.view), at, list)
		}
		list = append(list, l)
	}
	return list
}

// overhang is what lies over the hair: the ear in profile.
func overhang(d *Drawings, v View) region {
	if !hasFace(d.sheet.Plan.Head) || v != Left && v != Right {
		return region{}
	}
	ear := profileEar.on(v)
	return region{lines: [][]path.Point{append(ear, ear[0])}}
}

// inmost returns a point deep inside a section and how far from its border it lies: of
// the points with nearly the most room the one nearest to the section's middle. Every
// third polygon is looked at. ok is false where hardly anything of the section is seen.
func (s *scene) inmost(keys []int32, key int32, r, blocked region) (at path.Point, room float64, ok bool) {
	const every = 3
	type candidate struct {
		at   path.Point
		room float64
	}
	var candidates []candidate
	var middle path.Point
	seen, most, count := 0.0, 0.0, 0
	for i, k := range keys {
		if k != key {
			continue
		}
		corners := s.mesh.Polygons[i].Corners
		p, extent := s.points[corners[0]], s.extent(corners)
		seen += extent
		middle = middle.Add(p.Scale(extent))
		if count++; count%every != 1 || blocked.contains(p) {
			continue
		}
		m := min(r.margin(p, ample), blocked.margin(p, ample))
		candidates = append(candidates, candidate{p, m})
		most = max(most, m)
	}
	if seen < leastSeen || most == 0 {
		return path.Point{}, 0, false
	}
	middle = middle.Scale(1 / seen)
	if r.contains(middle) && !blocked.contains(middle) {
		candidates = append(candidates, candidate{middle, min(r.margin(middle, ample), blocked.margin(middle, ample))})
	}
	nearest := math.Inf(1)
	for _, c := range candidates {
		if d := c.at.Dist(middle); c.room >= float64(nearlyMost*most) && d < nearest {
			at, room, nearest = c.at, c.room, d
		}
	}
	return at, room, true
}

// ample is the room in pixels beyond which more makes no difference; nearlyMost the
// share of the most room that a point must have.
const (
	ample      = 30
	nearlyMost = 0.85
)

// extent returns the area of a polygon on the page.
func (s *scene) extent(corners []int32) float64 {
	twice := 0.0
	first := s.points[corners[0]]
	for k := 2; k < len(corners); k++ {
		a, b := s.points[corners[k-1]].Sub(first), s.points[corners[k]].Sub(first)
		twice += math.Abs(float64(a.X*b.Y) - float64(a.Y*b.X))
	}
	return twice / 2
}

// How labels outside the head are set, in pixels: from the outline, from each other
// and from the edge of the canvas.
const (
	clearOfHead  = 18.0
	clearOfLabel = 23.0
	clearOfEdge  = 12.0
)

// outside returns a free place outside the head for the number of a section: straight
// out from the middle of the head, or turned from there as little as need be.
func outside(s *scene, skull []path.Point, from path.Point, others []label) path.Point {
	middle := s.view.Project(geom.Vec3{X: -1.2, Z: 3}, 1)
	out := from.Sub(middle).Unit()
	if out == (path.Point{}) {
		out = path.Point{Y: -1}
	}
	head := region{lines: [][]path.Point{append(append([]path.Point(nil), skull...), skull[0])}}
	best, most := from, -1.0
	for turn := range 24 {
		angle := geom.Degrees(float64((turn + 1) / 2 * 8))
		if turn%2 == 1 {
			angle = -angle
		}
		p := leave(s.view, head, from, rotated(out, angle))
		free := math.Inf(1)
		for _, o := range others {
			free = min(free, p.Dist(o.at))
		}
		if free >= clearOfLabel {
			return p
		}
		if free > most {
			best, most = p, free
		}
	}
	return best
}

// leave walks from a point out of the head until it is clear, or to the edge of the
// canvas.
func leave(v View, head region, from, direction path.Point) path.Point {
	const pace = 3
	box := v.Canvas()
	p := from
	for head.contains(p) || head.margin(p, float64(2*clearOfHead)) < clearOfHead {
		next := p.Add(direction.Scale(pace))
		if next.X < clearOfEdge || next.Y < clearOfEdge || next.X > box.Max.X-clearOfEdge || next.Y > box.Max.Y-clearOfEdge {
			return p
		}
		p = next
	}
	return p
}

func rotated(d path.Point, angle float64) path.Point {
	sin, cos := geom.Sincos(angle)
	return path.Point{X: float64(d.X*cos) - float64(d.Y*sin), Y: float64(d.X*sin) + float64(d.Y*cos)}
}

// marks returns arrows, leader lines and numbers.
func (d *Drawings) marks(s *scene, keys []int32, borders []border) string {
	labels := d.labels(s, keys, borders)
	return d.arrows(s, keys, borders, labels) + leaders(labels) + numbers(labels, false) + numbers(labels, true)
}

func leaders(labels []label) string {
	var d path.Data
	for _, l := range labels {
		if l.leader {
			short := l.at.Sub(l.at.Sub(l.from).Unit().Scale(11))
			d.Add(path.Polyline(l.from, short))
		}
	}
	return element(`class="l" stroke-width=".9"`, d.String())
}

// numbers writes the large numbers or the small ones.
func numbers(labels []label, small bool) string {
	size := largeNumber
	if small {
		size = smallNumber
	}
	drop := float64(0.355 * size) // from the middle of a figure to its foot
	var b strings.Builder
	for _, l := range labels {
		if l.small == small {
			at := path.Grid(l.at.Add(path.Point{Y: drop}))
			fmt.Fprintf(&b, `<text x="%s" y="%s">%s</text>`, path.Decimal(at.X), path.Decimal(at.Y), l.text)
		}
	}
	if b.Len() == 0 {
		return ""
	}
	return `<g class="n" fill="` + ink + `" stroke="#fff" stroke-width="5" paint-order="stroke" text-anchor="middle" ` +
		`font-family="Helvetica,Arial,sans-serif" font-weight="600" font-size="` + fmt.Sprint(size) + `">` + b.String() + `</g>`
}
