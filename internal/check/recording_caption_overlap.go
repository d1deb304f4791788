package check

import (
	"plait/internal/caption"
	"plait/internal/diag"
	"plait/internal/lesson"
)

var recordingCaptionOverlap = Rule{
	ID:    "recording/caption-overlap",
	Title: "one caption ends before the next begins",
	Why: "Two captions at once pile up and cover the picture. That is allowed, for two people who talk at the same time; most often it is " +
		"a time that slipped.",
	Source:   "W3C WebVTT 1, section 7: cues that overlap are shown above each other",
	Severity: diag.Warning,
	Of:       Files,
	Before:   captioned("00:00:01.000 --> 00:00:04.000\nTwo parts of 8N.\n\n00:00:03.000 --> 00:00:06.000\nOne part of 8V."),
	After:    captioned("00:00:01.000 --> 00:00:03.000\nTwo parts of 8N.\n\n00:00:03.000 --> 00:00:06.000\nOne part of 8V."),
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		p.reportFirst(shownCues(l), func(before, c caption.Cue) bool { return c.From < before.Until },
			"end the caption before where this one begins",
			func(_, _ caption.Cue) string { return "this caption begins while the one before it still stands" })
	},
}
