// Package silhouette works out the shape that fallen hair makes, seen from a side:
// its outline, the line of its ends, and where its weight sits.
//
// It looks at strands as package strand lets them fall, so hair has a thickness here
// only to be drawn. Lengths are in cm. The method is an own design.
package silhouette

import (
	"math"

	"plait/internal/geom"
	"plait/internal/strand"
)

// View is where the hair is looked at from, without perspective: the directions that
// point to the right and up in the picture, two unit vectors at right angles.
type View struct{ Right, Up geom.Vec3 }

// Point is a place in the picture, in cm from the middle between the ears.
type Point struct{ X, Y float64 }

// Of returns where a point in space is seen.
func (v View) Of(p geom.Vec3) Point { return Point{v.Right.Dot(p), v.Up.Dot(p)} }

// dist returns the distance between two points.
func (p Point) dist(q Point) float64 {
	x, y := q.X-p.X, q.Y-p.Y
	return math.Sqrt(float64(x*x) + float64(y*y))
}

// Line is a strand in the picture, from root to end.
type Line struct {
	Points []Point
	Edge   bool // grows at the hairline
}

// straightness is how far, in cm, the points of a strand may lie from the line that
// is drawn of it.
const straightness = 0.02

// Of returns strands as they are seen, without the points that make no difference.
func Of(v View, strands []strand.Strand, path func(strand.Strand) strand.Path) []Line {
	lines := make([]Line, len(strands))
	for i, s := range strands {
		way := path(s)
		points := make([]Point, len(way))
		for k, p := range way {
			points[k] = v.Of(p)
		}
		lines[i] = Line{Points: simple(points), Edge: s.Edge}
	}
	return lines
}

// simple drops points that lie on the line between those kept: from each point the
// next is the last one for which all between lie close enough.
func simple(points []Point) []Point {
	if len(points) == 0 {
		return nil
	}
	kept := []Point{points[0]}
	for from := 0; from < len(points)-1; {
		to := from + 1
		for to+1 < len(points) && straight(points[from:to+2]) {
			to++
		}
		kept = append(kept, points[to])
		from = to
	}
	return kept
}

// straight tells whether all points lie close to the line from the first to the
// last.
func straight(points []Point) bool {
	last := points[len(points)-1]
	for _, p := range points[1 : len(points)-1] {
		if along, off := across(points[0], last, p); off > straightness || along < 0 {
			return false
		}
	}
	return true
}

// across returns where a point lies along a line, from 0 at a to its length at b, and
// how far beside it.
func across(a, b, p Point) (along, off float64) {
	x, y := b.X-a.X, b.Y-a.Y
	length := a.dist(b)
	if length == 0 {
		return 0, a.dist(p)
	}
	px, py := p.X-a.X, p.Y-a.Y
	along = (float64(x*px) + float64(y*py)) / length
	off = math.Abs(float64(x*py)-float64(y*px)) / length
	return along, off
}
