package check

import (
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"golang.org/x/tools/txtar"

	"plait/internal/course"
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/lesson"
)

// The test course: one lesson with one bowl, one invented range and house rules. An
// example of a rule replaces the lines of it that it names.
const (
	testSettings = `title: First bowls
language: en-GB
law: GB
scale: 0.1 g
house: {strongest: 9 %, longest: 50 min, without: [6R]}
modules: [{name: bowls, title: Bowls, lessons: [gloss]}]
`
	testRange = `name: Meadow
checked: 2026-03-01
code: {style: letters}
levels: {1: a, 2: b, 3: c, 4: d, 5: e, 6: f, 7: g, 8: h, 9: i, 10: j}
clear: [CL]
powder: [PW]
tones:
  N: {name: natural}
  B: {name: blue ash, base: blue}
  V: {name: violet, base: violet}
  M: {name: matt, base: green}
  G: {name: gold, base: yellow-orange}
  C: {name: copper, base: red-orange}
  R: {name: red, base: red}
shades: [3N, 4N, 4M, 5N, 5C, 6N, 6B, 6G, 6C, 6R, 7N, 7B, 7G, 7C, 8N, 8B, 8V, 8G, 9N, 9V, 10N, 10V, 0V, CL]
kinds:
  permanent: {ratio: "1:1.5", time: 30-45 min, strengths: [3 %, 6 %, 9 %, 12 %]}
  demi: {ratio: "1:2", time: 10-20 min, strengths: [1.8 %]}
  high-lift: {ratio: "1:2", time: 45-55 min, strengths: [9 %, 12 %]}
  lightener: {ratio: "1:2", time: up to 45 min, strengths: [3 %, 6 %, 9 %]}
  toner: {strengths: [1.8 %]}
`
	testHeader = `title: A gloss
summary: One bowl, weighed and timed.
`
	testBlock = `kind: permanent
colour: 30 g 6N
developer: 20 vol
`
	testQuestion = `ask: How much developer goes into the gloss?
given: {formula: gloss}
tests: weighs-bowl
`
	testPaper = `title: Bowls
pass: 70 %
draw: [{questions: 1, lesson: gloss}]
`
	testKept = `
` + "```question two" + `
ask: How much developer goes into the gloss?
given: {formula: gloss}
find: developer
paper: yes
tests: weighs-bowl
` + "```\n\n```question alert" + `
ask: When does the allergy alert test come?
choose: {right: two days before, wrong: [on the day]}
paper: yes
tests: shows-safety
` + "```\n"
	testSheet = `sections:
  - part: ear to ear
  - {part: level, at: occipital bone, to: ear back, of: back, gives: [back, nape]}
`
	testService = `time: 35 min from last section
hair: 6 natural
target: 6
`
)

const (
	settingsFile = "content/course.yaml"
	rangeFile    = "content/ranges/meadow.yaml"
	wordsFile    = "content/words.yaml"
	paperFile    = "content/papers/bowls.yaml"
	lessonFile   = "lessons/01-gloss/lesson.md"
)

// testCourse returns the files of the test course with an example in its place.
func testCourse(of Piece, example string) fstest.MapFS {
	settings, rng, header, block, prose, words := testSettings, testRange, testHeader, testBlock+testService, "", ""
	switch of {
	case Block:
		block = overlay(testBlock, example)
	case Header:
		header = overlay(header, example)
	case Prose:
		prose = "\n" + example + "\n"
	case Question:
		header += "outcomes: {weighs-bowl: Weigh a bowl}\n"
		prose = "\n```question weigh\n" + overlay(testQuestion, example) + "```\n"
	case Paper:
		header += "outcomes: {weighs-bowl: Weigh a bowl, shows-safety: Keep the client safe}\n"
		prose = testKept
		settings = overlay(settings, "house: {pass: 60 %}")
	case Sheet:
		prose = "\n![Where it goes](plan.head.yaml)\n"
	case Range:
		rng = overlay(rng, example)
		settings = overlay(settings, "house: {strongest: 9 %}") // a range of an example has few shades
	case Settings:
		settings = overlay(settings, example)
	case Words:
		words = example
	case Files:
		return archive(rng, example)
	}
	text := "---\n" + header + "---\n\n## Mix\n\n```formula gloss\n" + block + "```\n" + prose
	if of == Lesson {
		text = example
	}
	files := fstest.MapFS{
		settingsFile:                file(settings),
		rangeFile:                   file(rng),
		lessonFile:                  file(text),
		"lessons/01-gloss/plan.svg": file("<svg xmlns=\"http://www.w3.org/2000/svg\"/>"),
		"content/safety.md":         file("---\ntitle: Safety\n---\n\nRead this first.\n"),
	}
	if of == Paper {
		files[paperFile] = file(overlay(testPaper, example))
	}
	if of == Sheet {
		files["lessons/01-gloss/plan.head.yaml"] = file(overlay(testSheet, example))
	}
	if words != "" {
		files[wordsFile] = file(words)
	}
	return files
}

// archive returns a course of the files of an example and the test range.
func archive(rng, example string) fstest.MapFS {
	files := fstest.MapFS{rangeFile: file(rng)}
	for _, f := range txtar.Parse([]byte(example + "\n")).Files {
		files[f.Name] = &fstest.MapFile{Data: f.Data}
	}
	return files
}

func file(text string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(text)} }

// overlay replaces the top-level keys of a YAML text that an example has as well.
func overlay(base, example string) string {
	var kept strings.Builder
	keep := true
	for line := range strings.Lines(base) {
		if key, _, ok := strings.Cut(line, ":"); ok && !strings.HasPrefix(line, " ") {
			keep = !strings.HasPrefix(example, key+":") && !strings.Contains(example, "\n"+key+":")
		}
		if keep {
			kept.WriteString(line)
		}
	}
	return kept.String() + example + "\n"
}

// judge reads and judges a course as a build does.
func judge(t testing.TB, files fs.FS) []diag.Diagnostic {
	t.Helper()
	c, d, found := read(t, files)
	judged, _ := Run(c, d)
	return diag.Sorted(append(found, judged...))
}

// read reads, links and recomputes a course.
func read(t testing.TB, files fs.FS) (*course.Course, *derive.Derived, []diag.Diagnostic) {
	t.Helper()
	var parts course.Parts
	var found, faults []diag.Diagnostic
	parts.Settings, found = course.ReadSettings(files)
	parts.Words, faults = course.ReadWords(files)
	found = append(found, faults...)
	for _, name := range list(t, files, course.RangeFiles) {
		r, faults := course.ReadRange(files, name)
		parts.Ranges, found = append(parts.Ranges, r), append(found, faults...)
	}
	for _, name := range list(t, files, course.PageFiles) {
		p, faults := course.ReadPage(files, name)
		parts.Pages, found = append(parts.Pages, p), append(found, faults...)
	}
	for _, name := range list(t, files, course.PaperFiles) {
		p, faults := course.ReadPaper(files, name)
		parts.Papers, found = append(parts.Papers, p), append(found, faults...)
	}
	for _, folder := range list(t, files, course.LessonFolders) {
		l, faults := lesson.Read(files, folder)
		parts.Lessons, found = append(parts.Lessons, l), append(found, faults...)
	}
	c, faults := course.Link(parts)
	found = append(found, faults...)
	d, faults := derive.Run(c)
	return c, d, append(found, faults...)
}

func list(t testing.TB, files fs.FS, names func(fs.FS) ([]string, error)) []string {
	t.Helper()
	out, err := names(files)
	if err != nil {
		t.Fatal(err)
	}
	return out
}
