package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/lesson"
	"plait/internal/source"
)

var headTwice = Rule{
	ID:    "head/twice",
	Title: "two bowls are not on one section at once",
	Why: "One bowl after the other on the same section is a service, a filler and then the colour; both at once are a mistake of " +
		"the plan. Bowls that say for which part of the hair they are, roots or lengths, may share a section.",
	Source:   "common practice, no source",
	Severity: diag.Warning,
	Of:       Files,
	Before:   sheetCourse(sheetShown + goesOn("deep", "[front, back]") + goesOn("bright", "[back, nape]")),
	After:    sheetCourse(sheetShown + goesOn("deep", "[front, back]") + goesOn("bright", "nape")),
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		reported := map[[2]*derive.Formula]bool{}
		for _, s := range p.Derived.Sheets(l) {
			for _, section := range s.Sections {
				for i, second := range section.Bowls {
					for _, first := range section.Bowls[:i] {
						pair := [2]*derive.Formula{first, second}
						if reported[pair] || !p.atOnce(first, second) {
							continue
						}
						reported[pair] = true
						d := p.Reportf(placesOf(second), "take the section out of one of them, or say with start: which comes after the other",
							"%s and %s are both on %q at once", first.Name.Value, second.Name.Value, section.Name)
						*d = d.WithNote(placesOf(first), "%s", first.Name.Value)
					}
				}
			}
		}
	},
}

// atOnce reports whether two bowls are on the same hair at the same time: as their
// timeline says, else where one step has both. Bowls for different zones of the hair
// never are.
func (p *Pass) atOnce(a, b *derive.Formula) bool {
	if x, y := a.Zone(), b.Zone(); x != y && x != "" && y != "" {
		return false
	}
	first, timed := p.Derived.Row(a)
	second, both := p.Derived.Row(b)
	if timed && both {
		return first.Applied.Min < second.Rinse.Min && second.Applied.Min < first.Rinse.Min
	}
	return a.Step == b.Step
}

// placesOf returns where a formula says where it goes.
func placesOf(f *derive.Formula) source.Span {
	if len(f.On) == 0 {
		return f.Span
	}
	return f.On[0].Span
}
