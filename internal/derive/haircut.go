package derive

import (
	"math"
	"slices"

	"plait/internal/diag"
	"plait/internal/geom"
	"plait/internal/head"
	"plait/internal/scalp"
	"plait/internal/sheet"
	"plait/internal/silhouette"
	"plait/internal/source"
	"plait/internal/strand"
)

// Cut is what a haircut comes to, in cm.
type Cut struct {
	Lengths           []strand.Lengths // by the index of the section; zero where no guide cuts it
	Shortest, Longest float64          // of all hair that is cut; 0 where none is
	Mean              float64
	Weight            silhouette.Weight
	Weighted          bool // there is a weight line
	marks             []mark
}

// mark is the length of the hair at a landmark or at a place that a claim names.
type mark struct {
	place string
	cm    float64
	cut   bool
}

// At returns the length of the hair at a landmark, or at a place that a claim of the
// sheet names; ok is false where it is neither or where its hair is not cut.
func (c *Cut) At(place string) (cm float64, ok bool) {
	for _, m := range c.marks {
		if m.place == place {
			return m.cm, m.cut
		}
	}
	return 0, false
}

// fall works out the haircut of a sheet, nil where nothing is cut. Cuts are made in
// their order; a section that is cut again has the last of its cuts.
func fall(s *sheet.Sheet) *silhouette.Fallen {
	if len(s.Cuts) == 0 {
		return nil
	}
	plan, err := baseOf(s.Head, cutDetail).Part(s.Taken())
	if err != nil {
		return nil
	}
	h := &strand.Haircut{
		Plan: plan, Cuts: make([]strand.Cut, len(plan.Sections)),
		Before: s.Uncut(), Dressing: s.Ends(),
	}
	for i := range s.Cuts {
		cut := &s.Cuts[i]
		of, _ := sectionsMeant(cut.Of, planNames(plan))
		if guide, ok := guideOn(h, cut, of); ok {
			for _, k := range of {
				h.Cuts[k] = strand.Cut{Guide: guide, Lift: cut.Lift}
			}
		}
	}
	return silhouette.Fall(h)
}

func planNames(p *scalp.Plan) []string {
	names := make([]string, len(p.Sections))
	for i, s := range p.Sections {
		names[i] = s.Name
	}
	return names
}

// guideOn makes the guide of a cut of some sections.
func guideOn(h *strand.Haircut, cut *sheet.Cut, of []int) (strand.Guide, bool) {
	if cut.Guide.After.Value == "" {
		guide, faults := cut.Guide.On(h.Plan.Head, h.Dressing)
		return guide, len(faults) == 0
	}
	after, _ := sectionsMeant([]source.Text{cut.Guide.After}, planNames(h.Plan))
	root, section, ok := meeting(h.Plan, after, of)
	if !ok {
		return nil, false
	}
	below := h.Cuts[section]
	if below.Guide == nil {
		return nil, false
	}
	return strand.Travelling{Line: geom.PlaneAt(root.P, geom.Vec3{Z: 1}), Below: &below}, true
}

// meeting returns the lowest point in which sections meet those that were cut
// before, and one of those.
func meeting(p *scalp.Plan, before, now []int) (root head.Point, section int, ok bool) {
	owner := make([]int, len(p.Mesh.Points))
	for i := range owner {
		owner[i] = scalp.Skin
	}
	for _, polygon := range p.Mesh.Polygons {
		if slices.Contains(before, polygon.Section) {
			for _, c := range polygon.Corners {
				owner[c] = polygon.Section
			}
		}
	}
	lowest := math.Inf(1)
	for _, polygon := range p.Mesh.Polygons {
		if !slices.Contains(now, polygon.Section) {
			continue
		}
		for _, c := range polygon.Corners {
			if at := p.Mesh.Points[c]; owner[c] != scalp.Skin && at.P.Z < lowest {
				root, section, ok, lowest = at, owner[c], true, at.P.Z
			}
		}
	}
	return root, section, ok
}

// summary keeps what a haircut comes to.
func summary(s *sheet.Sheet, f *silhouette.Fallen) *Cut {
	if f == nil {
		return nil
	}
	c := &Cut{
		Lengths: slices.Clone(f.Lengths), Shortest: f.Shortest, Longest: f.Longest, Mean: f.Mean,
		Weight: f.Weight, Weighted: f.Weighted,
	}
	for i := range c.Lengths {
		if f.Cuts[i].Guide == nil {
			c.Lengths[i] = strand.Lengths{}
		}
		c.Lengths[i].Points, c.Lengths[i].Cm = nil, nil // a map of lengths is drawn from the plan
	}
	for _, name := range f.Plan.Head.Landmarks() {
		cm, ok := f.At(name)
		c.marks = append(c.marks, mark{name, cm, ok})
	}
	for i := range s.Cuts {
		for _, claim := range s.Cuts[i].Lengths {
			root, fault := sheet.Place(f.Plan.Head, claim.Of)
			if fault != nil {
				continue
			}
			cm, err := f.Length(f.Plan.SectionAt(root), root)
			c.marks = append(c.marks, mark{claim.Of.Value, cm, err == nil})
		}
	}
	return c
}

// cuts gives each section its cut and reports what cuts ask for in vain.
func (s *Sheet) cuts() []diag.Diagnostic {
	var found []diag.Diagnostic
	for i := range s.Sheet.Cuts {
		cut := &s.Sheet.Cuts[i]
		of, unknown := sectionsMeant(cut.Of, s.Names())
		for _, t := range unknown {
			found = append(found, s.unknownSection(t))
		}
		found = append(found, s.guide(cut, of)...)
		for _, claim := range cut.Lengths {
			if _, fault := sheet.Place(s.Sheet.Head.New(), claim.Of); fault != nil {
				found = append(found, *fault)
			}
		}
		for _, k := range of {
			section := &s.Sections[k]
			if section.Cut != nil {
				section.Replaced = append(section.Replaced, section.Cut)
			}
			section.Cut = cut
		}
	}
	return found
}

// guide reports a guide that cannot be found on the head, or goes on from hair that
// is not cut yet.
func (s *Sheet) guide(cut *sheet.Cut, of []int) []diag.Diagnostic {
	after := cut.Guide.After
	if after.Value == "" {
		_, faults := cut.Guide.On(s.Sheet.Head.New(), s.Ends())
		return faults
	}
	from, unknown := sectionsMeant([]source.Text{after}, s.Names())
	if len(unknown) > 0 {
		return []diag.Diagnostic{s.unknownSection(after)}
	}
	for _, k := range from {
		if s.Sections[k].Cut == nil {
			return []diag.Diagnostic{diag.Errorf("cut/order", after.Span, "the guide goes on from %q, which is not cut yet", s.Sections[k].Name).
				WithHelp("put the cut of %s first, or start with a length of its own, as in guide: {length: 5, at: hairline, travels: yes}", s.Sections[k].Name)}
		}
	}
	if _, _, meet := meeting(s.Plan(), from, of); !meet {
		return []diag.Diagnostic{diag.Errorf("cut/order", after.Span, "no section of this cut touches %q, so no slice of it can travel on", after.Value).
			WithHelp("go on from a section beside it")}
	}
	return nil
}
