package silhouette

import (
	"plait/internal/scalp"
	"plait/internal/strand"
)

// Fallen is a haircut as it falls, and what can be said of it in numbers. Lengths are
// in cm and of the hair that is cut.
type Fallen struct {
	*strand.Haircut
	Strands []strand.Strand
	Lengths []strand.Lengths // by the index of the section

	Shortest, Longest float64 // 0 where nothing is cut
	Mean              float64 // over the area that is cut
	Missed            float64 // share of the area of the sections with a cut whose hair does not reach its guide
	Perimeter         []Edge
	Weight            Weight
	Weighted          bool // there is a weight line
}

// Fall lets a haircut fall and measures it.
func Fall(c *strand.Haircut) *Fallen {
	f := &Fallen{Haircut: c, Strands: c.Fall()}
	for section := range c.Plan.Sections {
		f.Lengths = append(f.Lengths, c.Measure(section))
	}
	f.summarise()
	f.Perimeter = Perimeter(f.Strands)
	f.Weight, f.Weighted = WeightLine(c, f.Strands)
	return f
}

// summarise puts the lengths of all sections together.
func (f *Fallen) summarise() {
	meant, cut, sum := 0.0, 0.0, 0.0
	for i, l := range f.Lengths {
		if f.Cuts[i].Guide == nil {
			continue
		}
		section := f.Plan.Sections[i]
		meant += section.Area
		area := float64(section.Area * (1 - l.Missed))
		if area <= 0 {
			continue
		}
		if cut == 0 || l.Shortest < f.Shortest {
			f.Shortest = l.Shortest
		}
		f.Longest = max(f.Longest, l.Longest)
		cut += area
		sum += float64(area * l.Mean)
	}
	if meant > 0 {
		f.Missed = 1 - cut/meant
	}
	if cut > 0 {
		f.Mean = sum / cut
	}
}

// SectionOf returns what was measured of a section by its name.
func (f *Fallen) SectionOf(name string) (l strand.Lengths, s scalp.Section, ok bool) {
	for i, s := range f.Plan.Sections {
		if s.Name == name {
			return f.Lengths[i], s, true
		}
	}
	return strand.Lengths{}, scalp.Section{}, false
}
