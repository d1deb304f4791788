package scalp

import (
	"math"
	"strconv"

	"plait/internal/geom"
	"plait/internal/head"
)

// Along is the line that slices are counted along.
type Along string

// The lines for slices: the midline, from front to nape; the line over the apex,
// from left to right; the midline again, but with slices that slope down toward the
// face or toward the back.
const (
	AlongMidline         Along = "midline"
	AlongEarToEar        Along = "ear to ear"
	AlongDiagonalForward Along = "diagonal forward"
	AlongDiagonalBack    Along = "diagonal back"
)

// Slices parts into slices of equal width, at right angles to the head on the line
// that they are counted along. Give Into or Every.
type Slices struct {
	Into    int     // number of slices
	Every   float64 // wished width in cm; the number is rounded
	Along   Along   // "" is the midline
	Slope   float64 // of diagonal slices, in radians from level
	Reverse bool    // count from the nape, or from the right
	Foil    Foil
}

// Foil says which slices are lifted out into foil. The zero Foil is none.
type Foil struct {
	Take, Of int // the first Take of every Of slices
	// Weave is the number of strands that are woven out of a slice, as wide as the
	// gaps between them; 0 takes the whole slice.
	Weave int
}

// takes tells whether the slice with an index from 0 goes into foil.
func (f Foil) takes(slice int) bool { return f.Of > 0 && slice%f.Of < f.Take }

func (f Foil) problem() *Problem {
	if f == (Foil{}) {
		return nil
	}
	if bad := within("foil of", float64(f.Of), FoilCount); bad != nil {
		return bad
	}
	if bad := within("foil", float64(f.Take), Bounds{1, float64(f.Of)}); bad != nil {
		return bad
	}
	return within("weave", float64(f.Weave), WeaveCount)
}

// Kind is "slices".
func (Slices) Kind() string { return "slices" }

func (p Slices) divide(s *site) (division, *Problem) {
	if bad := p.Foil.problem(); bad != nil {
		return division{}, bad
	}
	along := s.head.Midline()
	if p.Along == AlongEarToEar {
		along = s.head.Over()
	}
	first, last, ok := s.stretch(along)
	if !ok {
		return division{}, &Problem{Code: NoStretch}
	}
	n, bad := p.count(last - first)
	if bad != nil {
		return division{}, bad
	}
	d := division{names: numbers(n), foil: p.Foil, width: (last - first) / float64(n)}
	var points []head.Point
	for i := 1; i < n; i++ {
		points = append(points, along.At(first+float64(float64(i)*d.width)))
	}
	if bad := p.planes(&d, along, points); bad != nil {
		return division{}, bad
	}
	if p.Reverse {
		forwards := d.part
		d.part = func(values []float64) int {
			if i := forwards(values); i != crossed {
				return n - 1 - i
			}
			return crossed
		}
	}
	return d, nil
}

// count returns the number of slices on a stretch.
func (p Slices) count(stretch float64) (int, *Problem) {
	if p.Every != 0 {
		if bad := within("width", p.Every, SliceWidth); bad != nil {
			return 0, bad
		}
		p.Into = int(math.Round(stretch / p.Every))
	}
	return p.Into, within("slices", float64(p.Into), SliceCount)
}

// planes sets the fields between the slices and how they decide.
func (p Slices) planes(d *division, along *head.Trace, points []head.Point) *Problem {
	switch p.Along {
	case AlongDiagonalForward, AlongDiagonalBack:
		if bad := slopeWithin(p.Slope); bad != nil {
			return bad
		}
		d.fields = []field{upright}
		for _, at := range points {
			left, right := diagonalPlanes(at, p.Slope, p.Along == AlongDiagonalBack)
			d.fields = append(d.fields, left, right)
		}
		d.part = diagonalSlice
	default:
		for _, at := range points {
			d.fields = append(d.fields, newSquare(along, at))
		}
		d.part = slice
	}
	return nil
}

// square is the line between two slices: in the plane that stands at right angles
// to the head at a point, and square to the line that slices are counted along.
// What comes first on that line is positive. The plane leaves the head on its far
// side once more; there the way along the line decides.
type square struct {
	flat
	along *head.Trace
	point head.Point
	arc   float64
}

func newSquare(along *head.Trace, at head.Point) square {
	plane := flat{geom.PlaneAt(at.P, at.N.Cross(along.Axis()))}
	return square{flat: plane, along: along, point: at, arc: along.ArcAt(at.P)}
}

func (s square) at(p *head.Point) float64 {
	distance := s.flat.at(p)
	onNearSide := p.P.Sub(s.along.Origin()).Dot(s.point.N) > 0
	if onNearSide || math.Abs(distance) < snap {
		return distance
	}
	if way := s.arc - s.along.ArcAt(p.P); way > 0 != (distance > 0) {
		return way
	}
	return distance
}

// slice returns the number of planes that a polygon lies behind. A polygon before
// one plane and behind a later one lies in two slices at once.
func slice(values []float64) int {
	behind := 0
	for behind < len(values) && values[behind] <= 0 {
		behind++
	}
	for _, v := range values[behind:] {
		if v <= 0 {
			return crossed
		}
	}
	return behind
}

// diagonalSlice is slice on the planes of the polygon's own side of the head.
func diagonalSlice(values []float64) int {
	own := make([]float64, 0, len(values)/2)
	first := 2
	if values[0] > 0 {
		first = 1
	}
	for i := first; i < len(values); i += 2 {
		own = append(own, values[i])
	}
	return slice(own)
}

// stretch returns the arcs between which a line runs through the sections that are
// parted; ok is false where it does not.
func (s *site) stretch(t *head.Trace) (first, last float64, ok bool) {
	plane := flat{geom.PlaneAt(t.Origin(), t.Axis())}
	first, last = math.Inf(1), math.Inf(-1)
	for _, p := range s.crossings([]field{plane}, 0, func(values []float64) float64 { return values[0] }) {
		arc := t.ArcAt(p.P)
		first, last = min(first, arc), max(last, arc)
	}
	return first, last, first < last
}

// numbers returns the names "1" to "n".
func numbers(n int) []string {
	var names []string
	for i := range n {
		names = append(names, strconv.Itoa(i+1))
	}
	return names
}
