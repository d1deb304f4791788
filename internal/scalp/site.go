package scalp

import (
	"plait/internal/head"
)

// corners returns the points of the sections that are parted, each once, in order.
func (s *site) corners() []int32 {
	seen := make([]bool, len(s.mesh.Points))
	for _, p := range s.mesh.Polygons {
		if p.Section == Skin || !s.parents(p.Section) {
			continue
		}
		for _, c := range p.Corners {
			seen[c] = true
		}
	}
	var list []int32
	for i, ok := range seen {
		if ok {
			list = append(list, int32(i))
		}
	}
	return list
}

// crossings returns the points where one of the fields is zero, and the side that it
// makes with the others too, in the sections that are parted. The cuts are made
// in a copy of the net, so that the ends lie exactly on the sections' borders.
func (s *site) crossings(fields []field, one int, side func([]float64) float64) []head.Point {
	trial := &site{head: s.head, mesh: s.mesh.clone(), parents: s.parents}
	values, ok := trial.mesh.cutAll(fields)
	if !ok {
		return nil
	}
	at := make([]float64, len(fields))
	var points []head.Point
	for _, i := range trial.corners() {
		for k := range fields {
			at[k] = values[k][i]
		}
		if at[one] == 0 && side(at) == 0 {
			points = append(points, trial.mesh.Points[i])
		}
	}
	return points
}
