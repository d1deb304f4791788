package check

import (
	"fmt"
	"unicode/utf8"

	"plait/internal/caption"
	"plait/internal/diag"
	"plait/internal/lesson"
)

var recordingCaptionLines = Rule{
	ID:    "recording/caption-lines",
	Title: "a caption has two short lines at most",
	Why: "Captions stand over the picture. The usual guides stop at 37 or 42 characters a line. A longer one may be " +
		"broken anew by the player, and a third line covers the hands.",
	Source:   captionGuides,
	Severity: diag.Warning,
	Of:       Files,
	Before:   captioned("00:00:01.000 --> 00:00:06.000\nTwo parts of 8N hold the level and one part of 8V takes the yellow."),
	After:    captioned("00:00:01.000 --> 00:00:06.000\nTwo parts of 8N hold the level\nand one part of 8V takes the yellow."),
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		cues := shownCues(l)
		p.reportWorst(cues, longestLine, 37, 42, "break the line at a pause, or make two captions of it",
			func(_ caption.Cue, n float64) string {
				return fmt.Sprintf("a line of this caption has %.0f characters", n)
			})
		p.reportWorst(cues, lineCount, 2, 2, "make two captions of it",
			func(_ caption.Cue, n float64) string { return fmt.Sprintf("this caption has %.0f lines", n) })
	},
}

func longestLine(c caption.Cue) float64 {
	longest := 0
	for _, line := range c.Lines() {
		longest = max(longest, utf8.RuneCountInString(line))
	}
	return float64(longest)
}

func lineCount(c caption.Cue) float64 { return float64(len(c.Lines())) }
