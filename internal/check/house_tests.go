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
	Of:     Files,
	Before: testedLesson("Mix the gloss."),
	After:  testedLesson("Read the allergy alert test, then mix the gloss."),
	Since:  "1.0",
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

// testedLesson is a course that asks for a test, with a lesson of one step.
func testedLesson(step string) string {
	return "-- content/course.yaml --\ntitle: First colours\nlanguage: en-GB\nhouse: {tests: [allergy alert test]}\n" +
		"modules: [{name: colour, title: Colour, lessons: [gloss]}]\n" +
		"-- lessons/01-gloss/lesson.md --\n---\ntitle: A gloss\nsummary: One bowl.\n---\n\n## Mix\n\n" + step +
		"\n\n```formula gloss\nkind: permanent\ncolour: 30 g 6N\ndeveloper: 20 vol\n```"
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
