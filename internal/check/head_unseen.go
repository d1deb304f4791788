package check

import (
	"slices"

	"plait/internal/diag"
	"plait/internal/lesson"
)

var headUnseen = Rule{
	ID:       "head/unseen",
	Title:    "a head sheet is shown in its lesson",
	Why:      "A sheet that no picture shows is worked out and checked, and no reader sees it. It is usually a picture that was forgotten.",
	Source:   "common practice, no source",
	Severity: diag.Note,
	Of:       Files,
	Before:   sheetCourse("Part the hair.\n"),
	After:    sheetCourse(sheetShown),
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		for _, s := range l.Sheets {
			if !slices.ContainsFunc(l.Drawings, func(d *lesson.Drawing) bool { return d.Sheet == s }) {
				p.Reportf(s.Span(), `show it in a step, as in ![Where it goes](`+s.Name+`.head.yaml "left, back")`, "no step shows the head sheet %s", s.Name)
			}
		}
	},
}
