package check

import (
	"plait/internal/diag"
	"plait/internal/lesson"
	"plait/internal/strand"
)

var cutShort = Rule{
	ID:       "cut/short",
	Title:    "strands stay long enough to be held",
	Why:      "A strand shorter than half a centimetre cannot be held between the fingers and cut; the guide runs out on the head.",
	Source:   "common practice, no source",
	Severity: diag.Warning,
	Of:       Sheet,
	Before:   "cut: [{of: all, elevation: 135, guide: {length: 12, at: hairline, travels: yes}}]",
	After:    "cut: [{of: all, elevation: 135, guide: {length: 22, at: hairline, travels: yes}}]",
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		for _, s := range p.Derived.Sheets(l) {
			for i, section := range s.Sections {
				if section.Cut == nil || s.Cut == nil {
					continue
				}
				of := s.Cut.Lengths[i]
				if of.Longest > 0 && of.Shortest < strand.Shortest {
					p.Reportf(section.Cut.Guide.Span, "start with more length, or lift less", "hair of %q comes to %.1f cm", section.Name, of.Shortest)
				}
			}
		}
	},
}
