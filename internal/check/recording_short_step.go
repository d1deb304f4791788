package check

import (
	"plait/internal/diag"
	"plait/internal/lesson"
	"plait/internal/measure"
)

var recordingShortStep = Rule{
	ID:    "recording/short-step",
	Title: "a step takes ten seconds of film or more",
	Why: "Places that host films turn the list of steps into chapters, if each takes at least ten seconds. A shorter step is left out " +
		"of the list that plait writes for the film's description; on the page nothing changes.",
	Source:   "common practice, no source",
	Severity: diag.Note,
	Of:       Lesson,
	Before:   filmed("2:00", "## 0:42 Mix the gloss", "## 0:47 Rinse"),
	After:    filmed("2:00", "## 0:42 Mix the gloss", "## 1:20 Rinse"),
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		if !l.Recording.Set() && !l.Recording.Length.Set() {
			return
		}
		length, _, known := l.RecordingLength()
		chapters := l.Chapters()
		for i, c := range chapters {
			misplaced := i > 0 && c.From <= chapters[i-1].From || known && c.From >= length // other rules say so
			if !c.Listed && !misplaced {
				p.Reportf(c.Time.Span, "join the step with the one before it, or let it stand",
					"this step begins at %s and is too short for a chapter", measure.Clock(c.From))
			}
		}
	},
}
