package strand

import (
	"slices"

	"plait/internal/head"
	"plait/internal/parallel"
	"plait/internal/scalp"
)

// NotCut is the length of a strand that does not reach its guide.
const NotCut = -1

// Lengths are those of the strands of one section after a cut.
type Lengths struct {
	Points []int32   // points of the plan's mesh that strands grow from, ascending
	Cm     []float64 // length of each, or NotCut

	Shortest, Longest     float64 // of those that are cut; 0 where none is
	ShortestAt, LongestAt head.Point
	Mean                  float64 // over the area of the section
	Missed                float64 // share of the section's area that is not cut, 0 to 1
	Why                   error   // most of that is not cut; nil where all is
}

// reasons are why a strand is not cut.
var reasons = []error{ErrOutOfReach, ErrNoGuide, ErrShort, ErrNotCut}

// Measure cuts the strands of a section, by its index. One strand grows from each
// point of the mesh; a mesh of preview detail is fine enough for lengths, which
// change slowly over the head.
func (c *Haircut) Measure(section int) Lengths {
	mesh := c.Plan.Mesh
	cut := Lengths{Points: corners(mesh, section)}
	cut.Cm = make([]float64, len(cut.Points))
	why := make([]error, len(cut.Points))
	parallel.All(0, len(cut.Points), func(i int) {
		cm, err := c.Length(section, mesh.Points[cut.Points[i]])
		if err != nil {
			cm = NotCut
		}
		cut.Cm[i], why[i] = cm, err
	})
	cut.extremes(mesh)
	cut.average(mesh, section, why)
	return cut
}

// corners returns the points of a section, ascending.
func corners(m *scalp.Mesh, section int) []int32 {
	var list []int32
	for _, p := range m.Polygons {
		if p.Section == section {
			list = append(list, p.Corners...)
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}

func (c *Lengths) extremes(m *scalp.Mesh) {
	found := false
	for i, cm := range c.Cm {
		if cm == NotCut {
			continue
		}
		at := m.Points[c.Points[i]]
		if !found || cm < c.Shortest {
			c.Shortest, c.ShortestAt = cm, at
		}
		if !found || cm > c.Longest {
			c.Longest, c.LongestAt = cm, at
		}
		found = true
	}
}

// average gives each polygon the mean of its corners. Why a strand is not cut goes by
// its point.
func (c *Lengths) average(m *scalp.Mesh, section int, why []error) {
	total, reached, sum := 0.0, 0.0, 0.0
	missed := make([]float64, len(reasons))
	for _, p := range m.Polygons {
		if p.Section != section {
			continue
		}
		share := p.Area() / float64(len(p.Corners))
		for _, corner := range p.Corners {
			i, _ := slices.BinarySearch(c.Points, corner)
			total += share
			if c.Cm[i] != NotCut {
				reached += share
				sum += float64(share * c.Cm[i])
				continue
			}
			missed[slices.Index(reasons, why[i])] += share
		}
	}
	if most := slices.Max(missed); most > 0 {
		c.Why = reasons[slices.Index(missed, most)]
	}
	c.Missed = 1 - reached/total
	if reached > 0 {
		c.Mean = sum / reached
	}
}
