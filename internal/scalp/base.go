package scalp

import (
	"plait/internal/head"
)

// Detail says how fine the net over the head is: how often the triangles of an
// octahedron are split in four.
type Detail int

// The details in use. Sections are right to 0.1 % in a preview and to 0.02 % in
// print, where that is 16,000 points.
const (
	Preview Detail = 5
	Print   Detail = 6
)

// Base is a head ready to be parted: its net, cut along the hairline and along the
// lines where the surface turns away from each of the five views. It is made once
// for a head and never changed, so several plans can be made from it at a time.
type Base struct {
	head  *head.Head
	mesh  *Mesh
	total float64 // area of the scalp
}

// New makes the base of a head.
func New(h *head.Head, detail Detail) *Base {
	m := newMesh(h, int(detail))
	m.cutBase()
	m.measure()
	return &Base{head: h, mesh: m, total: m.Area(hasHair)}
}

// Head returns the head.
func (b *Base) Head() *head.Head { return b.head }

// Area returns the area of the whole scalp in cm².
func (b *Base) Area() float64 { return b.total }

func hasHair(p Polygon) bool { return p.Section != Skin }

// hair is the field of the hairline, positive on the scalp.
type hair struct{ surface head.Surface }

func (h hair) at(p *head.Point) float64 { return head.Hair(h.surface, p.U) }

// turn is one coordinate of the normal, zero where the surface turns away.
type turn func(p *head.Point) float64

func (t turn) at(p *head.Point) float64 { return t(p) }

// turns holds the coordinates of the normal in the order of the bits of Facing.
var turns = []turn{
	func(p *head.Point) float64 { return p.N.X },
	func(p *head.Point) float64 { return p.N.Y },
	func(p *head.Point) float64 { return p.N.Z },
}

// cutBase cuts hairline and contours and says of each polygon whether it has hair
// and which way it faces.
func (m *Mesh) cutBase() {
	fields := []field{hair{m.surface}}
	for _, t := range turns {
		fields = append(fields, t)
	}
	values, _ := m.cutAll(fields) // four lines never come to too many polygons
	for i := range m.Polygons {
		p := &m.Polygons[i]
		if sum(values[0], p.Corners) > 0 {
			p.Section = 0
		}
		for bit := range turns {
			if sum(values[bit+1], p.Corners) > 0 {
				p.Facing |= 1 << bit
			}
		}
	}
}
