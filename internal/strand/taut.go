package strand

import (
	"plait/internal/geom"
	"plait/internal/head"
)

// degrees holds sine and cosine of whole degrees up to a half turn.
var degrees = func() (table [181]struct{ sin, cos float64 }) {
	for k := range table {
		table[k].sin, table[k].cos = geom.Sincos(geom.Degrees(float64(k)))
	}
	return table
}()

// flatPoint is a point of the plane of a taut string.
type flatPoint struct{ x, y float64 }

// taut returns the string from a root to a point, counted from the
// centre. The surface is sampled at every degree between them; the string is the
// hull of the samples.
func taut(h *head.Head, root head.Point, out geom.Vec3) Path {
	// e1 points to the root and e2 on toward the guide; where that lies straight
	// behind the head, any way round is as good and the one over the top is taken.
	e1 := root.U
	e2, _ := geom.Frame(e1, out)
	x, y := out.Dot(e1), out.Dot(e2)
	end := geom.Atan2(y, x)
	hull := []flatPoint{{x: root.P.Dist(h.Centre())}}
	for k := 1; geom.Degrees(float64(k)) < end; k++ {
		sin, cos := degrees[k].sin, degrees[k].cos
		r, _ := h.Radius(e1.Scale(cos).Add(e2.Scale(sin)))
		hull = tighten(hull, flatPoint{x: float64(r * cos), y: float64(r * sin)})
	}
	hull = tighten(hull, flatPoint{x, y})
	path := make(Path, len(hull))
	for i, p := range hull {
		path[i] = h.Centre().Add(e1.Scale(p.x)).Add(e2.Scale(p.y))
	}
	return path
}

// tighten adds a point and drops those before it that the string would lift off.
func tighten(hull []flatPoint, p flatPoint) []flatPoint {
	for len(hull) > 1 {
		a, b := hull[len(hull)-2], hull[len(hull)-1]
		left := float64((b.x-a.x)*(p.y-a.y)) - float64((b.y-a.y)*(p.x-a.x))
		if left > 0 {
			break
		}
		hull = hull[:len(hull)-1]
	}
	return append(hull, p)
}
