package silhouette

// alongHem is how near, in cm, the outline runs to the ends of hair that make it: half
// the width of a strand and what smoothing takes off a corner.
const alongHem = 0.8

// Hem returns the parts of an outline along which hair ends, given the ends: the
// perimeter line as it is seen. Ends under longer hair make none.
func Hem(outline [][]Point, ends []Point) [][]Point {
	near := make(map[square][]Point)
	for _, e := range ends {
		s := hemSquare(e)
		near[s] = append(near[s], e)
	}
	var parts [][]Point
	for _, loop := range outline {
		parts = append(parts, runs(loop, func(p Point) bool { return byEnd(p, near) })...)
	}
	return parts
}

// hemSquare is the square of a grid so coarse that what lies near a point lies in its
// square or one beside.
func hemSquare(p Point) square {
	const perSquare = alongHem / apart
	return squareOf(Point{p.X / perSquare, p.Y / perSquare})
}

// byEnd tells whether an end lies near a point.
func byEnd(p Point, ends map[square][]Point) bool {
	s := hemSquare(p)
	for x := s.x - 1; x <= s.x+1; x++ {
		for y := s.y - 1; y <= s.y+1; y++ {
			for _, e := range ends[square{x, y}] {
				if e.dist(p) <= alongHem {
					return true
				}
			}
		}
	}
	return false
}

// runs returns the stretches of a loop whose points all have a quality, long enough to
// be seen.
func runs(loop []Point, has func(Point) bool) [][]Point {
	first := 0
	for first < len(loop) && has(loop[first]) {
		first++
	}
	if first == len(loop) {
		return [][]Point{loop}
	}
	var found [][]Point
	var run []Point
	n := len(loop) - 1 // the last point is the first one
	for k := range n + 1 {
		p := loop[(first+k)%n]
		if has(p) {
			run = append(run, p)
			continue
		}
		if float64(float64(len(run))*cell) >= shortest {
			found = append(found, run)
		}
		run = nil
	}
	return found
}
