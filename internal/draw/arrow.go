package draw

import (
	"plait/internal/geom"
	"plait/internal/head"
	"plait/internal/path"
	"plait/internal/scalp"
	"plait/internal/strand"
)

// Run is the direction in which product is applied or hair is combed, along the head.
type Run string

// The directions.
const (
	Down       Run = "down"
	Up         Run = "up"
	TowardFace Run = "toward face"
	TowardBack Run = "toward back"
)

// Arrow shows the direction of work on a section.
type Arrow struct {
	Section int // index in the plan
	Run     Run
}

// direction returns the way a run goes at a point of the head, a unit vector; ok is
// false where it leads straight in or out.
func (r Run) direction(p head.Point) (d geom.Vec3, ok bool) {
	switch r {
	case Down:
		d = strand.Down(p)
	case Up:
		d = strand.Down(p).Neg()
	case TowardFace:
		d = forward
	case TowardBack:
		d = forward.Neg()
	}
	d = d.Across(p.N)
	return d.Unit(), d.Len() > 0.2
}

// Sizes of an arrow: reach on the head to each side of its middle and lift off it in
// cm, and the rest in pixels.
const (
	arrowReach   = 2.2
	arrowPace    = 0.2
	arrowLift    = 0.25
	arrowShort   = 24.0 // below this it is not drawn
	arrowClear   = 8.0  // from the border of the section
	numberClear  = 19.0 // from a number
	headLong     = 14.0
	headHalfWide = 6.0
	headNotch    = 3.0
	lineShorter  = 11.0
)

// arrows draws the arrows of the sections that are seen.
func (d *Drawings) arrows(s *scene, keys []int32, borders []border, labels []label) string {
	var under, lines, heads path.Data
	for _, a := range d.sheet.Arrows {
		points := s.route(d.sheet.Plan, keys, regionOf(borders, int32(a.Section)+1), a, labels)
		if len(points) < 3 {
			continue
		}
		tip := points[len(points)-1]
		line := path.Fit(shortened(points, lineShorter), path.Medium)
		under.Add(line)
		lines.Add(line)
		heads.Add(arrowHead(tip, tip.Sub(back(points, headLong)).Unit()))
		heads.Close()
	}
	return element(`class="u" stroke="#fff" stroke-width="6"`, under.String()) +
		element(`class="w" stroke="`+arrowRed+`" stroke-width="2.6"`, lines.String()) +
		element(`class="w v" fill="`+arrowRed+`" stroke="#fff" stroke-width=".8"`, heads.String())
}

// route finds where the arrow of a section is best drawn: where it is long, near the
// section's number and not over it.
func (s *scene) route(plan *scalp.Plan, keys []int32, r region, a Arrow, labels []label) []path.Point {
	middle := middleOf(r)
	for _, l := range labels {
		if l.section == a.Section && !l.leader {
			middle = l.at
		}
	}
	var best []path.Point
	most, count := 0.0, 0
	const every = 23
	for i, k := range keys {
		if k != int32(a.Section)+1 {
			continue
		}
		if count++; count%every != 1 {
			continue
		}
		points := s.track(plan.Head, r, a.Run, s.mesh.Points[s.mesh.Polygons[i].Corners[0]], labels)
		length := lengthOf(points)
		if length < arrowShort {
			continue
		}
		score := length - float64(awayCosts*points[len(points)/2].Dist(middle))
		if best == nil || score > most {
			best, most = points, score
		}
	}
	return best
}

// awayCosts is how much length a pixel further from the number is worth.
const awayCosts = 0.6

// middleOf returns the middle of the points round a region.
func middleOf(r region) path.Point {
	var sum path.Point
	n := 0
	for _, line := range r.lines {
		for _, p := range line {
			sum, n = sum.Add(p), n+1
		}
	}
	return sum.Scale(1 / float64(max(n, 1)))
}

// track follows a run from a point both ways while it stays clear of borders and
// numbers.
func (s *scene) track(h *head.Head, r region, run Run, from head.Point, labels []label) []path.Point {
	behind := s.march(h, r, run, from, -1, labels)
	points := make([]path.Point, 0, int(2*len(behind))+1)
	for i := len(behind) - 1; i >= 0; i-- {
		points = append(points, behind[i])
	}
	return append(points, s.march(h, r, run, from, 1, labels)...)
}

func (s *scene) march(h *head.Head, r region, run Run, at head.Point, sign float64, labels []label) []path.Point {
	var points []path.Point
	for step := range int(arrowReach/arrowPace) + 1 {
		p := s.view.Project(at.P.Add(at.N.Scale(float64(arrowLift*s.size))), s.size)
		if !r.contains(p) || r.margin(p, arrowClear) < arrowClear || nearNumber(p, labels) {
			return points
		}
		if step > 0 || sign > 0 {
			points = append(points, p)
		}
		d, ok := run.direction(at)
		if !ok {
			return points
		}
		at = head.Toward(h, at.P.Add(d.Scale(float64(sign*arrowPace*s.size))))
	}
	return points
}

func nearNumber(p path.Point, labels []label) bool {
	for _, l := range labels {
		if !l.leader && p.Dist(l.at) < numberClear {
			return true
		}
	}
	return false
}

func lengthOf(points []path.Point) float64 {
	total := 0.0
	for i := 1; i < len(points); i++ {
		total += points[i].Dist(points[i-1])
	}
	return total
}

// back returns the point a distance before the end of a line.
func back(points []path.Point, distance float64) path.Point {
	short := shortened(points, distance)
	return short[len(short)-1]
}

// shortened returns a line without its last pixels.
func shortened(points []path.Point, by float64) []path.Point {
	for i := len(points) - 1; i > 0; i-- {
		d := points[i].Dist(points[i-1])
		if d > by {
			short := append([]path.Point(nil), points[:i]...)
			return append(short, points[i].Mix(points[i-1], by/d))
		}
		by -= d
	}
	return points[:1]
}

// arrowHead returns the notched head of an arrow.
func arrowHead(tip, direction path.Point) path.Chain {
	foot := tip.Sub(direction.Scale(headLong))
	across := direction.Normal().Scale(headHalfWide)
	return path.Polyline(tip, foot.Add(across), foot.Add(direction.Scale(headNotch)), foot.Sub(across))
}
