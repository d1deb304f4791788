package path

// Tolerances in pixels that lines are fitted to.
const (
	Fine   = 0.18 // borders and contours
	Medium = 0.35 // hatching and level lines
	Coarse = 0.5  // strands and shapes of hair
)

// Fit returns smooth curves within a tolerance of a chain of points, with corners
// where the points have them. The method is least-squares fitting of cubics with
// Newton's iteration for the parameters (Schneider, An algorithm for automatically
// fitting digitized curves, Graphics Gems, 1990). Where the last point is the first
// one again the line is a loop, which has no seam unless it has corners.
func Fit(points []Point, tolerance float64) Chain {
	l := newLine(points)
	if len(l.points) < 2 {
		return Polyline(points...)
	}
	last := len(l.points) - 1
	loop := last > 2 && l.points[0] == l.points[last]
	corners := l.corners(loop)
	if loop {
		if len(corners) == 0 {
			return l.smoothLoop(tolerance)
		}
		l = l.turned(corners[0])
		last = len(l.points) - 1
		corners = l.corners(true)
	}
	f := fitter{tolerance: tolerance, chain: Chain{From: Grid(l.points[0])}}
	first := 0
	for _, c := range append(corners, last) {
		if c > first {
			f.stretch(l.from(first, c))
			first = c
		}
	}
	return f.chain
}

// smoothLoop fits a loop without corners: both ends share one tangent.
func (l line) smoothLoop(tolerance float64) Chain {
	f := fitter{tolerance: tolerance, chain: Chain{From: Grid(l.points[0])}}
	tangent := l.reach(0, tangentReach, true).Sub(l.reach(0, -tangentReach, true)).Unit()
	f.fit(l, tangent, tangent.Scale(-1))
	return f.chain
}

// tangentReach is the length in pixels over which tangents are taken.
const tangentReach = 2

// Bounds of the iteration. Parameters are corrected while the square of the error is
// no more than worth times the square of the tolerance.
const (
	corrections = 5
	worth       = 60
)

// fitter fits cubics to a line and adds them to a chain.
type fitter struct {
	tolerance float64
	chain     Chain
}

// stretch fits the line between two corners.
func (f *fitter) stretch(l line) {
	last := len(l.points) - 1
	start := l.reach(0, tangentReach, false).Sub(l.points[0]).Unit()
	end := l.reach(last, -tangentReach, false).Sub(l.points[last]).Unit()
	f.fit(l, start, end)
}

// fit adds cubics along a line with the given tangents at its ends, both pointing
// inward.
func (f *fitter) fit(l line, start, end Point) {
	last := len(l.points) - 1
	if last == 1 {
		f.chain.straight(l.points[1])
		return
	}
	parameters := l.parameters()
	square := float64(f.tolerance * f.tolerance)
	long := l.len() - l.arcs[0]
	curve := leastSquares(l.points, parameters, start, end, long)
	worst, at := curve.error(l.points, parameters)
	for i := 0; i < corrections && worst > square && worst < float64(worth*square); i++ {
		curve.correct(l.points, parameters)
		curve = leastSquares(l.points, parameters, start, end, long)
		worst, at = curve.error(l.points, parameters)
	}
	if worst <= square {
		f.chain.curved(curve)
		return
	}
	centre := l.reach(at, tangentReach, false).Sub(l.reach(at, -tangentReach, false)).Unit()
	f.fit(l.from(0, at), start, centre.Scale(-1))
	f.fit(l.from(at, last), centre, end)
}

// parameters gives each point its share of the arc length.
func (l line) parameters() []float64 {
	first := l.arcs[0]
	total := l.len() - first
	parameters := make([]float64, len(l.arcs))
	for i, arc := range l.arcs {
		parameters[i] = (arc - first) / total
	}
	return parameters
}
