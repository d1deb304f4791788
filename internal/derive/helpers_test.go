package derive_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"plait/internal/course"
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/lesson"
)

const (
	settings = `title: First bowls
language: en-GB
modules: [{name: bowls, title: Bowls, lessons: [first]}]
`
	meadow = `name: Meadow
checked: 2026-03-01
code: {style: letters}
levels: {6: lightest brown, 7: dark blonde, 8: medium blonde}
clear: [CL]
powder: [PW]
tones: {N: {name: natural}, V: {name: violet, base: violet}}
shades: [6N, 7N, 8N, 8V, CL, PW]
kinds: {permanent: {ratio: "1:1.5", time: 30-45 min}, lightener: {ratio: "1:2", time: up to 45 min}}
packs: {colour: 60 g, developer: 1000 g, powder: 400 g}
prices: {colour: 7.90 GBP, developer: 9.50 GBP, powder: 20.00 GBP}
`
	// shore is sold in tubes of 100 g, for another money.
	shore = `name: Shore
checked: 2026-03-01
code: {style: letters}
levels: {6: lightest brown, 7: dark blonde}
tones: {N: {name: natural}}
shades: [6N, 7N]
kinds: {permanent: {ratio: "1:2"}}
packs: {colour: 100 g, developer: 1000 g}
prices: {colour: 9.00 EUR}
`
)

// recompute reads and computes a course of one lesson: more settings, more of the
// header and the bowls, each as a name and the lines of its block.
func recompute(t *testing.T, moreSettings, moreHeader string, bowls ...[2]string) (*course.Course, *derive.Derived, []diag.Diagnostic) {
	t.Helper()
	text := "---\ntitle: First\nsummary: A bowl.\n" + moreHeader + "---\n\n## Mix\n"
	for _, b := range bowls {
		text += "\n```formula " + b[0] + "\n" + b[1] + "\n```\n"
	}
	files := fstest.MapFS{
		"content/course.yaml":        {Data: []byte(settings + moreSettings)},
		"content/ranges/meadow.yaml": {Data: []byte(meadow)},
		"content/ranges/shore.yaml":  {Data: []byte(shore)},
		"lessons/01-first/lesson.md": {Data: []byte(text)},
	}
	var parts course.Parts
	var found []diag.Diagnostic
	parts.Settings, found = course.ReadSettings(files)
	for _, name := range []string{"content/ranges/meadow.yaml", "content/ranges/shore.yaml"} {
		rng, faults := course.ReadRange(files, name)
		parts.Ranges, found = append(parts.Ranges, rng), append(found, faults...)
	}
	l, faults := lesson.Read(files, "lessons/01-first")
	parts.Lessons, found = append(parts.Lessons, l), append(found, faults...)
	c, faults := course.Link(parts)
	found = append(found, faults...)
	d, faults := derive.Run(c)
	return c, d, append(found, faults...)
}

// expectFault expects one diagnostic that holds a text, standing at a text.
func expectFault(t *testing.T, found []diag.Diagnostic, at, message string) {
	t.Helper()
	if len(found) != 1 {
		t.Errorf("got %d faults, want one about %q: %v", len(found), message, found)
		return
	}
	d := found[0]
	if !strings.Contains(d.Message, message) || d.Span.Text() != at {
		t.Errorf("got %q at %q, want %q at %q", d.Message, d.Span.Text(), message, at)
	}
	if d.Help == "" {
		t.Errorf("%q shows no way out", d.Message)
	}
}

func expectFine(t *testing.T, found []diag.Diagnostic) {
	t.Helper()
	if len(found) > 0 {
		t.Fatalf("found %v", found)
	}
}
