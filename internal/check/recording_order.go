package check

import (
	"plait/internal/lesson"
	"plait/internal/measure"
)

var recordingOrder = Rule{
	ID:    "recording/order",
	Title: "the times of the steps go up",
	Why: "Steps stand in the order in which they are done. A step that begins before the one above it would throw the reader back in " +
		"the film, and the list of chapters would not be taken.",
	Source: "W3C WebVTT 1, section 4.3: chapters come in order of time",
	Of:     Lesson,
	Before: filmed("2:00", "## 0:42 Mix the gloss", "## 0:20 Rinse"),
	After:  filmed("2:00", "## 0:42 Mix the gloss", "## 1:20 Rinse"),
	Since:  "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		var before *lesson.Step
		for _, s := range l.Steps {
			if !s.Time.Set() {
				continue
			}
			if before != nil && s.Time.From <= before.Time.From {
				d := p.Reportf(s.Time.Span, "mend the time that is wrong, or bring the steps into order",
					"this step begins at %s, not after the step before it", measure.Clock(s.Time.From))
				*d = d.WithNote(before.Time.Span, "the step before begins here")
			}
			before = s
		}
	},
}

// filmed is a lesson with a recording of that length and steps under those headings.
func filmed(length string, headings ...string) string {
	text := "---\ntitle: A gloss\nsummary: One bowl.\nrecording: {length: \"" + length + "\"}\n---\n"
	for _, h := range headings {
		text += "\n" + h + "\n\nWork in thin sections.\n"
	}
	return text
}
