package check

import (
	"plait/internal/caption"
	"plait/internal/diag"
	"plait/internal/lesson"
)

var recordingUncaptioned = Rule{
	ID:    "recording/uncaptioned",
	Title: "a film has captions",
	Why: "Whoever cannot hear, or stands in a loud salon, follows by the captions; a film without them leaves these learners out. A timed " +
		"transcript can be read beside the film, but not over it.",
	Source:   "WCAG 2.2, success criterion 1.2.2",
	Severity: diag.Warning,
	Of:       Lesson,
	Before:   "---\ntitle: A gloss\nsummary: One bowl.\nrecording: {link: \"https://films.example/gloss.mp4\"}\n---\n\n## 0:42 Mix",
	After:    "---\ntitle: A gloss\nsummary: One bowl.\nrecording: {length: \"3:51\"}\n---\n\n## 0:42 Mix",
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		at := l.Recording.Film.Span
		if !at.Valid() {
			at = l.Recording.Link.Span
		}
		switch {
		case !l.Recording.Set():
		case l.Recording.Captions.Value == "":
			p.Reportf(at, "add captions: gloss.en.vtt to the recording, a WebVTT or SubRip file", "the film has no captions")
		case l.Captions != nil && l.Captions.Format == caption.FormatTranscript:
			p.Reportf(l.Recording.Captions.Span, "save captions as WebVTT or SubRip", "the film has a transcript, but no captions")
		}
	},
}
