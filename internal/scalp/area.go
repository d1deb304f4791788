package scalp

import (
	"plait/internal/geom"
	"plait/internal/head"
)

// The six points and weights of Dunavant's rule of degree 4 for a triangle, in
// barycentric coordinates (Dunavant, High degree efficient symmetrical Gaussian
// quadrature rules for the triangle, Int. J. Numer. Meth. Eng. 21, 1985).
var dunavant = func() [6]struct{ a, b, c, weight float64 } {
	const (
		a, weightA = 0.445948490915965, 0.223381589678011
		b, weightB = 0.091576213509771, 0.109951743655322
		restA      = 1 - 2*a
		restB      = 1 - 2*b
	)
	return [6]struct{ a, b, c, weight float64 }{
		{a, a, restA, weightA}, {a, restA, a, weightA}, {restA, a, a, weightA},
		{b, b, restB, weightB}, {b, restB, b, weightB}, {restB, b, b, weightB},
	}
}()

// areaOf returns the area of the true surface over a polygon, in cm².
//
// The polygon is fanned into flat triangles between directions. With m the area
// vector of a triangle and q a point of it, the solid angle is
// dΩ = (q·m)/|q|³ per share of the triangle and the area
//
//	A = ∫ dA/dΩ (q/|q|) dΩ,
//
// so curvature is integrated and not cut off by facets. The error falls with the
// sixth power of the size of the triangles; only a curved border, which is a chain
// of chords between exact points, keeps the second power.
func (m *Mesh) areaOf(corners []int32) float64 {
	total := 0.0
	first := m.Points[corners[0]].U
	for k := 2; k < len(corners); k++ {
		total += triangleArea(m.surface, first, m.Points[corners[k-1]].U, m.Points[corners[k]].U)
	}
	return total
}

func triangleArea(s head.Surface, a, b, c geom.Vec3) float64 {
	vector := b.Sub(a).Cross(c.Sub(a)).Scale(0.5)
	total := 0.0
	for _, d := range dunavant {
		q := a.Scale(d.a).Add(b.Scale(d.b)).Add(c.Scale(d.c))
		l := q.Len()
		solid := float64(d.weight*q.Dot(vector)) / float64(l*l*l)
		total += float64(solid * head.Stretch(s, q.Scale(1/l)))
	}
	return total
}

// measure works out the areas that are not known yet, of polygons with hair.
func (m *Mesh) measure() {
	for i := range m.Polygons {
		p := &m.Polygons[i]
		if p.Section != Skin && p.area == unknown {
			p.area = m.areaOf(p.Corners)
		}
	}
}

// Area returns the area in cm² of the polygons that a function picks.
func (m *Mesh) Area(picks func(Polygon) bool) float64 {
	total := 0.0
	for _, p := range m.Polygons {
		if !picks(p) {
			continue
		}
		if p.area == unknown {
			p.area = m.areaOf(p.Corners)
		}
		total += p.area
	}
	return total
}
