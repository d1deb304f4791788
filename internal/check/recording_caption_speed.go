package check

import (
	"fmt"
	"unicode/utf8"

	"plait/internal/caption"
	"plait/internal/diag"
	"plait/internal/lesson"
)

var recordingCaptionSpeed = Rule{
	ID:    "recording/caption-speed",
	Title: "captions can be read in their time",
	Why: "A reader has to look at the hands as well. Up to 15 characters a second most people keep up; above 20 most give up on the " +
		"hands or on the text. Captions made by a machine run as fast as the talk.",
	Source:   captionGuides,
	Severity: diag.Warning,
	Of:       Files,
	Before:   captioned("00:00:01.000 --> 00:00:02.000\nTwo parts of 8N hold the level."),
	After:    captioned("00:00:01.000 --> 00:00:04.000\nTwo parts of 8N hold the level."),
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		p.reportWorst(shownCues(l), charactersASecond, 15, 20,
			"let it stand longer where there is a pause behind it, or say it in fewer words",
			func(_ caption.Cue, n float64) string {
				return fmt.Sprintf("this caption runs at %.1f characters a second", n)
			})
	},
}

func charactersASecond(c caption.Cue) float64 {
	return float64(utf8.RuneCountInString(c.Text)) / (c.Until - c.From).Seconds()
}

// captioned is a course whose one lesson has those captions.
func captioned(cues string) string {
	return "-- content/course.yaml --\ntitle: First colours\nlanguage: en-GB\nmodules: [{name: colour, title: Colour, lessons: [gloss]}]\n" +
		"-- lessons/01-gloss/lesson.md --\n---\ntitle: A gloss\nsummary: One bowl.\nrecording: {captions: gloss.en.vtt, length: \"2:00\"}\n---\n\n## Mix\n\nWork in thin sections.\n" +
		"-- lessons/01-gloss/gloss.en.vtt --\nWEBVTT\n\n" + cues
}
