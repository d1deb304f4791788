package strand

import (
	"math"
	"slices"

	"plait/internal/head"
	"plait/internal/parallel"
	"plait/internal/scalp"
)

// Strand is one strand of a haircut as it falls.
type Strand struct {
	Root    head.Point
	Section int
	Area    float64 // of the scalp that it stands for, in cm²; 0 at the hairline
	Edge    bool    // grows at the hairline, where strands make the line that is seen
	Cut     bool    // reached its guide
	Path    Path
	Before  Path // as it fell before the cut; as Path where that is not known
}

// Fall returns how the hair falls: one strand from each point of the mesh, and from
// a closer row along the hairline, without which the edge would be ragged. Hair of
// unknown length that is not cut is left out, and so is hair right on a centre
// parting, which may fall to either side.
func (c *Haircut) Fall() []Strand {
	strands := c.roots()
	parallel.All(0, len(strands), func(i int) { c.fall(&strands[i]) })
	kept := strands[:0]
	for _, s := range strands {
		if len(s.Path) > 1 {
			kept = append(kept, s)
		}
	}
	return kept
}

// fall works out how one strand falls. Before the cut it fell the same way, only
// further.
func (c *Haircut) fall(s *Strand) {
	if c.Dressing == CentreParting && math.Abs(s.Root.P.Y) < 1e-9 {
		return
	}
	length, err := c.Length(s.Section, s.Root)
	s.Cut = err == nil
	s.Before = Fall(c.Plan.Head, s.Root, c.Dressing, max(length, c.Before))
	s.Path = s.Before.Cut(length)
}

// closer is the number of roots along one side of the mesh at the hairline.
const closer = 4

// roots returns the roots of all strands with their sections: a point on a border
// belongs to the section of the first polygon that it is a corner of.
func (c *Haircut) roots() []Strand {
	mesh := c.Plan.Mesh
	inside := make([]Strand, len(mesh.Points))
	for i := range inside {
		inside[i] = Strand{Root: mesh.Points[i], Section: scalp.Skin}
	}
	neighbours := mesh.Neighbours()
	var edge []Strand
	for i, p := range mesh.Polygons {
		if p.Section == scalp.Skin {
			continue
		}
		for k, corner := range p.Corners {
			if inside[corner].Section == scalp.Skin {
				inside[corner].Section = p.Section
			}
			inside[corner].Area += p.Area() / float64(len(p.Corners))
			if other := neighbours[i][k]; other != scalp.None && mesh.Polygons[other].Section == scalp.Skin {
				from, to := mesh.Points[corner], mesh.Points[p.Corners[(k+1)%len(p.Corners)]]
				edge = append(edge, c.row(p.Section, from, to)...)
			}
		}
	}
	bald := func(s Strand) bool { return s.Section == scalp.Skin }
	return append(slices.DeleteFunc(inside, bald), edge...)
}

// row returns the roots of a side at the hairline.
func (c *Haircut) row(section int, from, to head.Point) []Strand {
	var row []Strand
	for k := range closer {
		root := head.AtHairline(c.Plan.Head, from.U.Mix(to.U, float64(k)/closer))
		row = append(row, Strand{Root: root, Section: section, Edge: true})
	}
	return row
}
