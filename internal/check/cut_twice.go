package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/lesson"
	"plait/internal/sheet"
)

var cutTwice = Rule{
	ID:    "cut/twice",
	Title: "a section is cut once",
	Why: "Of several cuts that name a section the last alone counts: its lengths, map and shape are those of hair that was never " +
		"cut otherwise. On a head both cuts leave their mark. A second cut over the same hair stands on a sheet of its own.",
	Source:   "how plait works out a cut",
	Severity: diag.Warning,
	Of:       Sheet,
	Before:   "cut: [{of: all, guide: {level: -8}}, {of: front, elevation: 90, guide: {length: 12}}]",
	After:    "cut: [{of: [back, nape], guide: {level: -8}}, {of: front, elevation: 90, guide: {length: 12}}]",
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		for _, s := range p.Derived.Sheets(l) {
			for i := range s.Sheet.Cuts {
				p.replaced(s, &s.Sheet.Cuts[i])
			}
		}
	},
}

// replaced reports the sections that later cuts took from a cut.
func (p *Pass) replaced(s *derive.Sheet, cut *sheet.Cut) {
	var names []string
	var last *sheet.Cut
	for _, section := range s.Sections {
		for _, earlier := range section.Replaced {
			if earlier == cut {
				names, last = append(names, section.Name), section.Cut
			}
		}
	}
	if len(names) == 0 {
		return
	}
	d := p.Reportf(cut.Span, "name each section in one cut, or put the second cut on a sheet of its own",
		"this cut of %s does not count: a later one takes its place", several(names))
	*d = d.WithNote(last.Span, "the later cut is here")
}
