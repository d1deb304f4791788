package check

import (
	"fmt"

	"plait/internal/caption"
	"plait/internal/diag"
	"plait/internal/lesson"
)

var recordingCaptionTime = Rule{
	ID:    "recording/caption-time",
	Title: "a caption stands for two to seven seconds",
	Why: "Below a second and a half a caption flashes by before the eye has found it. One that stands for more than seven seconds is read " +
		"twice, and people wonder what they missed.",
	Source:   captionGuides,
	Severity: diag.Warning,
	Of:       Files,
	Before:   captioned("00:00:01.000 --> 00:00:02.000\nRinse."),
	After:    captioned("00:00:01.000 --> 00:00:03.000\nRinse."),
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		cues := shownCues(l)
		// How short a time is, counted so that less is more.
		short := func(c caption.Cue) float64 { return -(c.Until - c.From).Seconds() }
		long := func(c caption.Cue) float64 { return (c.Until - c.From).Seconds() }
		p.reportWorst(cues, short, -2, -1.5, "join it with its neighbour, or let it stand longer",
			func(_ caption.Cue, n float64) string {
				return fmt.Sprintf("this caption stands for %.2g seconds", -n)
			})
		p.reportWorst(cues, long, 7, 7, "make two captions of it, or end it where the sentence ends",
			func(_ caption.Cue, n float64) string {
				return fmt.Sprintf("this caption stands for %.3g seconds", n)
			})
	},
}
