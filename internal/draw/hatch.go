package draw

import (
	"math"

	"plait/internal/geom"
	"plait/internal/path"
	"plait/internal/scalp"
)

// Hatch is a family of lines that a section is filled with. They are lines in which
// parallel planes cut the head, so they follow its form and are the same lines in
// every view: straight in profile, curved from behind. The zero Hatch is no lines.
type Hatch struct {
	Across  geom.Vec3 // direction across the planes, a unit vector
	Spacing float64   // of the planes on the reference head, in cm
}

// Spacings of the lines in cm: usual, wide, and narrow for when those are taken.
const (
	usual  = 0.45
	wide   = 0.9
	narrow = 0.3
)

// lengthwise is the direction across the planes that run from the face to the back of
// the head. Their lines go the way that hair is combed.
var lengthwise = geom.Vec3{Y: 1}

// hatches lists the families in the order in which they are chosen: plain, upright,
// leaning forward, level, leaning back; then the same further apart and closer.
var hatches = func() []Hatch {
	const slant = 0.7071067811865476 // √½
	list := []Hatch{{}}
	for _, spacing := range []float64{usual, wide, narrow} {
		list = append(list,
			Hatch{geom.Vec3{X: 1}, spacing}, Hatch{geom.Vec3{X: slant, Z: slant}, spacing},
			Hatch{geom.Vec3{Z: 1}, spacing}, Hatch{geom.Vec3{X: slant, Z: -slant}, spacing})
	}
	return list
}()

// height returns how far a point lies along the direction of the family.
func (h Hatch) height(p geom.Vec3) float64 { return h.Across.Dot(p) }

// plain tells whether there are no lines.
func (h Hatch) plain() bool { return h.Spacing == 0 }

// shortest is the length in pixels below which a line of a hatch is left out.
const shortest = 6

// tracer follows the lines of a hatch over the polygons of one section of a view.
type tracer struct {
	*scene
	keys    []int32
	key     int32
	hatch   Hatch
	spacing float64
	seen    []uint64 // levels of each polygon that were walked, counted from its lowest
}

// hatch returns the path data of the lines over a section.
func (s *scene) hatch(keys []int32, key int32, h Hatch) string {
	t := &tracer{
		scene: s, keys: keys, key: key, hatch: h,
		spacing: float64(h.Spacing * s.size),
		seen:    make([]uint64, len(keys)),
	}
	var d path.Data
	for i := range keys {
		if !t.covers(int32(i)) {
			continue
		}
		first, last := t.levels(int32(i))
		for level := first; level <= last; level++ {
			if t.take(int32(i), level) {
				t.add(&d, t.walk(int32(i), level))
			}
		}
	}
	return d.String()
}

// crowded is the distance in pixels below which lines are left out: near the outline
// they would run together into a dark edge.
const crowded = 3.2

// covers tells whether a polygon belongs to the section and its lines can be told
// apart.
//
// On the page the distance between lines is the spacing divided by the length of the
// gradient of the height over the page. Where the surface has the normal n its depth
// w, toward the viewer, has the slopes −n_u/n_w and −n_v/n_w.
func (t *tracer) covers(polygon int32) bool {
	if polygon == scalp.None || t.keys[polygon] != t.key {
		return false
	}
	f := frames[t.view]
	n := t.mesh.Points[t.mesh.Polygons[polygon].Corners[0]].N
	depth := n.Dot(f.toward)
	if depth < 0.02 {
		return false
	}
	per := t.hatch.Across.Dot(f.toward) / depth
	u := t.hatch.Across.Dot(f.right) - float64(per*n.Dot(f.right))
	v := t.hatch.Across.Dot(f.up) - float64(per*n.Dot(f.up))
	gradient := path.Point{X: u, Y: v}.Len()
	return float64(t.hatch.Spacing*PixelsPerCM) > float64(crowded*gradient)
}

// add writes a line unless it is too short to see.
func (t *tracer) add(d *path.Data, points []path.Point) {
	length := 0.0
	for i := 1; i < len(points); i++ {
		length += points[i].Dist(points[i-1])
	}
	if length >= shortest {
		d.Add(path.Fit(points, path.Medium))
	}
}

// level returns the number of the highest plane at or below a point. The planes lie
// half a spacing off the middle of the head, where landmarks are.
func (t *tracer) level(point int32) int {
	return int(math.Floor(t.hatch.height(t.mesh.Points[point].P)/t.spacing - 0.5))
}

// levels returns the first and the last plane that cut a polygon; none where the last
// is before the first.
func (t *tracer) levels(polygon int32) (first, last int) {
	corners := t.mesh.Polygons[polygon].Corners
	low := t.level(corners[0])
	high := low
	for _, c := range corners[1:] {
		level := t.level(c)
		low, high = min(low, level), max(high, level)
	}
	return low + 1, high
}

// take marks a plane of a polygon as walked; ok is false where it was before.
func (t *tracer) take(polygon int32, level int) (ok bool) {
	first, last := t.levels(polygon)
	if level < first || level > last {
		return false
	}
	bit := uint64(1) << (level - first)
	if t.seen[polygon]&bit != 0 {
		return false
	}
	t.seen[polygon] |= bit
	return true
}

// walk follows a plane through the section both ways from a polygon.
func (t *tracer) walk(start int32, level int) []path.Point {
	var before []path.Point
	closed := false
	for at := start; ; {
		side := t.crossing(at, level, false)
		before = append(before, t.point(at, side, level))
		at = t.neighbours[at][side]
		if at == start {
			closed = true
			break
		}
		if !t.covers(at) || !t.take(at, level) {
			break
		}
	}
	points := make([]path.Point, 0, len(before)+8)
	for i := len(before) - 1; i >= 0; i-- {
		points = append(points, before[i])
	}
	for at := start; !closed; {
		side := t.crossing(at, level, true)
		points = append(points, t.point(at, side, level))
		at = t.neighbours[at][side]
		if !t.covers(at) || !t.take(at, level) {
			break
		}
	}
	if closed {
		points = append(points, points[0])
	}
	return points
}

// crossing returns the side of a polygon on which its border, walked round, comes down
// through a plane, or the one on which it rises through it. What is the one for a
// polygon is the other for its neighbour.
func (t *tracer) crossing(polygon int32, level int, down bool) int {
	corners := t.mesh.Polygons[polygon].Corners
	for k, c := range corners {
		above := t.level(c) >= level
		next := t.level(corners[(k+1)%len(corners)]) >= level
		if above != next && above == down {
			return k
		}
	}
	return 0
}

// point returns where a plane crosses a side of a polygon.
func (t *tracer) point(polygon int32, side, level int) path.Point {
	corners := t.mesh.Polygons[polygon].Corners
	a, b := corners[side], corners[(side+1)%len(corners)]
	fa, fb := t.hatch.height(t.mesh.Points[a].P), t.hatch.height(t.mesh.Points[b].P)
	at := float64((float64(level) + 0.5) * t.spacing)
	if fa == fb {
		return t.points[a]
	}
	return t.points[a].Mix(t.points[b], (at-fa)/(fb-fa))
}
