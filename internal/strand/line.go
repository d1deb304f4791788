package strand

import (
	"math"

	"plait/internal/geom"
	"plait/internal/head"
)

// StationaryLine is a guide that stays at a line off the head, such as a strip of
// hair held straight out along the middle: every strand is brought to the nearest
// point of it. The lift does not matter.
type StationaryLine struct{ Points []geom.Vec3 }

// strip is the distance in cm between points of a line that Raised makes.
const strip = 0.25

// Raised returns the guide line that strands make which stand straight out along a
// stretch of a trace, given by its arcs, with one length in cm.
func Raised(t *head.Trace, first, last, cm float64) StationaryLine {
	n := max(int(math.Ceil((last-first)/strip)), 1)
	var line StationaryLine
	for i := range n + 1 {
		root := t.At(first + float64((last-first)*float64(i))/float64(n))
		line.Points = append(line.Points, root.P.Add(root.N.Scale(cm)))
	}
	return line
}

// Length is that of a taut string to the point of the line that is nearest in a
// straight line.
func (g StationaryLine) Length(h *head.Head, root head.Point, l Lift) (float64, error) {
	if len(g.Points) == 0 {
		return 0, ErrOutOfReach
	}
	nearest := g.Points[0]
	for _, p := range g.Points {
		if p.Dist(root.P) < nearest.Dist(root.P) {
			nearest = p
		}
	}
	return Stationary{nearest}.Length(h, root, l)
}
