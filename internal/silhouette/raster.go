package silhouette

import "math"

// How hair is drawn (own design, by eye): the half width of a strand, how much of it
// a strand at the hairline has where it grows, and the way over which it fills out.
// An edge of the full width all round would widen the hairline by as much.
const (
	halfWidth = 0.55 // cm
	fineRoot  = 0.35 // share of the half width
	fillsOut  = 2.5  // cm
)

// The grid that the shape is worked out on.
const (
	cell      = 0.14       // cm
	rim       = 0.42       // cm outside the hair in which the distance is known
	core      = 0.3        // cm inside beyond which it makes no difference
	smoothing = 4          // passes
	margin    = 2*rim + .1 // cm of empty grid round everything
)

// raster holds at each point of a grid how deep it lies in the hair: the distance
// from the edge in cm, below zero outside and never more than core.
type raster struct {
	origin        Point // of the first point, bottom left
	width, height int
	depth         []float64
}

// newRaster returns an empty grid that holds all lines; nil where there is none.
func newRaster(lines []Line) *raster {
	low, high := Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	for _, l := range lines {
		for _, p := range l.Points {
			low = Point{min(low.X, p.X), min(low.Y, p.Y)}
			high = Point{max(high.X, p.X), max(high.Y, p.Y)}
		}
	}
	if !(low.X <= high.X) {
		return nil
	}
	const room = halfWidth + margin
	// The grid lies the same way round the middle, so that a shape that is the same on
	// both sides is drawn so.
	left, bottom := math.Floor((low.X-room)/cell), math.Floor((low.Y-room)/cell)
	right, top := math.Ceil((high.X+room)/cell), math.Ceil((high.Y+room)/cell)
	r := &raster{
		origin: Point{float64(left * cell), float64(bottom * cell)},
		width:  int(right-left) + 1,
		height: int(top-bottom) + 1,
	}
	r.depth = make([]float64, int(r.width*r.height))
	for i := range r.depth {
		r.depth[i] = -rim
	}
	return r
}

// at returns the place of a point of the grid.
func (r *raster) at(column, row int) Point {
	return Point{r.origin.X + float64(float64(column)*cell), r.origin.Y + float64(float64(row)*cell)}
}

// draw adds a strand.
func (r *raster) draw(l Line) {
	arc := 0.0
	last := len(l.Points) - 1
	for i := range last {
		a, b := l.Points[i], l.Points[i+1]
		length := a.dist(b)
		if length == 0 {
			continue // it is seen end on
		}
		s := stroke{a: a, b: b, along: Point{(b.X - a.X) / length, (b.Y - a.Y) / length}, length: length}
		s.half, s.end = l.half(arc), i+1 == last
		s.widens = (l.half(arc+length) - s.half) / length
		r.stroke(s)
		arc += length
	}
}

// half returns the half width of a strand some way from its root.
func (l Line) half(arc float64) float64 {
	if !l.Edge || arc >= fillsOut {
		return halfWidth
	}
	return float64(halfWidth * (fineRoot + float64((1-fineRoot)*arc)/fillsOut))
}

// stroke is a straight piece of a strand. Its start is round; the end of the last one
// is cut square, so that a blunt line stays sharp.
type stroke struct {
	a, b   Point
	along  Point // direction from a to b, a unit vector
	length float64
	half   float64 // half width at a
	widens float64 // of the half width, for each cm toward b
	end    bool
}

// depth returns how deep a point lies in the stroke.
func (s *stroke) depth(p Point) float64 {
	x, y := p.X-s.a.X, p.Y-s.a.Y
	along := float64(s.along.X*x) + float64(s.along.Y*y)
	off := math.Abs(float64(s.along.X*y) - float64(s.along.Y*x))
	switch {
	case along < 0:
		return s.half - s.a.dist(p)
	case s.end:
		return min(s.half+float64(s.widens*min(along, s.length))-off, s.length-along)
	case along > s.length:
		return s.half + float64(s.widens*s.length) - s.b.dist(p)
	}
	return s.half + float64(s.widens*along) - off
}

// stroke takes over the depth of a stroke wherever it is more.
func (r *raster) stroke(s stroke) {
	room := s.half + float64(max(s.widens, 0)*s.length) + rim
	column := func(x float64) int { return int((x - r.origin.X) / cell) }
	row := func(y float64) int { return int((y - r.origin.Y) / cell) }
	left, right := column(min(s.a.X, s.b.X)-room), column(max(s.a.X, s.b.X)+room)+1
	bottom, top := row(min(s.a.Y, s.b.Y)-room), row(max(s.a.Y, s.b.Y)+room)+1
	for y := bottom; y <= top; y++ {
		line := r.depth[int(y*r.width):int((y+1)*r.width)]
		for x := left; x <= right; x++ {
			if line[x] == core {
				continue // most of the hair lies over hair that is drawn already
			}
			if d := s.depth(r.at(x, y)); d > line[x] {
				line[x] = min(d, core)
			}
		}
	}
}

// smooth takes the mean of each point and its four neighbours, again and again.
func (r *raster) smooth() {
	next := make([]float64, len(r.depth))
	for range smoothing {
		copy(next, r.depth)
		for y := 1; y < r.height-1; y++ {
			for x := 1; x < r.width-1; x++ {
				i := int(y*r.width) + x
				sum := r.depth[i] + (r.depth[i-1] + r.depth[i+1]) + (r.depth[i-r.width] + r.depth[i+r.width])
				next[i] = sum / 5
			}
		}
		r.depth, next = next, r.depth
	}
}
