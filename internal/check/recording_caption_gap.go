package check

import (
	"fmt"
	"time"

	"plait/internal/caption"
	"plait/internal/diag"
	"plait/internal/lesson"
)

// flicker is the pause between two captions below which the picture flickers: two
// frames of a film of 24 a second.
const flicker = 2 * time.Second / 24

var recordingCaptionGap = Rule{
	ID:    "recording/caption-gap",
	Title: "captions follow each other at once or after a visible pause",
	Why: "Where a caption goes out for one frame only, the text flickers and the eye takes it for a new one. Let the first stand until the " +
		"next begins, or leave a pause that can be seen.",
	Source:   "common practice, no source: two frames at least",
	Severity: diag.Note,
	Of:       Files,
	Before:   captioned("00:00:01.000 --> 00:00:03.000\nTwo parts of 8N.\n\n00:00:03.040 --> 00:00:06.000\nOne part of 8V."),
	After:    captioned("00:00:01.000 --> 00:00:03.040\nTwo parts of 8N.\n\n00:00:03.040 --> 00:00:06.000\nOne part of 8V."),
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		gap := func(before, c caption.Cue) time.Duration { return c.From - before.Until }
		p.reportFirst(shownCues(l), func(before, c caption.Cue) bool { return gap(before, c) > 0 && gap(before, c) < flicker },
			"let the caption before stand until this one begins",
			func(before, c caption.Cue) string {
				return fmt.Sprintf("this caption comes %d ms after the one before it, so that the text flickers", gap(before, c).Milliseconds())
			})
	},
}
