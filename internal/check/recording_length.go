package check

import (
	"plait/internal/lesson"
	"plait/internal/measure"
)

var recordingLength = Rule{
	ID:    "recording/length",
	Title: "a stated length is that of the film",
	Why: "A length that was typed and differs from the film's own by a second or more is that of another cut, and then the times of the " +
		"steps are most likely those of the other cut too.",
	Source: "arithmetic: the length in the headers of the film's file",
	Of:     InWords,
	Before: "recording: {film: gloss.webm, length: \"3:51\"}, where gloss.webm runs for 3:38",
	After:  "recording: {film: gloss.webm}",
	Since:  "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		stated := l.Recording.Length
		if !stated.Set() || l.Film == nil || l.Film.Length == 0 || (stated.Value-l.Film.Length).Abs() < endSlack {
			return
		}
		d := p.Reportf(stated.Span, "look at the times of the steps too, then mend the length or leave it out",
			"the recording is said to run for %s, but the film runs for %s", measure.Clock(stated.Value), measure.Clock(l.Film.Length))
		*d = d.WithNote(l.Recording.Film.Span, "the film")
	},
}
