package draw

import (
	"plait/internal/path"
	"plait/internal/silhouette"
	"plait/internal/strand"
)

// Shape returns the shape that the hair makes when it has fallen, in a view, as an SVG
// picture whose ids start with id: over the mannequin, with strands, the perimeter,
// the weight line of a graduation, and the hair before the cut where its length is
// known.
func (c *Cuts) Shape(v View, id string) []byte {
	s := &shape{view: v, size: c.fallen.Plan.Head.Size(), box: v.Canvas()}
	far, near := s.split(c.fallen.Strands)
	behind, front := s.outline(far, fallen), s.outline(near, fallen)
	s.hold(behind)
	s.hold(front)
	weight, names := s.weight(c.fallen)
	art := Mannequin(c.fallen.Plan.Head, v)
	ghost, ghostEdge := s.ghost(c.fallen)
	return c.picture(v, id, "as it falls", c.facts(), s.box,
		element(`class="z" fill="`+ghostFill+`" stroke="none" fill-rule="evenodd"`, ghost),
		haired(s.data(behind)), art.Body, art.Outline, art.Over,
		element(`class="d" stroke="#8a7d72" stroke-width="1.2" stroke-dasharray="5 4"`, ghostEdge),
		haired(s.data(front)),
		element(`class="s" stroke="`+hairInk+`" stroke-width=".8"`, s.lines(near)),
		element(`class="m" stroke="`+endsRed+`" stroke-width="3"`, c.perimeter(s, front, near)),
		weight, captions(names, float64(captionHeight*v.larger(s.box))))
}

// ghostShown is the room in pixels for hair before the cut below all else.
const ghostShown = 50

// ghost returns the path data of the hair before the cut, and of its outline. How long
// it was does not matter here, so it runs out of the picture.
func (s *shape) ghost(f *silhouette.Fallen) (area, edge string) {
	if f.Before <= f.Longest {
		return "", ""
	}
	var a, e path.Data
	bottom := s.box.Max.Y + ghostShown
	lowest := 0.0
	for _, loop := range s.outline(f.Strands, before) {
		points := s.view.onPage(loop, s.size)
		var run []path.Point
		for i, p := range points {
			lowest = max(lowest, min(p.Y+margin, bottom))
			if p.Y < bottom {
				run = append(run, p)
			} else if len(run) > 0 {
				e.Add(path.Fit(run, path.Coarse))
				run = nil
			}
			points[i].Y = min(p.Y, bottom)
		}
		e.Add(path.Fit(run, path.Coarse))
		a.Add(path.Fit(points, path.Coarse))
		a.Close()
	}
	s.box.Max.Y = max(s.box.Max.Y, lowest)
	return a.String(), e.String()
}

func before(s strand.Strand) strand.Path { return s.Before }

func haired(data string) string {
	return element(`class="y" fill="`+hairFill+`" stroke-width="2.2" fill-rule="evenodd"`, data)
}

// shape is a drawing of fallen hair in the making.
type shape struct {
	view View
	size float64
	box  Box
}

// split parts the strands on the far side of head and neck from the others.
func (s *shape) split(strands []strand.Strand) (far, near []strand.Strand) {
	for _, one := range strands {
		if s.view.near(one) {
			near = append(near, one)
		} else {
			far = append(far, one)
		}
	}
	return far, near
}

// outline returns the outline of strands on the page.
func (s *shape) outline(strands []strand.Strand, way func(strand.Strand) strand.Path) [][]silhouette.Point {
	return silhouette.Outline(silhouette.Of(s.view.looks(), strands, way))
}

// hold makes room for an outline.
func (s *shape) hold(outline [][]silhouette.Point) {
	for _, loop := range outline {
		for _, p := range s.view.onPage(loop, s.size) {
			s.box = s.box.Holding(p, margin)
		}
	}
}

// data returns the path data of an outline.
func (s *shape) data(outline [][]silhouette.Point) string {
	var d path.Data
	for _, loop := range outline {
		d.Add(path.Fit(s.view.onPage(loop, s.size), path.Coarse))
		d.Close()
	}
	return d.String()
}

// lines returns the path data of the strands that can be told apart.
func (s *shape) lines(strands []strand.Strand) string {
	var d path.Data
	for _, l := range silhouette.Visible(silhouette.Of(s.view.looks(), strands, fallen)) {
		d.Add(path.Fit(s.view.onPage(l.Points, s.size), path.Coarse))
	}
	return d.String()
}

// perimeter returns the path data of the perimeter line: along the outline where hair
// of the hairline ends that belongs to this side of the head, and all hair that is cut
// to one level.
func (c *Cuts) perimeter(s *shape, outline [][]silhouette.Point, strands []strand.Strand) string {
	var ends []silhouette.Point
	for _, one := range strands {
		if one.Cut && (c.level(one) || one.Edge && s.view.shows(silhouette.ZoneOf(one.Root))) {
			ends = append(ends, s.view.looks().Of(one.Path.End()))
		}
	}
	var d path.Data
	for _, part := range silhouette.Hem(outline, ends) {
		d.Add(path.Fit(s.view.onPage(part, s.size), path.Coarse))
	}
	return d.String()
}

// shows tells whether a zone of the perimeter runs across the view.
func (v View) shows(z silhouette.Zone) bool {
	switch v {
	case Front:
		return z == silhouette.FaceFrame
	case Back:
		return z == silhouette.Nape
	}
	return true
}

// weight draws the weight line of a graduation across the ends that make it, in
// profile and from behind.
func (s *shape) weight(f *silhouette.Fallen) (line string, names []caption) {
	if !f.Weighted || s.view == Front {
		return "", nil
	}
	left, right, found := s.ends(f.Strands, f.Weight.Z)
	if !found {
		return "", nil
	}
	height := f.Weight.Z / s.size
	const beside = 1.2 // cm
	from, to := s.view.Place(left-beside, height), s.view.Place(right+beside, height)
	at := to.Add(path.Point{X: weightAway})
	s.box = s.box.Holding(at, weightAway+margin)
	line = element(`class="d" stroke="`+levelTint+`" stroke-width="1.6" stroke-dasharray="7 4"`, path.Line(path.Polyline(from, to)))
	return line, []caption{{at, "weight"}}
}

// weightAway is the distance in pixels of its name from the end of the weight line.
const weightAway = 46.0

// ends returns how far the ends near a height reach to both sides, in cm of the
// reference head.
func (s *shape) ends(strands []strand.Strand, z float64) (left, right float64, found bool) {
	const about = 0.5
	for _, one := range strands {
		end := one.Path.End()
		if end.Z < z-about || end.Z > z+about {
			continue
		}
		x := end.Dot(frames[s.view].right) / s.size
		if !found {
			left, right, found = x, x, true
		}
		left, right = min(left, x), max(right, x)
	}
	return left, right, found
}
