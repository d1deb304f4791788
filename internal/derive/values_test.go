package derive_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"plait/internal/course"
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/lesson"
	"plait/internal/source"
)

// A course of one lesson with one bowl: 2 parts 8N and 1 part 8V at 1:2 with 6 vol,
// 30 g of colour.
const (
	glossSettings = "title: Gloss\nlanguage: en-GB\nmodules: [{name: a, title: A, lessons: [first]}]\n"
	glossRange    = `name: Meadow
checked: 2026-03-01
code: {style: letters}
levels: {8: medium blonde}
tones: {N: {name: natural}, V: {name: violet, base: violet}}
shades: [8N, 8V]
kinds: {demi: {ratio: "1:2", time: 10-20 min, strengths: [1.8 %]}}
`
	glossLesson = `---
title: First
summary: A bowl.
---

## Mix

Pour ` + "`{developer of gloss}`" + `.

` + "```" + `formula gloss
kind: demi
colour: 2 parts 8N + 1 part 8V
developer: 6 vol
amount: 30 g colour
time: 15 min
` + "```" + `
`
)

// glossOn reads and computes the course of the gloss on a range.
func glossOn(rangeText string) (*course.Course, *derive.Derived, []diag.Diagnostic) {
	files := fstest.MapFS{
		"content/course.yaml":        {Data: []byte(glossSettings)},
		"content/ranges/meadow.yaml": {Data: []byte(rangeText)},
		"lessons/01-first/lesson.md": {Data: []byte(glossLesson)},
	}
	settings, found := course.ReadSettings(files)
	rng, faults := course.ReadRange(files, "content/ranges/meadow.yaml")
	found = append(found, faults...)
	l, faults := lesson.Read(files, "lessons/01-first")
	found = append(found, faults...)
	c, faults := course.Link(course.Parts{Settings: settings, Ranges: []*course.Range{rng}, Lessons: []*lesson.Lesson{l}})
	found = append(found, faults...)
	d, faults := derive.Run(c)
	return c, d, append(found, faults...)
}

// ask asks for a value as the text of the first lesson would.
func ask(t *testing.T, in string) (string, *diag.Diagnostic) {
	t.Helper()
	c, d, found := glossOn(glossRange)
	if len(found) > 0 {
		t.Fatal(found)
	}
	return d.Value(c.Lessons[0], source.Text{Value: in, Span: source.NewFile("text", []byte(in)).Whole()})
}

func expectValue(t *testing.T, in, want string) {
	t.Helper()
	got, fault := ask(t, in)
	if fault != nil {
		got = fault.Message + "; " + fault.Help
	}
	if got != want {
		t.Errorf("{%s} is %q, want %q", in, got, want)
	}
}

// Source: arithmetic. 6 vol is 1.8 % by the trade's rule of three tenths, and two
// thirds of the bowl are developer: 1.2 %.
func TestValue(t *testing.T) {
	expectValue(t, "colour of gloss", "30 g")
	expectValue(t, "8N of gloss", "20 g")
	expectValue(t, "8V of gloss", "10 g")
	expectValue(t, "developer of gloss", "60 g")
	expectValue(t, "mixed of gloss", "90 g")
	expectValue(t, "strength of gloss", "1.2 %")
	expectValue(t, "ratio of gloss", "1:2")
	expectValue(t, "level of gloss", "8")
	expectValue(t, "time of gloss", "15 min")
}

func TestValueFaults(t *testing.T) {
	expectValue(t, "developer", "{developer} names no formula; write what to show and of which formula, as in {developer of gloss}")
	expectValue(t, "developer of glos", `this lesson has no formula "glos"; did you mean "gloss"?`)
	expectValue(t, "developer of roots", `this lesson has no formula "roots"; the formulas of this lesson are: gloss`)
	_, fault := ask(t, "9N of gloss")
	if fault == nil || fault.Message != `gloss has no "9N"` || !strings.HasPrefix(fault.Help, "it has: colour, developer, ") || !strings.HasSuffix(fault.Help, "8N, 8V") {
		t.Errorf("got %+v", fault)
	}
}

// What is wrong with a range is said at the range, once, and not at every formula.
func TestRangeWithErrorsIsNotHeldAgainstFormulas(t *testing.T) {
	_, d, found := glossOn(strings.Replace(glossRange, "tones:", "tonnes:", 1))
	if len(found) != 1 || found[0].Rule != "text/unknown-key" {
		t.Errorf("found %v, want the range's own fault alone", found)
	}
	if d.Formulas[0].OK {
		t.Error("a formula was computed against a range that could not be read")
	}
}

func BenchmarkRun(b *testing.B) {
	c, _, _ := glossOn(glossRange)
	b.ReportAllocs()
	for b.Loop() {
		derive.Run(c)
	}
}
