package draw

import (
	"math"
	"reflect"

	"plait/internal/geom"
	"plait/internal/head"
	"plait/internal/path"
	"plait/internal/silhouette"
	"plait/internal/strand"
)

// lifted is a strand as it is held for the cut.
type lifted struct {
	root  head.Point
	cut   strand.Cut
	held  strand.Held
	shown bool // drawn, and not only part of the line of ends
}

// How strands along a line of the head are drawn: one about every so many cm, with
// more between them for the line of their ends.
const (
	liftedEvery = 1.9
	endsBetween = 4
	fromHair    = 0.25 // of the first and the last one from the hairline
)

// Lifted returns the strands as they are lifted for the cut in a view, as an SVG
// picture whose ids start with id: along the middle of the head in profile, from ear
// to ear from behind and in front. Their ends make a line, bars show the fingers that
// hold them, one strand shows the angle and another how far it is over-directed.
func (c *Cuts) Lifted(v View, id string) []byte {
	b := c.bald(v)
	d := &liftedLines{view: v, size: c.fallen.Plan.Head.Size(), box: v.Canvas()}
	for _, run := range c.runs(v) {
		d.run(run)
	}
	c.combed(d)
	c.turned(d, b)
	k := v.larger(d.box)
	strands := element(`class="s" stroke-width="`+stroked(1, k)+`"`, d.strands.String())
	over := element(`class="m" stroke="`+endsRed+`" stroke-width="`+stroked(2.2, k)+`"`, d.ends.String()) +
		element(`class="f" stroke-width="`+stroked(3.6, k)+`" stroke-linecap="butt"`, d.fingers.String()) +
		element(`class="g" stroke="`+guideInk+`" stroke-width="`+stroked(2.8, k)+`"`, d.guides.String()) +
		element(`class="g v" fill="`+endsRed+`" stroke="none"`, d.points.String()) +
		element(`class="d" stroke="#555" stroke-width="`+stroked(1.3, k)+`" stroke-dasharray="5 4"`, d.broken.String()) +
		element(`class="w" stroke="`+ink+`" stroke-width="`+stroked(1.6, k)+`"`, d.arcs.String()) +
		element(`class="w v" fill="`+ink+`" stroke="none"`, d.heads.String()) +
		captions(d.captions, float64(captionHeight*k))
	description := "How the hair is lifted for the cut. " +
		c.sections(b, func(i int) string { return guided(c.fallen.Cuts[i]) })
	return c.picture(v, id, "lifted for the cut", description, d.box,
		b.layers.Body, b.layers.Sections, strands, b.layers.Partings, b.layers.Outline, over)
}

// runs returns the strands along a line of the head that are cut alike, one run after
// the other: of the lines where they are seen from the side the first on which a
// whole run is.
func (c *Cuts) runs(v View) [][]lifted {
	var best [][]lifted
	for _, row := range c.rows(v) {
		runs := c.runsOn(v, row)
		if longest(runs) > longest(best) {
			best = runs
		}
		if longest(best) > len(row)/2 {
			break
		}
	}
	return best
}

// sameCut tells whether two sections are cut alike; a guide may hold a list of points.
func sameCut(a, b strand.Cut) bool { return reflect.DeepEqual(a, b) }

func longest(runs [][]lifted) int {
	n := 0
	for _, r := range runs {
		n = max(n, len(r))
	}
	return n
}

func (c *Cuts) runsOn(v View, row []head.Point) [][]lifted {
	var runs [][]lifted
	var run []lifted
	for i, root := range row {
		s, ok := c.lift(v, root)
		s.shown = i%endsBetween == 0
		if len(run) > 0 && (!ok || !sameCut(run[0].cut, s.cut)) {
			runs, run = append(runs, run), nil
		}
		if ok {
			run = append(run, s)
		}
	}
	if len(run) > 0 {
		runs = append(runs, run)
	}
	return runs
}

// lift returns a strand as it is held; ok is false where it is not cut by holding.
func (c *Cuts) lift(v View, root head.Point) (s lifted, ok bool) {
	section := c.sectionAt(v, root)
	cut := c.fallen.Cuts[section]
	_, combed := cut.Guide.(strand.Perimeter)
	if _, err := c.fallen.Length(section, root); err != nil || combed {
		return lifted{}, false
	}
	held, err := cut.Guide.Hold(c.fallen.Plan.Head, root, cut.Lift)
	return lifted{root: root, cut: cut, held: held}, err == nil
}

// rows returns roots along the lines of the head on which lifted strands are seen from
// the side: the first that is cut is drawn.
func (c *Cuts) rows(v View) [][]head.Point {
	h := c.fallen.Plan.Head
	if v == Left || v == Right {
		front, nape := h.HairArc()
		return [][]head.Point{roots(h.Midline(), front, nape)}
	}
	ears, _ := h.Pair("ear top")
	over := h.Over()
	rows := [][]head.Point{roots(over, over.ArcAt(ears[0].P), over.ArcAt(ears[1].P))}
	bone, _ := h.Landmark("occipital bone")
	nape, _ := h.Landmark("nape")
	for _, share := range []float64{0.5, 0.25, 0.75, 0} {
		level := geom.Plane{N: up, D: bone.P.Z + float64(share*(nape.P.Z-bone.P.Z))}
		// Angles are counted from the far side, so that the near one is not cut up.
		if t, ok := head.Section(h, level, v.Toward().Neg()); ok {
			rows = append(rows, withHair(h, v, t))
		}
	}
	return rows
}

// roots returns points along a trace between two arcs, a little inside them.
func roots(t *head.Trace, first, last float64) []head.Point {
	first, last = first+fromHair, last-fromHair
	n := int(endsBetween * max(math.Round((last-first)/liftedEvery), 1))
	points := make([]head.Point, n+1)
	for i := range points {
		points[i] = t.At(first + float64(float64(i)*(last-first))/float64(n))
	}
	return points
}

// withHair returns the roots on the part of a level line that is seen and has hair.
func withHair(h *head.Head, v View, t *head.Trace) []head.Point {
	first, last := math.Inf(1), math.Inf(-1)
	const pace = 0.1
	for arc := 0.0; arc < t.Len(); arc += pace {
		if p := t.At(arc); head.Hair(h, p.U) > 0 && p.N.Dot(v.Toward()) > 0 {
			first, last = min(first, arc), max(last, arc)
		}
	}
	if first >= last {
		return nil
	}
	return roots(t, first, last)
}

// liftedLines are the parts of a lifted drawing.
type liftedLines struct {
	view                                                        View
	size                                                        float64
	box                                                         Box
	strands, guides, ends, fingers, points, broken, arcs, heads path.Data
	captions                                                    []caption
}

// margin is the room in pixels round what is drawn outside the head.
const margin = 14

// on returns a path of space on the page, and makes room for it.
func (d *liftedLines) on(p strand.Path) []path.Point {
	points := make([]path.Point, len(p))
	for i, q := range p {
		points[i] = d.at(q)
	}
	return points
}

func (d *liftedLines) at(p geom.Vec3) path.Point {
	q := d.view.Project(p, d.size)
	d.box = d.box.Holding(q, margin)
	return q
}

// run draws strands that are cut alike.
func (d *liftedLines) run(run []lifted) {
	var ends []path.Point
	for _, s := range run {
		points := d.on(s.held.Path)
		end := points[len(points)-1]
		if n := len(ends); n > 0 && ends[n-1].Dist(end) > torn {
			d.ends.Add(path.Fit(ends, path.Medium))
			ends = nil
		}
		ends = append(ends, end)
		if s.shown {
			d.strands.Add(path.Fit(points, path.Coarse))
			d.bar(end, s.held.Fingers)
		}
	}
	if _, toPoint := run[0].cut.Guide.(strand.Stationary); toPoint {
		d.points.Add(dot(ends[0]))
		d.points.Close()
		return
	}
	d.ends.Add(path.Fit(ends, path.Medium))
	d.guide(run)
	d.angle(run)
}

// torn is the distance in pixels between the ends of neighbouring strands beyond which
// they make no line: on the top of the head hair falls to all sides.
const torn = 60

// guide draws the strands that a travelling guide starts with: those of the run that
// grow at the guide line.
func (d *liftedLines) guide(run []lifted) {
	g, travels := run[0].cut.Guide.(strand.Travelling)
	if !travels {
		return
	}
	for _, s := range []lifted{run[0], run[len(run)-1]} {
		const same = 0.5 // cm
		if length := s.held.Path.Len(); math.Abs(length-g.Start) < same {
			d.guides.Add(path.Polyline(d.on(s.held.Path)...))
		}
	}
}

// Sizes of a finger bar in pixels: its length, and how much of it must be seen when it
// points toward the viewer.
const (
	barLong  = 26.0
	barShort = 9.0
)

// bar draws the fingers at the end of a strand.
func (d *liftedLines) bar(end path.Point, fingers geom.Vec3) {
	half := d.view.Project(fingers.Scale(d.size), d.size).Sub(d.view.Project(geom.Vec3{}, d.size)).Scale(barLong / 2 / PixelsPerCM)
	if half.Len() < barShort/2 {
		return
	}
	d.fingers.Add(path.Polyline(end.Sub(half), end.Add(half)))
}

// dot returns a disc.
func dot(at path.Point) path.Chain {
	const radius, corners = 5.0, 8
	var points []path.Point
	for k := range corners {
		sin, cos := geom.Sincos(geom.Degrees(float64(k) * 360 / corners))
		points = append(points, at.Add(path.Point{X: float64(radius * cos), Y: float64(radius * sin)}))
	}
	return path.Round(points...)
}

// How the angle of a strand is shown, in pixels: the line of natural fall that it
// starts from, the arc to the strand, and the distance of the number. The strand is so
// far along its run, counted from the front.
const (
	fallLong   = 120.0
	arcRadius  = 80.0
	angleAway  = 108.0
	angleShare = 0.7
	leastAngle = 8.0 // degrees that can be shown
)

// angle shows the elevation of one strand of a run: from the line along which hair
// falls by itself there, on the head or from the floor.
func (d *liftedLines) angle(run []lifted) {
	if len(run) < endsBetween || geom.InDegrees(run[0].cut.Lift.Elevation) < leastAngle {
		return
	}
	i := int(math.Round(float64(float64(len(run)-1) * angleShare)))
	s := run[i-i%endsBetween]
	if len(s.held.Path) != 2 {
		return
	}
	fall := strand.Down(s.root)
	if s.cut.Lift.FromFloor {
		fall = up.Neg()
	}
	from, root := d.flat(fall), d.at(s.root.P)
	along := d.flat(s.cut.Lift.Direction(s.root))
	if from.Len() < 0.5 || along.Len() < 0.5 {
		return // it points toward the viewer
	}
	d.broken.Add(path.Polyline(root, root.Add(from.Unit().Scale(fallLong))))
	arc := turn(root, from.Unit(), along.Unit(), arcRadius)
	tip := arc[len(arc)-1]
	d.arcs.Add(path.Fit(shortened(arc, lineShorter), path.Medium))
	d.heads.Add(arrowHead(tip, tip.Sub(back(arc, headLong)).Unit()))
	d.heads.Close()
	middle := arc[len(arc)/2].Sub(root).Unit()
	at := root.Add(middle.Scale(angleAway))
	d.box = d.box.Holding(at, float64(3*margin))
	d.captions = append(d.captions, caption{at, degrees(s.cut.Lift.Elevation)})
}

// flat returns a direction of space on the page, of length 1 where it is seen in full.
func (d *liftedLines) flat(v geom.Vec3) path.Point {
	return d.view.Project(v, 1).Sub(d.view.Project(geom.Vec3{}, 1)).Scale(1.0 / PixelsPerCM)
}

// turn returns an arc round a point from one direction to another, the shorter way.
func turn(round, from, to path.Point, radius float64) []path.Point {
	angle := geom.Atan2(from.Normal().Dot(to), from.Dot(to))
	const steps = 24
	points := make([]path.Point, steps+1)
	for k := range points {
		points[k] = round.Add(rotated(from, float64(angle*float64(k))/steps).Scale(radius))
	}
	return points
}

// combed draws the hair that is cut in natural fall: strands as they hang, and the
// level line of their ends with the fingers along it.
func (c *Cuts) combed(d *liftedLines) {
	var hanging []strand.Strand
	for _, s := range c.fallen.Strands {
		if s.Cut && c.level(s) && d.view.near(s) {
			hanging = append(hanging, s)
		}
	}
	if len(hanging) == 0 {
		return
	}
	lines := silhouette.Of(d.view.looks(), hanging, fallen)
	for _, l := range silhouette.Visible(lines) {
		d.strands.Add(path.Fit(d.view.onPage(l.Points, d.size), path.Coarse))
	}
	first := d.at(hanging[0].Path.End())
	left, right := first, first
	for _, s := range hanging {
		end := d.at(s.Path.End())
		if end.X < left.X {
			left = end
		}
		if end.X > right.X {
			right = end
		}
	}
	d.ends.Add(path.Polyline(left, right))
	bars := max(int(left.Dist(right)/barEvery), 1)
	for k := range bars {
		d.bar(left.Mix(right, (float64(k)+0.5)/float64(bars)), frames[d.view].right)
	}
}

// level tells whether a strand is cut to a level in natural fall.
func (c *Cuts) level(s strand.Strand) bool {
	_, ok := c.fallen.Cuts[s.Section].Guide.(strand.Perimeter)
	return ok
}

// barEvery is the distance in pixels between the bars on a level line.
const barEvery = 75

func fallen(s strand.Strand) strand.Path { return s.Path }
