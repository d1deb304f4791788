package check

import (
	"plait/internal/lesson"
	"plait/internal/measure"
)

var recordingOverlap = Rule{
	ID:     "recording/overlap",
	Title:  "a step ends before the next begins",
	Why:    "Each moment of the film belongs to one step, so that the page can show which. Two steps that share a stretch have one wrong time.",
	Source: "W3C WebVTT 1, section 4.3: chapters do not overlap in part",
	Of:     Lesson,
	Before: filmed("2:00", "## 0:42-1:30 Mix the gloss", "## 1:20 Rinse"),
	After:  filmed("2:00", "## 0:42-1:20 Mix the gloss", "## 1:20 Rinse"),
	Since:  "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		var before *lesson.Step
		for _, s := range l.Steps {
			if !s.Time.Set() {
				continue
			}
			if before != nil && before.Time.From < s.Time.From && s.Time.From < before.Time.Until {
				d := p.Reportf(before.Time.Span, "end this step where the next begins, or let its end away",
					"this step runs to %s, but the next begins at %s", measure.Clock(before.Time.Until), measure.Clock(s.Time.From))
				*d = d.WithNote(s.Time.Span, "the next step begins here")
			}
			before = s
		}
	},
}
