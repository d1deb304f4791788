package check

import (
	"strings"

	"plait/internal/lesson"
)

var houseTests = Rule{
	ID:    "house/tests",
	Title: "every lesson with oxidative colour names the tests that the house asks for",
	Why: "The cautions that belong to a colour stand on the page by themselves. Where a salon asks for a test before every service, the " +
		"lesson has to say when it is done and what it showed, so its text names the test.",
	Source: "the house rules of the course",
	Of:     Lesson,
	Before: "---\ntitle: A gloss\nsummary: One bowl.\n---\n\n## Mix\n\n```formula gloss\nkind: permanent\ncolour: 30 g 6N\ndeveloper: 20 vol\n```",
	After: "---\ntitle: A gloss\nsummary: One bowl.\n---\n\n## Test\n\nRead the allergy alert test and the strand test.\n\n" +
		"## Mix\n\n```formula gloss\nkind: permanent\ncolour: 30 g 6N\ndeveloper: 20 vol\n```",
	Since: "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		if len(p.Course.House.Tests) == 0 || !oxidative(l) {
			return
		}
		text := plain(l.File.Text())
		for _, t := range p.Course.House.Tests {
			if !strings.Contains(text, plain(t.Value)) {
				d := p.Reportf(l.Title.Span, "say in a step when it is done, or change the house rule", "the lesson does not name the %s", t.Value)
				*d = d.WithNote(t.Span, "the house rule")
			}
		}
	},
}

// oxidative reports whether a lesson mixes a colour that is developed or lifts.
func oxidative(l *lesson.Lesson) bool {
	for _, f := range l.Formulas {
		if f.Kind.Set() && f.Kind.Value.Oxidative() {
			return true
		}
	}
	return false
}

// plain returns a text in small letters with one space between words, as two texts
// that are broken into lines differently are compared.
func plain(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }
