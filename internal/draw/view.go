package draw

import (
	"plait/internal/geom"
	"plait/internal/path"
	"plait/internal/scalp"
)

// View is a side that a head is drawn from. Heads are seen from far away, so that
// parallel lines stay parallel.
type View int

// The views. Left and right are the model's own.
const (
	Left View = iota
	Right
	Back
	Front
	Top
)

// Views lists all views in the order in which they are usually shown.
func Views() []View { return []View{Left, Right, Back, Front, Top} }

// PixelsPerCM is the scale of the reference head. Smaller and larger heads are drawn
// as large as it is.
const PixelsPerCM = 20

// frame says how a view looks at the head: its name, the directions on the page, which
// side of the surface it sees, its canvas and where the point between the ears lies on
// it, in pixels.
type frame struct {
	name, long    string
	right, up     geom.Vec3
	toward        geom.Vec3
	bit           scalp.Facing
	set           bool // the view sees polygons that have the bit, or those without
	width, height int
	origin        path.Point
}

var (
	forward = geom.Vec3{X: 1}
	left    = geom.Vec3{Y: 1}
	up      = geom.Vec3{Z: 1}
)

var frames = [...]frame{
	Left:  {"left", "left profile", forward.Neg(), up, left, scalp.FromLeft, true, 480, 580, path.Point{X: 250, Y: 290}},
	Right: {"right", "right profile", forward, up, left.Neg(), scalp.FromLeft, false, 480, 580, path.Point{X: 230, Y: 290}},
	Back:  {"back", "seen from the back", left.Neg(), up, forward.Neg(), scalp.FromFront, false, 480, 580, path.Point{X: 240, Y: 290}},
	Front: {"front", "seen from the front", left, up, forward, scalp.FromFront, true, 480, 580, path.Point{X: 240, Y: 290}},
	Top:   {"top", "seen from above, the face up", left.Neg(), forward, up, scalp.FromAbove, true, 440, 500, path.Point{X: 220, Y: 260}},
}

// ViewNamed returns the view of a name: left, right, back, front or top.
func ViewNamed(name string) (v View, ok bool) {
	for _, v := range Views() {
		if v.Name() == name {
			return v, true
		}
	}
	return 0, false
}

// Name returns the name that authors give the view.
func (v View) Name() string { return frames[v].name }

// Long returns the view's name in a caption: "left profile".
func (v View) Long() string { return frames[v].long }

// Canvas returns the part of the page that the view takes, in pixels.
func (v View) Canvas() Box {
	f := frames[v]
	return Box{Max: path.Point{X: float64(f.width), Y: float64(f.height)}}
}

// Project returns where a point of space is drawn, for a head of the given size; 1 is
// the reference head.
func (v View) Project(p geom.Vec3, size float64) path.Point {
	f := frames[v]
	return v.Place(p.Dot(f.right)/size, p.Dot(f.up)/size)
}

// Place returns the point of the page that lies right of and above the point between
// the ears, in cm of the reference head.
func (v View) Place(right, up float64) path.Point {
	o := frames[v].origin
	return path.Point{X: o.X + float64(PixelsPerCM*right), Y: o.Y - float64(PixelsPerCM*up)}
}

// Toward returns the direction from the head to the viewer, a unit vector.
func (v View) Toward() geom.Vec3 { return frames[v].toward }

// Sees tells whether polygons that face a way are seen. The head is so round that no
// part of it that faces the viewer is behind another.
func (v View) Sees(facing scalp.Facing) bool {
	f := frames[v]
	return (facing&f.bit != 0) == f.set
}

// Box is an upright rectangle of the page.
type Box struct{ Min, Max path.Point }

// Holding returns the box grown until it holds a point with a margin around it.
func (b Box) Holding(p path.Point, margin float64) Box {
	b.Min.X, b.Min.Y = min(b.Min.X, p.X-margin), min(b.Min.Y, p.Y-margin)
	b.Max.X, b.Max.Y = max(b.Max.X, p.X+margin), max(b.Max.Y, p.Y+margin)
	return b
}
