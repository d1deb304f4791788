package draw

import (
	"bytes"
	"html"
	"strconv"
	"strings"

	"plait/internal/head"
	"plait/internal/path"
	"plait/internal/silhouette"
	"plait/internal/strand"
)

// Cuts draws the views of one haircut: strands as they are lifted, lengths as a map,
// and the shape that falls. Views may be drawn at the same time.
//
// Beside the classes of a head these stand for
//
//	s  strands       m  lines of ends    f  fingers
//	g  guides        d  broken lines     c  lines of equal length
//	y  hair          z  hair before the cut
type Cuts struct {
	title  string
	fallen *silhouette.Fallen
	parted *Drawings // of the plan, without hatching
}

// NewCuts prepares the drawings of a haircut.
func NewCuts(title string, f *silhouette.Fallen) *Cuts {
	plain := Sheet{Title: title, Plan: f.Plan, Sections: make([]Section, len(f.Plan.Sections))}
	for i, cut := range f.Cuts {
		plain.Sections[i].Tint = uncut
		if cut.Guide != nil {
			plain.Sections[i].Tint = Plain
		}
	}
	return &Cuts{title, f, &Drawings{
		sheet:      plain,
		neighbours: f.Plan.Mesh.Neighbours(),
		hatches:    make([]Hatch, len(f.Plan.Sections)),
	}}
}

// uncut is the tint of a section whose hair stays as it is.
var uncut = Tint{"t0", "#fbf7f1"}

// Colours of cut drawings.
const (
	endsRed   = "#8a1c1c"
	levelTint = "#7a4626"
	guideInk  = "#a4582a"
	hairFill  = "#ecd9c3"
	hairInk   = "#6d4a33"
	ghostFill = "#f4ece1"
)

// bald is a head seen from one side, before any hair is drawn.
type bald struct {
	scene   *scene
	keys    []int32
	borders []border
	layers  Layers
}

func (c *Cuts) bald(v View) bald {
	s := c.parted.scene(v)
	keys := s.keys(true)
	borders := s.borders(keys)
	art := Mannequin(c.fallen.Plan.Head, v)
	return bald{s, keys, borders, Layers{
		Body:     art.Body,
		Sections: c.parted.areas(s, keys, borders, mostBytes),
		Partings: c.parted.partings(s, borders),
		Outline:  art.Outline + art.Over,
	}}
}

// picture writes a drawing whose layers are given from the lowest to the highest.
func (c *Cuts) picture(v View, id, title, description string, box Box, layers ...string) []byte {
	p := Picture{ID: id, Title: c.title + ", " + title + ", " + v.Long(), Description: description, Box: box}
	var b bytes.Buffer
	p.Open(&b)
	for _, layer := range layers {
		b.WriteString(layer)
	}
	p.Close(&b)
	return b.Bytes()
}

// near tells whether a strand hangs on the viewer's side of head and neck.
func (v View) near(s strand.Strand) bool {
	const middle = 1e-9
	root, end := s.Root.P, s.Path.End()
	switch v {
	case Left:
		return root.Y > -middle
	case Right:
		return root.Y < middle
	case Front:
		return end.X > behindNeck || root.X > behindCrown
	case Back:
		return root.X < beforeEars
	}
	return true
}

// Where hair hangs behind neck and face, seen from the front, or before them, seen
// from the back: cm forward of the middle between the ears (by eye).
const (
	behindNeck  = 0.6
	behindCrown = -3.0
	beforeEars  = 0.5
)

// looks returns the view for package silhouette, in cm of this head.
func (v View) looks() silhouette.View {
	return silhouette.View{Right: frames[v].right, Up: frames[v].up}
}

// onPage returns the points of the page of points in cm of a head.
func (v View) onPage(points []silhouette.Point, size float64) []path.Point {
	page := make([]path.Point, len(points))
	for i, p := range points {
		page[i] = v.Place(p.X/size, p.Y/size)
	}
	return page
}

// sectionAt returns the section in which a root lies, of two that meet there the one
// that is seen.
func (c *Cuts) sectionAt(v View, root head.Point) int {
	const aside = 1e-4
	seen := root.U.Add(v.Toward().Scale(aside)).Unit()
	return c.fallen.Plan.SectionAt(head.At(c.fallen.Plan.Head, seen))
}

// caption is text over a drawing.
type caption struct {
	at   path.Point
	text string
}

// captionHeight is the height of letters in pixels over a head alone, which a page shows
// at about half its size.
const captionHeight = 21.0

// captions writes texts of a height in pixels in the middle over their points.
func captions(list []caption, height float64) string {
	if len(list) == 0 {
		return ""
	}
	drop := float64(0.355 * height) // from the middle of a letter to its foot
	var b strings.Builder
	for _, c := range list {
		at := path.Grid(c.at.Add(path.Point{Y: drop}))
		b.WriteString(`<text x="` + path.Decimal(at.X) + `" y="` + path.Decimal(at.Y) + `">` + html.EscapeString(c.text) + `</text>`)
	}
	return `<g class="n" fill="` + ink + `" stroke="#fff" stroke-width="5" paint-order="stroke" text-anchor="middle" ` +
		`font-family="Helvetica,Arial,sans-serif" font-weight="600" font-size="` + whole(height) + `">` + b.String() + `</g>`
}

// larger returns how much larger a picture is than that of a head alone. It is shown
// as wide, so its lines and letters must be as much larger to be seen.
func (v View) larger(b Box) float64 {
	size, usual := b.Max.Sub(b.Min), v.Canvas().Max
	return max(1, size.X/usual.X)
}

// stroked writes the width of a line that is so wide on a head alone.
func stroked(width, larger float64) string {
	return strconv.FormatFloat(float64(width*larger), 'f', 1, 64)
}
