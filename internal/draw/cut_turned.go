package draw

import (
	"slices"

	"plait/internal/geom"
	"plait/internal/head"
	"plait/internal/path"
	"plait/internal/strand"
)

// turned shows over-direction on one strand of each cut that has it, where the head
// faces the viewer: the strand as it would be held without, broken, the strand as it is
// held, and a curved arrow from the one to the other. What turns toward the viewer
// cannot be seen and is left to the words.
func (c *Cuts) turned(d *liftedLines, b bald) {
	var shown []strand.Cut
	for section, cut := range c.fallen.Cuts {
		if cut.Guide == nil || !d.view.sees(cut.Lift.Toward) || slices.ContainsFunc(shown, func(s strand.Cut) bool { return sameCut(s, cut) }) {
			continue
		}
		root, ok := c.facing(b, section, d.view)
		if !ok {
			continue
		}
		held, err := cut.Guide.Hold(c.fallen.Plan.Head, root, cut.Lift)
		if err == nil && len(held.Path) == 2 && d.turn(root, cut.Lift, held) {
			shown = append(shown, cut)
		}
	}
}

// sees tells whether the side that strands are over-directed to lies to the left or
// right in the view, and not before the viewer or behind.
func (v View) sees(side strand.Toward) bool {
	switch side {
	case strand.TowardFront, strand.TowardBack:
		return v == Left || v == Right
	case strand.TowardLeft, strand.TowardRight:
		return v == Back || v == Front
	}
	return false
}

// facing returns the middle of what is seen of a section; ok is false where it is not
// cut there, or the head turns away from the viewer.
func (c *Cuts) facing(b bald, section int, v View) (root head.Point, ok bool) {
	var sum geom.Vec3
	mesh, h := c.fallen.Plan.Mesh, c.fallen.Plan.Head
	for i, k := range b.keys {
		if int(k) != section+1 {
			continue
		}
		p := mesh.Points[mesh.Polygons[i].Corners[0]]
		seen := float64(mesh.Polygons[i].Area() * max(0, p.N.Dot(v.Toward())))
		sum = sum.Add(p.P.Sub(h.Centre()).Scale(seen))
	}
	if sum.Len() == 0 {
		return head.Point{}, false
	}
	root = head.At(h, sum.Unit())
	if c.fallen.Plan.SectionAt(root) != section || root.N.Dot(v.Toward()) < leastFacing {
		return root, false
	}
	_, err := c.fallen.Length(section, root)
	return root, err == nil
}

// leastFacing is how squarely, as a cosine, the head must face the viewer for a turn
// about its normal to be seen.
const leastFacing = 0.6

// Where the arrow of over-direction is drawn along the strand, how many points it has,
// and the pixels it must be long to be seen.
const (
	turnShare = 0.7
	turnSteps = 12
	leastTurn = 24.0
)

// turn draws the over-direction of one strand; it is false where that cannot be seen.
func (d *liftedLines) turn(root head.Point, l strand.Lift, held strand.Held) bool {
	length := held.Path.Len()
	at := func(share, along float64) path.Point {
		by := l
		by.By = float64(l.By * share)
		return d.view.Project(root.P.Add(by.Direction(root).Scale(float64(length*along))), d.size)
	}
	var arc []path.Point
	for k := range turnSteps + 1 {
		arc = append(arc, at(float64(k)/turnSteps, turnShare))
	}
	if lengthOf(arc) < leastTurn {
		return false
	}
	for _, p := range arc {
		d.box = d.box.Holding(p, margin)
	}
	foot, before := d.at(root.P), at(0, 1)
	d.box = d.box.Holding(before, margin)
	d.broken.Add(path.Polyline(foot, before))
	strand := d.on(held.Path)
	d.strands.Add(path.Polyline(strand...))
	d.bar(strand[1], held.Fingers)
	tip := arc[turnSteps]
	d.arcs.Add(path.Fit(shortened(arc, lineShorter), path.Medium))
	d.heads.Add(arrowHead(tip, tip.Sub(back(arc, headLong)).Unit()))
	d.heads.Close()
	beside := at(0.5, 1)
	d.box = d.box.Holding(beside, float64(3*margin))
	d.captions = append(d.captions, caption{beside, degrees(l.By)})
	return true
}
