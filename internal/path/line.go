package path

import "sort"

// line is a chain of points with the arc lengths at them.
type line struct {
	points []Point
	arcs   []float64
}

// closest is the distance in pixels below which the next point of a line tells
// nothing new.
const closest = 0.05

// newLine measures a line and drops points that lie too close together; both ends
// stay.
func newLine(points []Point) line {
	var l line
	for i, p := range points {
		n := len(l.points)
		if n > 0 && p.Dist(l.points[n-1]) < closest {
			if i < len(points)-1 || n == 1 {
				continue
			}
			l.points, l.arcs = l.points[:n-1], l.arcs[:n-1]
			n--
		}
		arc := 0.0
		if n > 0 {
			arc = l.arcs[n-1] + p.Dist(l.points[n-1])
		}
		l.points, l.arcs = append(l.points, p), append(l.arcs, arc)
	}
	return l
}

func (l line) len() float64 { return l.arcs[len(l.arcs)-1] }

// from returns the line from one of its points to a later one.
func (l line) from(first, last int) line {
	return line{points: l.points[first : last+1], arcs: l.arcs[first : last+1]}
}

// turned returns a loop that starts at another of its points.
func (l line) turned(first int) line {
	last := len(l.points) - 1
	points := make([]Point, 0, len(l.points))
	points = append(points, l.points[first:last]...)
	return newLine(append(points, l.points[:first+1]...))
}

// reach returns the point a distance along the line after point i, before it where
// the distance is negative. A line ends at its ends, a loop goes on.
func (l line) reach(i int, distance float64, loop bool) Point {
	arc, total := l.arcs[i]+distance, l.arcs[len(l.arcs)-1]
	start := l.arcs[0]
	if loop && arc < start {
		arc += total - start
	}
	if loop && arc > total {
		arc -= total - start
	}
	return l.at(arc)
}

// at returns the point at an arc length.
func (l line) at(arc float64) Point {
	i := sort.SearchFloat64s(l.arcs, arc)
	switch {
	case i == 0:
		return l.points[0]
	case i == len(l.arcs):
		return l.points[i-1]
	}
	return l.points[i-1].Mix(l.points[i], (arc-l.arcs[i-1])/(l.arcs[i]-l.arcs[i-1]))
}
