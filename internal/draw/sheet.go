// Package draw draws parted heads: from each side, with the outline of the skull and
// a mannequin's face, hairline and partings, sections in tints and hatching that
// follow the form, numbers in the order of work and arrows of application.
//
// A drawing is an SVG picture of its own, about 10 KB, with a name and a description
// in words that come from the geometry. The same sheet gives the same bytes on every
// machine. The method is an own design.
package draw

import (
	"bytes"

	"plait/internal/path"
	"plait/internal/scalp"
)

// Sheet is what a set of drawings shows.
type Sheet struct {
	Title    string // "Four sections"
	Plan     *scalp.Plan
	Sections []Section // as many as the plan has, in its order
	Arrows   []Arrow
	Hidden   bool // partings on the far side show as broken lines
	Plain    bool // sections have no hatching
	Silent   bool // the description names no section and no area: they may be what is asked
}

// Section says how a section of the plan is drawn.
type Section struct {
	Number int // in the order of work, from 1; 0 shows none
	Tint   Tint
}

// Tint is a light colour and the class by which a style sheet can give another.
type Tint struct{ Class, Fill string }

// Tints are eight colours light enough for dark lines and numbers over them, also in
// print.
var Tints = []Tint{
	{"t1", "#f6d9c9"}, {"t2", "#cfe3ee"}, {"t3", "#e6e0b8"}, {"t4", "#d9d0ea"},
	{"t5", "#cfe8d5"}, {"t6", "#f2cfd9"}, {"t7", "#dfe0e2"}, {"t8", "#f3e2c0"},
}

// Plain is the tint of a section that nothing is said about.
var Plain = Tint{"t0", "#f3ece2"}

// Drawings draws the views of one sheet. Views may be drawn at the same time.
type Drawings struct {
	sheet      Sheet
	neighbours [][]int32
	hatches    []Hatch
}

// New prepares the drawings of a sheet.
func New(sheet Sheet) *Drawings {
	d := &Drawings{sheet: sheet, neighbours: sheet.Plan.Mesh.Neighbours()}
	d.hatches = make([]Hatch, len(sheet.Plan.Sections))
	if !sheet.Plain {
		d.hatches = choose(sheet.Plan, d.neighbours)
	}
	return d
}

// Hatches returns the hatching of each section of the plan.
func (d *Drawings) Hatches() []Hatch { return d.hatches }

// scene is a plan seen from one side.
type scene struct {
	view       View
	mesh       *scalp.Mesh
	neighbours [][]int32
	points     []path.Point // of the mesh, on the page
	size       float64      // of the head
}

func (d *Drawings) scene(v View) *scene {
	s := &scene{view: v, mesh: d.sheet.Plan.Mesh, neighbours: d.neighbours, size: d.sheet.Plan.Head.Size()}
	s.points = make([]path.Point, len(s.mesh.Points))
	for i, p := range s.mesh.Points {
		s.points[i] = v.Project(p.P, s.size)
	}
	return s
}

// keys returns what each polygon is, seen from the viewer's side or from the far side.
func (s *scene) keys(near bool) []int32 {
	keys := make([]int32, len(s.mesh.Polygons))
	for i, p := range s.mesh.Polygons {
		keys[i] = hidden
		if s.view.Sees(p.Facing) == near {
			keys[i] = int32(p.Section) + 1 // Skin is −1
		}
	}
	return keys
}

// Layers are the parts of a drawing from the lowest to the highest, as SVG elements.
type Layers struct {
	Body     string // neck, face and skin
	Sections string // tints and hatching
	Partings string // hidden and seen partings, hairline
	Outline  string // of the skull, face and neck, and the ear that lies over it
	Marks    string // arrows and numbers
}

// mostBytes is the size that a drawing should not pass. Beyond it, the hatching of the
// smallest sections is left out.
const mostBytes = 15_000

// Layers returns the layers of a view.
func (d *Drawings) Layers(v View) Layers {
	layers, _ := d.layers(v)
	return layers
}

// layers returns the layers of a view and the description of what it shows.
func (d *Drawings) layers(v View) (l Layers, description string) {
	s := d.scene(v)
	keys := s.keys(true)
	borders := s.borders(keys)
	art := Mannequin(d.sheet.Plan.Head, v)
	description = d.describe(s, keys)
	l = Layers{
		Body:     art.Body,
		Partings: d.partings(s, borders),
		Outline:  art.Outline + art.Over,
		Marks:    d.marks(s, keys, borders),
	}
	room := mostBytes - frameBytes - len(l.Body) - len(l.Partings) - len(l.Outline) - len(l.Marks) - len(description)
	l.Sections = d.areas(s, keys, borders, room)
	return l, description
}

// frameBytes is about what the svg element and the title take.
const frameBytes = 400

// Head returns the drawing of a view as an SVG picture whose ids start with id.
func (d *Drawings) Head(v View, id string) []byte {
	var b bytes.Buffer
	l, description := d.layers(v)
	p := Picture{ID: id, Title: d.title(v), Description: description, Box: v.Canvas()}
	p.Open(&b)
	for _, layer := range []string{l.Body, l.Sections, l.Partings, l.Outline, l.Marks} {
		b.WriteString(layer)
	}
	p.Close(&b)
	return b.Bytes()
}
