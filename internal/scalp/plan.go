package scalp

import (
	"math"

	"plait/internal/head"
)

// Step is one parting of a plan. Steps are taken one after the other; each parts
// what is there by then.
type Step struct {
	Part   Parting
	Of     []string // sections to part; none means all
	Gives  []string // names of the parts; none means those of the kind
	Zigzag Zigzag
	Pieces int // how many pieces each part may be in; 0 means one
}

// Whole is the name of the scalp before any parting.
const Whole = "scalp"

// Section is a named part of the scalp.
type Section struct {
	Name   string
	Step   int     // index of the step that made it; −1 for the whole scalp
	Area   float64 // cm²
	Share  float64 // of the scalp, 0 to 1; all shares add up to 1
	Border float64 // length of its border in cm
	Pieces int     // how many separate pieces it is in
	Width  float64 // of a slice, on the line that slices are counted along, in cm
	Foil   bool    // a slice that goes into foil
	Weave  int     // strands woven out of it; 0 where it is taken whole

	id int // of its polygons while the plan is made
}

// Lifted returns the area in cm² that goes into foil: the slice, or half of it
// where strands as wide as their gaps are woven out (modelled).
func (s Section) Lifted() float64 {
	switch {
	case !s.Foil:
		return 0
	case s.Weave > 0:
		return s.Area / 2
	}
	return s.Area
}

// MeanHalfWidth returns the area divided by the border, in cm. In a convex section
// it lies between half the radius of the largest circle that fits and that radius;
// in a long strip it is half the width.
func (s Section) MeanHalfWidth() float64 { return s.Area / s.Border }

// Sections below these are warned of as slivers: they cannot be clipped away
// cleanly (common practice, no source).
const (
	leastArea      = 1.0  // cm²
	leastHalfWidth = 0.25 // cm
)

// Bounds of a plan.
const (
	mostSections = 200
	mostCuts     = 400
)

// coverTolerance is how far the areas of all sections may be from the scalp, as a
// share of it. Cutting loses nothing, but areas are integrated over other polygons
// than before. A polygon that was lost would be a hundred times as large.
const coverTolerance = 1e-6

// Plan is a parted scalp. It is never changed once made.
type Plan struct {
	Head     *head.Head
	Mesh     *Mesh     // the Section of its polygons is an index of Sections
	Sections []Section // parts stand where their parent stood
	Area     float64   // of the scalp in cm²
	Warnings []*Problem
}

// Section returns a section by its name.
func (p *Plan) Section(name string) (s Section, ok bool) {
	for _, s := range p.Sections {
		if s.Name == name {
			return s, true
		}
	}
	return Section{}, false
}

// Part parts the scalp step by step. The error is a [*Problem] of the first step
// that cannot be taken.
func (b *Base) Part(steps []Step) (*Plan, error) {
	w := &work{
		base:     b,
		mesh:     b.mesh.clone(),
		sections: []Section{{Name: Whole, Step: -1, Area: b.total}},
	}
	for i, step := range steps {
		if bad := w.take(i, step); bad != nil {
			bad.Step, bad.Parting = i, step.Part.Kind()
			return nil, bad
		}
	}
	return w.finish(steps), nil
}

// work is a plan in the making.
type work struct {
	base     *Base
	mesh     *Mesh
	sections []Section
	lastID   int
	cuts     int
}

// take takes one step.
func (w *work) take(index int, step Step) *Problem {
	parents, bad := w.parents(step.Of)
	if bad != nil {
		return bad
	}
	site := &site{head: w.base.head, mesh: w.mesh, parents: func(id int) bool { return parents[id] }}
	d, bad := step.Part.divide(site)
	if bad != nil {
		return bad
	}
	if len(step.Gives) > 0 {
		if len(step.Gives) != len(d.names) {
			return &Problem{Code: WrongNames, Value: float64(len(step.Gives)), Least: float64(len(d.names))}
		}
		d.names = step.Gives
	}
	if d.names[0] == "" {
		return &Problem{Code: WrongNames, Least: float64(len(d.names))}
	}
	if step.Zigzag != (Zigzag{}) {
		if bad := site.bend(&d, step.Zigzag); bad != nil {
			return bad
		}
		w.cuts += int(2*step.Zigzag.Teeth) + 1
	}
	if w.cuts += len(d.fields); w.cuts > mostCuts {
		return &Problem{Code: TooMany, What: "cuts", Value: float64(w.cuts), Most: mostCuts}
	}
	return w.divide(index, d, parents)
}

// parents returns the ids of the sections with the given names, all where there
// are none.
func (w *work) parents(names []string) (map[int]bool, *Problem) {
	parents := make(map[int]bool)
	var known []string
	for _, s := range w.sections {
		known = append(known, s.Name)
		if len(names) == 0 {
			parents[s.id] = true
		}
	}
	for _, name := range names {
		found := false
		for _, s := range w.sections {
			if s.Name == name {
				found, parents[s.id] = true, true
			}
		}
		if !found {
			return nil, &Problem{Code: UnknownSection, Section: name, Known: known}
		}
	}
	return parents, nil
}

// divide cuts the net, gives each polygon of the parents its part, and puts the
// parts in the place of the parents.
func (w *work) divide(index int, d division, parents map[int]bool) *Problem {
	values, ok := w.mesh.cutAll(d.fields)
	if !ok {
		return &Problem{Code: TooMany, What: "polygons", Value: float64(len(w.mesh.Polygons)), Most: mostSplits}
	}
	parts := w.partsOf(d, values, parents)
	w.mesh.measure()

	prefixed := len(parents) > 1
	filled := make([]bool, len(d.names))
	var sections []Section
	for _, parent := range w.sections {
		if !parents[parent.id] {
			sections = append(sections, parent)
			continue
		}
		areas, bad := w.areas(d, parent, parts)
		if bad != nil {
			return bad
		}
		if misses(d, areas) {
			return &Problem{Code: Misses, Section: parent.Name, Value: w.distance(d, values, parent.id)}
		}
		children := w.children(index, d, parent, areas, parts)
		for part, area := range areas {
			filled[part] = filled[part] || area >= leastPart
		}
		for _, child := range children {
			if prefixed {
				child.Name = parent.Name + " " + child.Name
			}
			sections = append(sections, child)
		}
	}
	for part, ok := range filled {
		if !ok {
			return &Problem{Code: Empty, Section: d.names[part]}
		}
	}
	if len(sections) > mostSections {
		return &Problem{Code: TooMany, What: "sections", Value: float64(len(sections)), Most: mostSections}
	}
	w.sections = sections
	if bad := w.distinct(); bad != nil {
		return bad
	}
	return w.covered()
}

// partsOf returns the part of each polygon that belongs to a parent.
func (w *work) partsOf(d division, values [][]float64, parents map[int]bool) []int {
	parts := make([]int, len(w.mesh.Polygons))
	sums := make([]float64, len(d.fields))
	for i, p := range w.mesh.Polygons {
		if p.Section == Skin || !parents[p.Section] {
			continue
		}
		for k := range d.fields {
			sums[k] = sum(values[k], p.Corners)
		}
		parts[i] = d.partOf(sums)
	}
	return parts
}

// leastPart is the area in cm² below which a part counts as missed.
const leastPart = 0.05

// areas returns the areas of the parts of one section.
func (w *work) areas(d division, parent Section, parts []int) ([]float64, *Problem) {
	areas := make([]float64, len(d.names))
	for i, p := range w.mesh.Polygons {
		if p.Section != parent.id {
			continue
		}
		if parts[i] == crossed && p.area > dust {
			return nil, &Problem{Code: SlicesCross, Section: parent.Name}
		}
		// Where lines meet, a polygon without area can have no side of its own.
		parts[i] = max(parts[i], 0)
		areas[parts[i]] += p.area
	}
	return areas, nil
}

// misses tells whether the lines leave a section in one part, save for what nobody
// would see. A family of lines need not part every section in all its parts.
func misses(d division, areas []float64) bool {
	parts := 0
	for _, area := range areas {
		if area >= leastPart {
			parts++
		}
	}
	return parts < 2
}

// children makes the parts of one section and gives them their polygons. Where a
// family of lines only touches a section, what it cuts off stays with the next
// part.
func (w *work) children(index int, d division, parent Section, areas []float64, parts []int) []Section {
	target := absorb(areas)
	ids := make([]int, len(areas))
	var children []Section
	for part, area := range areas {
		if target[part] != part {
			continue
		}
		w.lastID++
		ids[part] = w.lastID
		child := Section{
			Name: d.names[part], Step: index, Area: area,
			Width: d.width, Foil: d.foil.takes(part), id: w.lastID,
		}
		if child.Foil {
			child.Weave = d.foil.Weave
		}
		children = append(children, child)
	}
	for i := range w.mesh.Polygons {
		if p := &w.mesh.Polygons[i]; p.Section == parent.id {
			p.Section = ids[target[parts[i]]]
		}
	}
	return children
}

// absorb adds each area that is too small to the nearest one that is not, and
// returns where each went.
func absorb(areas []float64) []int {
	target := make([]int, len(areas))
	for part, area := range areas {
		target[part] = part
		if area >= leastPart {
			continue
		}
		for step := 1; step < len(areas) && target[part] == part; step++ {
			for _, near := range []int{part - step, part + step} {
				if near >= 0 && near < len(areas) && areas[near] >= leastPart {
					target[part] = near
					break
				}
			}
		}
	}
	for part, to := range target {
		if to != part {
			areas[to] += areas[part]
			areas[part] = 0
		}
	}
	return target
}

// distance returns how far the lines of a division are from a section, in cm.
func (w *work) distance(d division, values [][]float64, id int) float64 {
	nearest := math.Inf(1)
	at := make([]float64, len(d.fields))
	for _, p := range w.mesh.Polygons {
		if p.Section != id {
			continue
		}
		for _, c := range p.Corners {
			for k := range at {
				at[k] = values[k][c]
			}
			if d.side != nil {
				nearest = min(nearest, math.Abs(d.side(at)))
				continue
			}
			for _, v := range at {
				nearest = min(nearest, math.Abs(v))
			}
		}
	}
	return nearest
}

// distinct tells whether all sections have names of their own.
func (w *work) distinct() *Problem {
	seen := make(map[string]bool)
	for _, s := range w.sections {
		if seen[s.Name] {
			return &Problem{Code: NameTaken, Section: s.Name}
		}
		seen[s.Name] = true
	}
	return nil
}

// covered tells whether the sections add up to the scalp.
func (w *work) covered() *Problem {
	total := 0.0
	for _, s := range w.sections {
		total += s.Area
	}
	if math.Abs(total/w.base.total-1) > coverTolerance {
		return &Problem{Code: Broken, Value: total - w.base.total}
	}
	return nil
}

// finish numbers the sections, measures their borders and warns.
func (w *work) finish(steps []Step) *Plan {
	number := make([]int, w.lastID+1)
	total := 0.0
	for i, s := range w.sections {
		number[s.id] = i
		total += s.Area
	}
	for i := range w.sections {
		w.sections[i].Share = w.sections[i].Area / total
	}
	for i := range w.mesh.Polygons {
		if p := &w.mesh.Polygons[i]; p.Section != Skin {
			p.Section = number[p.Section]
		}
	}
	w.mesh.borders(w.sections)
	plan := &Plan{Head: w.base.head, Mesh: w.mesh, Sections: w.sections, Area: w.base.total}
	for _, s := range w.sections {
		if s.Step < 0 {
			continue
		}
		plan.Warnings = append(plan.Warnings, warnings(s, steps[s.Step])...)
	}
	return plan
}

// warnings returns what is odd about a section, though it can be drawn.
func warnings(s Section, made Step) []*Problem {
	var list []*Problem
	warn := func(p Problem) {
		p.Step, p.Parting, p.Section = s.Step, made.Part.Kind(), s.Name
		list = append(list, &p)
	}
	if s.Area < leastArea || s.MeanHalfWidth() < leastHalfWidth {
		warn(Problem{Code: Sliver, Value: s.Area, Least: leastArea})
	}
	if allowed := max(made.Pieces, 1); s.Pieces > allowed {
		warn(Problem{Code: Split, Value: float64(s.Pieces), Most: float64(allowed)})
	}
	return list
}
