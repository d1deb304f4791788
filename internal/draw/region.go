package draw

import (
	"plait/internal/path"
)

// region is an area of the page given by the lines round it, which need not be in any
// order.
type region struct{ lines [][]path.Point }

// regionOf returns the seen part of a section.
func regionOf(borders []border, key int32) region {
	var r region
	for _, b := range borders {
		if b.left == key || b.right == key {
			r.lines = append(r.lines, b.points)
		}
	}
	return r
}

// contains tells whether a point lies in the region: a ray from it crosses the lines
// an odd number of times.
func (r region) contains(p path.Point) bool {
	odd := false
	for _, line := range r.lines {
		for i := 1; i < len(line); i++ {
			a, b := line[i-1], line[i]
			if (a.Y > p.Y) == (b.Y > p.Y) {
				continue
			}
			if x := a.X + float64((p.Y-a.Y)*(b.X-a.X))/(b.Y-a.Y); p.X < x {
				odd = !odd
			}
		}
	}
	return odd
}

// margin returns the distance of a point from the nearest of the lines, no more than
// a bound that the answer is not needed beyond.
func (r region) margin(p path.Point, bound float64) float64 {
	for _, line := range r.lines {
		for i := 1; i < len(line); i++ {
			from, to := line[i-1], line[i]
			// No point of the stretch is nearer than its start less its length.
			if reach := bound + from.Dist(to); p.Sub(from).Dot(p.Sub(from)) < float64(reach*reach) {
				bound = min(bound, p.Dist(nearest(p, from, to)))
			}
		}
	}
	return bound
}

// nearest returns the point of a stretch that is nearest to p.
func nearest(p, from, to path.Point) path.Point {
	along := to.Sub(from)
	square := along.Dot(along)
	if square == 0 {
		return from
	}
	return from.Mix(to, min(max(p.Sub(from).Dot(along)/square, 0), 1))
}
