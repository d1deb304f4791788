package silhouette

import (
	"cmp"
	"math"
	"slices"
)

// How strands are picked that are drawn (own design, by eye).
const (
	apart    = 0.3 // cm; closer lines run together
	shortest = 2.0 // cm; a shorter piece is a blemish
	pace     = apart / 2
	bridged  = 3 // paces over which a line may touch another
)

// Visible returns the pieces of lines that are drawn so that each can be told from its
// neighbours: those that start highest first, and of the others what lies free of
// them.
func Visible(lines []Line) []Line {
	order := slices.Clone(lines)
	order = slices.DeleteFunc(order, func(l Line) bool { return len(l.Points) < 2 })
	slices.SortStableFunc(order, func(a, b Line) int { return cmp.Compare(b.Points[0].Y, a.Points[0].Y) })
	taken := make(map[square]bool)
	var pieces []Line
	for _, l := range order {
		free := l.free(taken)
		for _, piece := range free {
			pieces = append(pieces, Line{Points: simple(piece), Edge: l.Edge})
		}
		for _, piece := range free {
			for _, p := range piece {
				taken[squareOf(p)] = true
			}
		}
	}
	return pieces
}

// square is a square of a coarse grid over the picture.
type square struct{ x, y int }

func squareOf(p Point) square {
	return square{int(math.Floor(p.X / apart)), int(math.Floor(p.Y / apart))}
}

// free returns the pieces of a line that do not run in or beside squares that are
// taken, save for a touch.
func (l Line) free(taken map[square]bool) [][]Point {
	var pieces [][]Point
	var piece []Point
	touching := 0 // the last points of the piece that are not free
	flush := func() {
		piece = piece[:len(piece)-touching]
		if float64(float64(len(piece))*pace) >= shortest {
			pieces = append(pieces, piece)
		}
		piece, touching = nil, 0
	}
	for _, p := range l.walk() {
		s := squareOf(p)
		if !taken[s] && !taken[square{s.x - 1, s.y}] && !taken[square{s.x + 1, s.y}] {
			piece, touching = append(piece, p), 0
			continue
		}
		if len(piece) == 0 {
			continue
		}
		piece, touching = append(piece, p), touching+1
		if touching > bridged {
			flush()
		}
	}
	flush()
	return pieces
}

// walk returns points all along a line, a pace apart.
func (l Line) walk() []Point {
	points := []Point{l.Points[0]}
	for i := 1; i < len(l.Points); i++ {
		a, b := l.Points[i-1], l.Points[i]
		steps := max(int(math.Ceil(a.dist(b)/pace)), 1)
		for k := 1; k <= steps; k++ {
			t := float64(k) / float64(steps)
			points = append(points, Point{a.X + float64(t*(b.X-a.X)), a.Y + float64(t*(b.Y-a.Y))})
		}
	}
	return points
}
