package check

import (
	"strings"

	"plait/internal/diag"
	"plait/internal/lesson"
)

var cutUncut = Rule{
	ID:    "cut/uncut",
	Title: "every section of a head that is cut has a cut",
	Why: "Sections that no cut names keep their length and hang over the others. Where that is meant, a fringe left out for " +
		"example, accept the finding and say so.",
	Source:   "common practice, no source",
	Severity: diag.Warning,
	Of:       Sheet,
	Before:   "cut: [{of: [back, nape], guide: {level: -8}}]",
	After:    "cut: [{of: all, guide: {level: -8}}]",
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		for _, s := range p.Derived.Sheets(l) {
			if s.Cut == nil {
				continue
			}
			var left []string
			for _, section := range s.Sections {
				if section.Cut == nil {
					left = append(left, section.Name)
				}
			}
			if len(left) > 0 {
				p.Reportf(s.Sheet.Cuts[0].Span, "name them in of: of a cut, or accept this and say why they keep their length",
					"no cut names %s", strings.Join(left, ", "))
			}
		}
	},
}
