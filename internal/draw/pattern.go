package draw

import (
	"math"

	"plait/internal/geom"
	"plait/internal/head"
	"plait/internal/scalp"
)

// choose gives each section of a plan its hatch, so that no two sections with a
// common border have the same and a drawing without colours can be read. Sections are
// taken in their order and get the first family that no neighbour has and that draws no
// rings. Slices come first: those for foil get lines along the hair, the others are
// plain.
func choose(plan *scalp.Plan, neighbours [][]int32) []Hatch {
	neighbouring := adjacency(plan, neighbours)
	rings := ringed(plan)
	chosen := make([]Hatch, len(plan.Sections))
	done := make([]bool, len(plan.Sections))
	for _, i := range slicesFirst(plan) {
		taken := func(h Hatch) bool {
			for k := range chosen {
				if done[k] && neighbouring[i][k] && chosen[k] == h {
					return true
				}
			}
			return false
		}
		chosen[i] = pick(plan.Sections[i], taken, func(h Hatch) float64 { return rings[h.Across][i] })
		done[i] = true
	}
	return chosen
}

// slicesFirst lists the sections, slices before others.
func slicesFirst(plan *scalp.Plan) []int {
	var slices, others []int
	for i, s := range plan.Sections {
		if s.Width > 0 {
			slices = append(slices, i)
		} else {
			others = append(others, i)
		}
	}
	return append(slices, others...)
}

// pick returns the family that is not taken and has the least of rings, the first of
// those that are alike.
func pick(s scalp.Section, taken func(Hatch) bool, rings func(Hatch) float64) Hatch {
	families := hatches
	if s.Foil {
		families = append([]Hatch{{lengthwise, usual}}, hatches[1:]...)
	}
	best, least := Hatch{}, math.Inf(1)
	for _, h := range families {
		if bad := rings(h); !taken(h) && bad < least {
			best, least = h, bad
		}
	}
	return best
}

// adjacency tells which sections have a common border.
func adjacency(plan *scalp.Plan, neighbours [][]int32) [][]bool {
	touching := make([][]bool, len(plan.Sections))
	for i := range touching {
		touching[i] = make([]bool, len(plan.Sections))
	}
	for i, p := range plan.Mesh.Polygons {
		for _, other := range neighbours[i] {
			if p.Section == scalp.Skin || other == scalp.None {
				continue
			}
			if s := plan.Mesh.Polygons[other].Section; s != scalp.Skin && s != p.Section {
				touching[p.Section][s] = true
			}
		}
	}
	return touching
}

// besideExtreme is how far in cm around a point where planes touch the surface their
// lines are rings.
const besideExtreme = 1.2

// ringed tells, for each direction, how bad the rings are that its lines draw in each
// section: zero where the planes touch the surface elsewhere, and else how far from the
// hairline, in cm. Beside the hairline rings are open.
func ringed(plan *scalp.Plan) map[geom.Vec3][]float64 {
	none := make([]float64, len(plan.Sections))
	found := map[geom.Vec3][]float64{{}: none, lengthwise: none}
	for _, h := range hatches[1:] {
		if found[h.Across] != nil {
			continue
		}
		bad := make([]float64, len(plan.Sections))
		for _, d := range []geom.Vec3{h.Across, h.Across.Neg()} {
			touch := touching(plan.Mesh, d)
			depth := max(head.Hair(plan.Head, touch.U), 0)
			for _, p := range plan.Mesh.Polygons {
				near := plan.Mesh.Points[p.Corners[0]].P.Dist(touch.P) < float64(besideExtreme*plan.Head.Size())
				if near && p.Section != scalp.Skin {
					bad[p.Section] = max(bad[p.Section], depth)
				}
			}
		}
		found[h.Across] = bad
	}
	return found
}

// touching returns the point of the mesh whose normal is nearest to a direction.
func touching(mesh *scalp.Mesh, d geom.Vec3) head.Point {
	best, at := 0.0, head.Point{}
	for _, p := range mesh.Points {
		if along := p.N.Dot(d); along > best {
			best, at = along, p
		}
	}
	return at
}
