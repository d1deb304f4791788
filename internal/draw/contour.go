package draw

import (
	"math"

	"plait/internal/geom"
	"plait/internal/head"
	"plait/internal/path"
)

// Angles in degrees from the top at which the outline of the skull ends and the lines
// of face and neck take over (own design).
const (
	profileFront = 83.9
	profileBack  = 145.5
	frontEnd     = 102.0
	backEnd      = 138.0
)

// contourStep is the angle in degrees between the points of an outline.
const contourStep = 2.5

// contour returns the outline of a head in a view: the line along which its surface
// turns away from the viewer. It is taken from the surface and not drawn by hand, so
// that partings end on it. On a head without a face it goes all round.
func contour(h *head.Head, v View) []path.Point {
	var points []head.Point
	switch v {
	case Left, Right:
		points = midline(h)
	case Front, Back:
		points = brow(h, v)
	case Top:
		points = rim(h)
	}
	line := make([]path.Point, len(points))
	for i, p := range points {
		line[i] = v.Project(p.P, h.Size())
	}
	return line
}

// hasFace tells whether the mannequin's face and neck belong to a head.
func hasFace(h *head.Head) bool { return h.Name() == "adult" }

// midline goes from the brow over the top down to the neck.
func midline(h *head.Head) []head.Point {
	from, to := -profileFront, profileBack
	if !hasFace(h) {
		from, to = -180, 180
	}
	return sweep(from, to, func(angle float64) head.Point {
		theta := 0.0
		if angle > 0 {
			theta = math.Pi
		}
		return head.At(h, head.Direction(geom.Degrees(math.Abs(angle)), theta))
	})
}

// brow goes from the right of the page over the top to its left.
func brow(h *head.Head, v View) []head.Point {
	end := frontEnd
	side := frames[v].right.Y
	if v == Back {
		end = backEnd
	}
	if !hasFace(h) {
		end = 180
	}
	return sweep(-end, end, func(angle float64) head.Point {
		phi := geom.Degrees(math.Abs(angle))
		at := func(theta float64) head.Point {
			if (angle > 0) == (side > 0) {
				theta = -theta
			}
			return head.At(h, head.Direction(phi, theta))
		}
		if angle == 0 {
			return at(0)
		}
		f := func(theta float64) float64 { return at(theta).N.X }
		low, high := geom.Degrees(45), geom.Degrees(135)
		return at(geom.Root(f, low, f(low), high, f(high), 1e-9))
	})
}

// rim goes round the head where its surface stands upright.
func rim(h *head.Head) []head.Point {
	return sweep(-180, 180, func(angle float64) head.Point {
		theta := geom.Degrees(angle)
		at := func(phi float64) head.Point { return head.At(h, head.Direction(phi, theta)) }
		f := func(phi float64) float64 { return at(phi).N.Z }
		low, high := geom.Degrees(50), geom.Degrees(125)
		return at(geom.Root(f, low, f(low), high, f(high), 1e-9))
	})
}

// sweep walks from one angle to another in even steps.
func sweep(from, to float64, at func(angle float64) head.Point) []head.Point {
	steps := int(math.Ceil((to - from) / contourStep))
	points := make([]head.Point, steps+1)
	for i := range points {
		points[i] = at(from + float64(float64(i)*(to-from))/float64(steps))
	}
	return points
}
