package check

import (
	"slices"
	"strings"

	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/lesson"
)

var headUncoloured = Rule{
	ID:    "head/uncoloured",
	Title: "every section of a head that is coloured has a bowl",
	Why: "Where formulas name some sections of a sheet and pass over others, hair stays as it was between coloured hair. Slices " +
		"that stay out of foil are meant to, and so may be others: accept the finding and say so.",
	Source:   "common practice, no source",
	Severity: diag.Warning,
	Of:       Files,
	Before:   sheetCourse(sheetShown + goesOn("gloss", "[front, back]")),
	After:    sheetCourse(sheetShown + goesOn("gloss", "[front, back, nape]")),
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		for _, s := range p.Derived.Sheets(l) {
			if bare := uncoloured(s); len(bare) > 0 {
				p.Reportf(s.Span(), "name it in on: of a formula, or accept this and say why it is left out",
					"no formula goes on %s", strings.Join(bare, ", "))
			}
		}
	},
}

// uncoloured returns the sections of a sheet that no bowl goes on, where some bowl
// goes on others. A bowl whose sections another sheet shows first counts for that one.
func uncoloured(s *derive.Sheet) []string {
	foiled := slices.ContainsFunc(s.Sections, func(t derive.SheetSection) bool { return t.Foil })
	meant := false
	var bare []string
	for _, section := range s.Sections {
		meant = meant || slices.ContainsFunc(section.Bowls, func(f *derive.Formula) bool { return f.Where[0].Sheet == s })
		between := foiled && section.Width > 0 && !section.Foil
		if len(section.Bowls) == 0 && !between {
			bare = append(bare, section.Name)
		}
	}
	if !meant {
		return nil
	}
	return bare
}
