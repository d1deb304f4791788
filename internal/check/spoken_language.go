package check

import (
	"strings"

	"plait/internal/caption"
	"plait/internal/diag"
	"plait/internal/lesson"
)

var spokenLanguage = Rule{
	ID:       "spoken/language",
	Title:    "what is said can be held against the cards",
	Why:      "The phrases by which facts are heard are English. Talk in another language is not read rather than read wrongly, so nobody compares its film with its cards but you.",
	Source:   "common practice, no source",
	Severity: diag.Note,
	Of:       Files,
	Before:   inLanguage("de"),
	After:    inLanguage("en"),
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		if language := p.spokenLanguage(l); l.Captions != nil && !caption.IsEnglish(language) {
			p.Reportf(l.Recording.Captions.Span, "compare the film with the cards yourself; name the file as in gloss.en.vtt where it is English",
				"the captions are in %q, and only English talk is held against the cards", language)
		}
	},
}

// inLanguage is the example of a spoken rule with captions in a language.
func inLanguage(tag string) string {
	return strings.ReplaceAll(spokenExample("kind: permanent\ncolour: 30 g 8N\ndeveloper: 10 vol", "Ten volume with it."), "gloss.en.vtt", "gloss."+tag+".vtt")
}
