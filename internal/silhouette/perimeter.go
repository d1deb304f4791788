package silhouette

import (
	"cmp"
	"math"
	"slices"

	"plait/internal/geom"
	"plait/internal/head"
	"plait/internal/strand"
)

// Zone is a part of the perimeter.
type Zone string

// The zones, by where hair grows: round the face as far as the sideburn, over and
// behind the ear, and at the nape.
const (
	FaceFrame Zone = "face frame"
	Side      Zone = "side"
	Nape      Zone = "nape"
)

// Where the zones meet, as the angle from the forehead round the head: at the tip of
// the sideburn and at the back of the ear (the hairline of the reference head).
const (
	sideburn = 74.0
	earBack  = 115.0
)

// ZoneOf returns the zone that a root belongs to.
func ZoneOf(p head.Point) Zone {
	theta := geom.InDegrees(math.Abs(geom.Atan2(p.U.Y, p.U.X)))
	switch {
	case theta <= sideburn:
		return FaceFrame
	case theta <= earBack:
		return Side
	}
	return Nape
}

// Edge is the line that the ends of a zone make on one side of the head.
type Edge struct {
	Zone Zone
	Left bool
	// Ends holds the lowest end in each half centimetre: across, which is x (forward)
	// for the side of the head and the distance from the middle for the nape, and z.
	Ends []Point
	// Slope is how the line falls, in radians: toward the face, and at the nape toward
	// the middle; below zero where it rises.
	Slope float64
}

// bin is the width in cm within which one end counts: the lowest.
const bin = 0.5

// Perimeter returns the line of the ends of hair that was cut, zone by zone from the
// face to the nape, the left side before the right one. A zone without ends is left
// out.
//
// In the profile an end counts for the zone its hair grows in; where longer hair
// hangs in front of it, it is not seen. The nape is seen from behind.
func Perimeter(strands []strand.Strand) []Edge {
	var edges []Edge
	for _, zone := range []Zone{FaceFrame, Side, Nape} {
		for _, left := range []bool{true, false} {
			e := Edge{Zone: zone, Left: left}
			for _, end := range lowest(e.ends(strands)) {
				if end.zone == zone {
					e.Ends = append(e.Ends, end.Point)
				}
			}
			if len(e.Ends) > 0 {
				e.Slope = e.slope()
				edges = append(edges, e)
			}
		}
	}
	return edges
}

// end is the end of a strand and the zone that it grows in.
type end struct {
	Point
	zone Zone
}

// ends returns the ends of all strands of the edge's side of the head; at the nape
// those that grow there.
func (e Edge) ends(strands []strand.Strand) []end {
	var ends []end
	for _, s := range strands {
		zone := ZoneOf(s.Root)
		if !s.Cut || !e.onSide(s.Root) || e.Zone == Nape && zone != Nape {
			continue
		}
		p := s.Path.End()
		across := p.X
		if e.Zone == Nape {
			across = math.Abs(p.Y)
		}
		ends = append(ends, end{Point{across, p.Z}, zone})
	}
	return ends
}

// onSide tells whether a root lies on the edge's side of the head; one in the middle
// lies on both.
func (e Edge) onSide(p head.Point) bool {
	const middle = 1e-9
	if e.Left {
		return p.P.Y > -middle
	}
	return p.P.Y < middle
}

// lowest returns the lowest end of each bin, in order.
func lowest(ends []end) []end {
	number := func(e end) int { return int(math.Floor(e.X / bin)) }
	slices.SortFunc(ends, func(a, b end) int {
		return cmp.Or(number(a)-number(b), cmp.Compare(a.Y, b.Y), cmp.Compare(a.X, b.X))
	})
	return slices.CompactFunc(ends, func(a, b end) bool { return number(a) == number(b) })
}

// slope returns the fall of the line of least squares through the ends: toward
// growing x where that is the face, toward the middle at the nape.
func (e Edge) slope() float64 {
	n := float64(len(e.Ends))
	var x, y float64
	for _, p := range e.Ends {
		x, y = x+p.X/n, y+p.Y/n
	}
	var xx, xy float64
	for _, p := range e.Ends {
		xx += float64((p.X - x) * (p.X - x))
		xy += float64((p.X - x) * (p.Y - y))
	}
	if xx == 0 {
		return 0
	}
	rise := geom.Atan(xy / xx)
	if e.Zone == Nape {
		return rise
	}
	return -rise
}
