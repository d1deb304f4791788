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

// CentreBack returns the guide line of a strip that stands out from the apex down the
// middle of the back to the nape, of one length in cm.
func CentreBack(h *head.Head, cm float64) StationaryLine {
	apex, _ := h.Landmark("apex")
	_, nape := h.HairArc()
	return Raised(h.Midline(), h.Midline().ArcAt(apex.P), nape, cm)
}

// EarToEar returns the guide line of a strip that stands out from the top of one ear
// over the apex to the other, of one length in cm.
func EarToEar(h *head.Head, cm float64) StationaryLine {
	ears, _ := h.Pair("ear top")
	return Raised(h.Over(), h.Over().ArcAt(ears[0].P), h.Over().ArcAt(ears[1].P), cm)
}

// Length is that of a taut string to the point of the line that is nearest in a
// straight line.
func (g StationaryLine) Length(h *head.Head, root head.Point, l Lift) (float64, error) {
	held, err := g.Hold(h, root, l)
	return held.Path.Len(), err
}

// Hold is that string, the fingers along the line.
func (g StationaryLine) Hold(h *head.Head, root head.Point, l Lift) (Held, error) {
	if len(g.Points) == 0 {
		return Held{}, ErrOutOfReach
	}
	near := 0
	for i, p := range g.Points {
		if p.Dist(root.P) < g.Points[near].Dist(root.P) {
			near = i
		}
	}
	held, err := Stationary{g.Points[near]}.Hold(h, root, l)
	before, after := max(near-1, 0), min(near+1, len(g.Points)-1)
	held.Fingers = g.Points[before].Sub(g.Points[after]).Unit()
	return held, err
}
