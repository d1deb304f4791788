package silhouette

// leastLoop is the area in cm² below which a piece or a hole of the shape is dropped.
const leastLoop = 1.5

// Outline returns the outline of hair that falls as the lines do: closed loops, the
// last point of each its first one again, round the hair counter-clockwise and round
// holes clockwise.
func Outline(lines []Line) [][]Point {
	r := newRaster(lines)
	if r == nil {
		return nil
	}
	for _, l := range lines {
		r.draw(l)
	}
	r.smooth()
	var loops [][]Point
	for _, loop := range r.loops() {
		if a := area(loop); a >= leastLoop || a <= -leastLoop {
			loops = append(loops, loop)
		}
	}
	return loops
}

// area returns the area within a loop, below zero where it runs clockwise.
func area(loop []Point) float64 {
	twice := 0.0
	for i := 1; i < len(loop); i++ {
		a, b := loop[i-1], loop[i]
		twice += float64(a.X*b.Y) - float64(b.X*a.Y)
	}
	return twice / 2
}

// side is a side of a square of the grid: the one from a point of the grid to the
// right, or the one upward.
type side struct {
	point  int // index into the raster
	upward bool
}

// loops follows the zero of the depth through the squares of the grid: marching
// squares. Each piece of line leads from the side where it enters a square to the
// one where it leaves, the hair on its left.
func (r *raster) loops() [][]Point {
	next := make(map[side]side)
	var starts []side
	for y := range r.height - 1 {
		for x := range r.width - 1 {
			for _, piece := range r.pieces(x, y) {
				next[piece[0]] = piece[1]
				starts = append(starts, piece[0])
			}
		}
	}
	var loops [][]Point
	for _, start := range starts {
		if _, there := next[start]; !there {
			continue // on a loop that is done
		}
		var loop []Point
		for at := start; ; {
			loop = append(loop, r.crossing(at))
			to, there := next[at]
			if !there {
				break
			}
			delete(next, at)
			at = to
		}
		loops = append(loops, loop)
	}
	return loops
}

// pieces returns the lines through a square, each from side to side. Where opposite
// corners are alike and the others not, the mean of all decides which are joined.
func (r *raster) pieces(x, y int) [][2]side {
	low := int(y*r.width) + x
	corners := [4]int{low, low + 1, low + 1 + r.width, low + r.width}
	sides := [4]side{{low, false}, {low + 1, true}, {low + r.width, false}, {low, true}}
	var inside [4]bool
	sum := 0.0
	for k, c := range corners {
		inside[k] = r.depth[c] > 0
		sum += r.depth[c]
	}
	// Side k lies between corners k and k+1. Walked counter-clockwise round the square,
	// the hair ends on some sides and begins again on others. A line comes in where it
	// ends and goes out where it begins, so that the hair is on its left.
	var ends, begins []int
	for k := range corners {
		switch after := inside[(k+1)%4]; {
		case inside[k] && !after:
			ends = append(ends, k)
		case !inside[k] && after:
			begins = append(begins, k)
		}
	}
	var pieces [][2]side
	for _, k := range ends {
		to := begins[0]
		if len(ends) == 2 {
			to = (k + 3) % 4 // back to the side before: the hair in this corner stands alone
			if sum > 0 {
				to = (k + 1) % 4
			}
		}
		pieces = append(pieces, [2]side{sides[k], sides[to]})
	}
	return pieces
}

// crossing returns the point of a side where the depth is zero.
func (r *raster) crossing(s side) Point {
	step := 1
	if s.upward {
		step = r.width
	}
	from, to := s.point, s.point+step
	share := r.depth[from] / (r.depth[from] - r.depth[to])
	p := r.at(from%r.width, from/r.width)
	if s.upward {
		return Point{p.X, p.Y + float64(share*cell)}
	}
	return Point{p.X + float64(share*cell), p.Y}
}
