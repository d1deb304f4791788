package course

import (
	"errors"
	"fmt"
	"io/fs"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"

	"plait/internal/diag"
	"plait/internal/lesson"
)

const (
	goodSettings = `title: Harbour Row
language: en-GB
scale: 0.1 g
range: meadow
modules:
  - name: mixing
    title: Mixing
    lessons: [gloss, roots]
house: {strongest: 9 %}
`
	goodRange = `name: Meadow
checked: 2026-03-01
code: {style: letters}
levels: {7: dark blonde, 8: medium blonde}
clear: [CL]
tones: {N: {name: natural}, V: {name: violet, base: violet}}
shades: [7N, 8N, 8V, CL, PW]
kinds: {demi: {ratio: "1:2", time: 10-20 min, strengths: [1.8 %]}}
packs: {colour: 60 g, developer: 1000 g}
prices: {colour: 7.90 GBP, developer: 9.50 GBP}
undertone: {7: orange, 8: yellow}
powder: [PW]
`
	goodWords = "- {term: base, meaning: The hue of a tone., see: [tone]}\n- {term: tone, meaning: A reflect.}\n"
	goodPage  = "---\ntitle: About\n---\n\nSee [the gloss](../lessons/01-gloss/lesson.md#mix).\n"
	goodGloss = "---\ntitle: A gloss\nsummary: One bowl.\n---\n\n## Mix\n\n```formula gloss\nkind: demi\ncolour: 8N\ndeveloper: 6 vol\namount: 30 g colour\n```\n"
	goodRoots = "---\ntitle: Roots\nsummary: Look.\n---\n\n## Look\n\nGo [back](../01-gloss/lesson.md), or [read](../../content/about.md).\n"
)

func goodFiles() fstest.MapFS {
	files := fstest.MapFS{}
	for name, text := range map[string]string{
		SettingsFile: goodSettings, "content/ranges/meadow.yaml": goodRange, WordsFile: goodWords,
		"content/about.md": goodPage, "lessons/01-gloss/lesson.md": goodGloss, "lessons/02-roots/lesson.md": goodRoots,
		"lessons/.hidden/x": "", "lessons/_later/x": "", "lessons/notes.txt": "",
	} {
		files[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return files
}

// readAll reads and links the course in a file system.
func readAll(t testing.TB, files fs.FS) (*Course, []diag.Diagnostic) {
	t.Helper()
	must := func(names []string, err error) []string {
		if err != nil {
			t.Fatal(err)
		}
		return names
	}
	var p Parts
	var found []diag.Diagnostic
	p.Settings, found = ReadSettings(files)
	words, faults := ReadWords(files)
	p.Words, found = words, append(found, faults...)
	for _, name := range must(RangeFiles(files)) {
		r, faults := ReadRange(files, name)
		p.Ranges, found = append(p.Ranges, r), append(found, faults...)
	}
	for _, name := range must(PageFiles(files)) {
		page, faults := ReadPage(files, name)
		p.Pages, found = append(p.Pages, page), append(found, faults...)
	}
	for _, folder := range must(LessonFolders(files)) {
		l, faults := lesson.Read(files, folder)
		p.Lessons, found = append(p.Lessons, l), append(found, faults...)
	}
	c, faults := Link(p)
	return c, diag.Sorted(append(found, faults...))
}

func show(list []diag.Diagnostic) string {
	var lines []string
	for _, d := range list {
		at := d.Span.Start()
		lines = append(lines, fmt.Sprintf("%s:%d:%d %s: %s; %s", d.Span.File().Name(), at.Line, at.Column, d.Rule, d.Message, d.Help))
	}
	return strings.Join(lines, "\n")
}

// expectFaults reads the good course with one text replaced by another in a file;
// an empty text stands for the whole file.
func expectFaults(t *testing.T, name, old, with string, want ...string) {
	t.Helper()
	files := goodFiles()
	text := string(files[name].Data)
	if !strings.Contains(text, old) {
		t.Fatalf("%q is not in %s", old, name)
	}
	if old == "" {
		old = text
	}
	files[name].Data = []byte(strings.Replace(text, old, with, 1))
	expectFound(t, files, want...)
}

func expectFound(t *testing.T, files fs.FS, want ...string) {
	t.Helper()
	_, found := readAll(t, files)
	if got := show(found); got != strings.Join(want, "\n") {
		t.Errorf("\n got %s\nwant %s", got, strings.Join(want, "\n"))
	}
}

func TestGoodCourse(t *testing.T) {
	c, found := readAll(t, goodFiles())
	if len(found) > 0 {
		t.Fatal(show(found))
	}
	if len(c.Modules) != 1 || len(c.Lessons) != 2 || len(c.Drafts) != 0 || len(c.Words) != 2 || len(c.Pages) != 1 {
		t.Fatalf("%d modules, %d lessons, %d drafts, %d words, %d pages", len(c.Modules), len(c.Lessons), len(c.Drafts), len(c.Words), len(c.Pages))
	}
	roots, ok := c.Lesson("roots")
	if m, place := c.ModuleOf(roots); !ok || m != c.Modules[0] || place != 1 {
		t.Errorf("roots is lesson %d of %v", place, m)
	}
	gloss, _ := c.Lesson("gloss")
	if r := c.RangeFor(gloss, gloss.Formulas[0]); r == nil || r.ID != "meadow" {
		t.Errorf("the gloss takes its shades from %v", r)
	}
}

// A lesson is what its own folder says: the same alone and in its course.
func TestLessonIsTheSameAloneAndInItsCourse(t *testing.T) {
	files := goodFiles()
	c, _ := readAll(t, files)
	for _, inCourse := range c.Lessons {
		alone, found := lesson.Read(only(files, inCourse.Folder), inCourse.Folder)
		if len(found) > 0 {
			t.Fatal(show(found))
		}
		if alone.Title.Value != inCourse.Title.Value || len(alone.Steps) != len(inCourse.Steps) || len(alone.Doc.Links) != len(inCourse.Doc.Links) {
			t.Errorf("%s differs alone", alone.Name)
		}
		for i, f := range alone.Formulas {
			if !reflect.DeepEqual(f.Block.Short(), inCourse.Formulas[i].Block.Short()) {
				t.Errorf("formula %s differs alone", f.Name.Value)
			}
		}
	}
}

// only keeps the files of one folder.
func only(files fstest.MapFS, folder string) fstest.MapFS {
	out := fstest.MapFS{}
	for name, f := range files {
		if strings.HasPrefix(name, folder+"/") {
			out[name] = f
		}
	}
	return out
}

func TestSettingsFaults(t *testing.T) {
	expectFaults(t, SettingsFile, "language: en-GB", "language: British English", `content/course.yaml:2:11 course/language: "British English" is no language tag; write a tag such as en-GB, de or fr-CA`)
	expectFaults(t, SettingsFile, "language: en-GB\n", "", "content/course.yaml:1:1 text/missing-key: course.yaml has no \"language\"; add a line `language: …`")
	expectFaults(t, SettingsFile, "scale: 0.1 g", "scale: 0 g", `content/course.yaml:3:8 course/scale: no scale in a salon reads in steps of 0 g; write what the last digit of the scale stands for: 0.1 g or 1 g`)
	expectFaults(t, SettingsFile, "scale: 0.1 g", "scale: 0.1", `content/course.yaml:3:8 course/scale: "0.1" has no unit; write 0.1 g`)
	expectFaults(t, SettingsFile, "name: mixing", "name: Mixing it", `content/course.yaml:6:11 course/name: the module name "Mixing it" cannot stand in an address; use small letters, digits and hyphens, as in on-the-head`)
	expectFaults(t, SettingsFile, "range: meadow", "range: medow", `content/course.yaml:4:8 range/unknown: there is no range "medow"; did you mean "meadow"?`)
	expectFaults(t, SettingsFile, "range: meadow", "address: harbour-row", `content/course.yaml:4:10 course/address: "harbour-row" is not the address of a site; write it whole, as in https://example.org/course/`)
	expectFaults(t, SettingsFile, "range: meadow", "layouts: ../own", `content/course.yaml:4:10 text/unreadable: there is no folder "../own" in this course; name a folder inside the course, from its top, or leave layouts out to use plait's own`)
	expectFaults(t, SettingsFile, "9 %", "9", `content/course.yaml:9:20 house/rules: "9" is not a developer strength; write volumes or per cent, as in 20 vol or 6 %`)
	expectFaults(t, SettingsFile, "", "", "content/course.yaml:1:1 text/wrong-kind: course.yaml is empty, want a map of keys and values; fill it in, or delete it")
}

func TestModuleFaults(t *testing.T) {
	expectFaults(t, SettingsFile, "[gloss, roots]", "[gloss, root]",
		`content/course.yaml:8:22 course/lesson: there is no lesson "root"; did you mean "roots"?`,
		"lessons/02-roots/lesson.md:2:8 course/stray: no module teaches this lesson; add roots to the lessons of a module in content/course.yaml, or write ready: no in its header")
	expectFaults(t, SettingsFile, "[gloss, roots]", "[gloss, roots, gloss]", `content/course.yaml:8:29 course/lesson-placed-twice: the lesson "gloss" is taught twice; keep it in one module; others can link to it`)
	expectFaults(t, SettingsFile, "house:", "  - {name: mixing, title: Again, lessons: []}\nhouse:", `content/course.yaml:9:12 course/module-twice: two modules are called "mixing"; give one of them another name`)
	expectFaults(t, "lessons/02-roots/lesson.md", "summary: Look.", "summary: Look.\nready: no")
	expectFaults(t, "lessons/01-gloss/lesson.md", "summary: One bowl.", "summary: One bowl.\nready: no",
		`content/about.md:5:17 text/link: the link "../lessons/01-gloss/lesson.md#mix" leads to a lesson that is not ready and has no page; take the link away until it is, or take ready: no out of its header`,
		`lessons/02-roots/lesson.md:8:11 text/link: the link "../01-gloss/lesson.md" leads to a lesson that is not ready and has no page; take the link away until it is, or take ready: no out of its header`)
}

func TestNames(t *testing.T) {
	files := goodFiles()
	files["lessons/03-gloss/lesson.md"] = files["lessons/01-gloss/lesson.md"]
	expectFound(t, files, `lessons/03-gloss/lesson.md:2:8 course/lesson-twice: two lessons are called "gloss"; give one of the folders another name behind its number`)

	files = goodFiles()
	files["lessons/03-The end/lesson.md"] = files["lessons/02-roots/lesson.md"]
	expectFound(t, files, `lessons/03-The end/lesson.md:2:8 course/name: the folder name "The end" cannot stand in an address; use small letters, digits and hyphens, as in 04-brassy-gloss`)

	files = goodFiles()
	files["lessons/03-pictures/bowl.svg"] = &fstest.MapFile{}
	expectFound(t, files, "lessons/03-pictures/lesson.md:1:1 text/missing: lessons/03-pictures/lesson.md is missing; add the file, or take its folder away")
}

func TestLinkFaults(t *testing.T) {
	const roots = "lessons/02-roots/lesson.md"
	expectFaults(t, roots, "../01-gloss/lesson.md", "../01-glos/lesson.md", roots+`:8:11 text/link: the link "../01-glos/lesson.md" leads nowhere; name a file of the course from here, as in ../04-brassy-gloss/lesson.md, or a whole address with https://`)
	expectFaults(t, roots, "../01-gloss/lesson.md", "../01-gloss/lesson.md#mx", roots+":8:11 text/link: there is no heading #mx; the headings are: #mix")
	expectFaults(t, roots, "../01-gloss/lesson.md", "#look")
	expectFaults(t, roots, "../01-gloss/lesson.md", "https://example.org/")
	expectFaults(t, roots, "../01-gloss/lesson.md", "../../public/rules.html")
	expectFaults(t, roots, "../01-gloss/lesson.md", "../../public/order.html", roots+`:8:11 text/link: the link "../../public/order.html" leads nowhere; name a file of the course from here, as in ../04-brassy-gloss/lesson.md, or a whole address with https://`)
	expectFaults(t, roots, "../01-gloss/lesson.md", "../../public/rules.html#formula", roots+`:8:11 text/link: the link "../../public/rules.html#formula" leads nowhere; name a file of the course from here, as in ../04-brassy-gloss/lesson.md, or a whole address with https://`)
	expectFaults(t, "content/about.md", "#mix", "#mixx", "content/about.md:5:17 text/link: there is no heading #mixx; did you mean #mix?")
}

func TestWordFaults(t *testing.T) {
	expectFaults(t, WordsFile, "[tone]", "[tones]", `content/words.yaml:1:51 words/see: the word list has no "tones"; did you mean "tone"?`)
	expectFaults(t, WordsFile, "term: tone", "term: base",
		`content/words.yaml:1:51 words/see: the word list has no "tone"; add the word, or take the reference away`,
		`content/words.yaml:2:10 words/twice: "base" is in the word list twice; keep one of the two`)
}

func TestRangeFaults(t *testing.T) {
	const meadow = "content/ranges/meadow.yaml"
	expectFaults(t, meadow, "2026-03-01", "last spring", meadow+`:2:10 range/checked: "last spring" is not a date; write the day the rules were last read from the maker, as in 2026-03-01`)
	expectFaults(t, meadow, "style: letters", "style: colours", meadow+`:3:15 range/code: "colours" is no way of writing codes; write letters (8V) or digits (8.2)`)
	expectFaults(t, meadow, "{7: dark", "{0: dark", meadow+`:4:10 range/level: "0" is not a level; levels are whole numbers from 1 (black); most ranges end at 10`)
	expectFaults(t, meadow, "base: violet", "base: purple", meadow+`:6:53 range/hue: "purple" is not a hue of the colour wheel; the hues are: red, red-orange, orange, yellow-orange, yellow, yellow-green, green, blue-green, blue, blue-violet, violet, red-violet`)
	expectFaults(t, meadow, "[7N,", "[7Z,", meadow+`:7:10 range/code: shade "7Z" has no tone "Z" in this range; write the code as this range does, or mend code and tones above`)
	expectFaults(t, meadow, "[7N,", "[6N,", meadow+`:7:10 range/level: shade "6N" lies outside the levels of the range; add the level under levels, or mend the code`)
	expectFaults(t, meadow, "[7N,", "[8N,", meadow+`:7:14 range/shade-twice: shade "8N" is listed twice; delete one of them`)
	expectFaults(t, meadow, "demi:", "semi:", meadow+`:8:9 range/kind: "semi" is not a kind of colour; the kinds are: permanent, demi, toner, acid toner, alkaline toner, high-lift, lightener, filler, direct`)
	expectFaults(t, meadow, `"1:2"`, `"2:1"`, meadow+`:8:24 range/ratio: ratio "2:1" is ambiguous: plait reads colour:developer, and colour is never the larger; if you mean 2 of developer to 1 of colour, write 1:2`)
	expectFaults(t, meadow, "[1.8 %]", "[13 %]", meadow+`:8:59 range/strength: 13 % is stronger than any developer may be; the law stops at 12 % (40 vol)`)
	expectFaults(t, meadow, "colour: 60 g", "colour: 0 g", meadow+":9:17 range/pack: a pack of nothing; write what the pack holds, as in 60 g")
	expectFaults(t, meadow, "7.90 GBP", "7.90", meadow+`:10:18 range/price: "7.90" is not a price; write the amount and the currency, as in 7.90 GBP`)
	expectFaults(t, meadow, "9.50 GBP", "9.50 EUR", meadow+":10:1 range/currency: prices in GBP and in EUR; give all prices of a range in one currency")
	expectFaults(t, meadow, "{7: orange, 8: yellow}", "{7: yellow, 8: orange}", meadow+":11:27 range/undertone: level 8 is orange, but level 7 below it is already yellow; as hair gets lighter its warmth goes from red through orange to yellow, never back")
	expectFaults(t, meadow, "tones:", "tonnes:", meadow+`:6:1 text/unknown-key: a range has no key "tonnes"; did you mean "tones"? the keys are: name, checked, code, levels, clear, powder, tones, shades, kinds, packs, prices, undertone, ingredients, with`)
}

// A powder lightener is told from a clear, though both have neither level nor tone.
func TestRangePowder(t *testing.T) {
	rng, found := ReadRange(goodFiles(), "content/ranges/meadow.yaml")
	if len(found) > 0 {
		t.Fatalf("found %s", show(found))
	}
	for text, want := range map[string]bool{"PW": true, "CL": false, "8V": false} {
		code, err := rng.Find(text)
		if err != nil || rng.IsPowder(code) != want {
			t.Errorf("%s is a powder: %v, %v; want %v", text, rng.IsPowder(code), err, want)
		}
	}
}

// Where a folder cannot be listed nothing is said about what may lie in it.
func TestUnlistedFolder(t *testing.T) {
	settings, _ := ReadSettings(goodFiles())
	c, found := Link(Parts{Settings: settings, Unlisted: true})
	if c == nil || len(found) > 0 {
		t.Errorf("found %s", show(found))
	}
	d := Unlisted(LessonsFolder, &fs.PathError{Op: "read", Path: "/home/x/lessons", Err: errors.New("leads out")})
	if got, want := show([]diag.Diagnostic{d}), "lessons:1:1 text/unreadable: cannot list the folder: leads out; it must be a folder inside the course; a link that leads out of the course is not followed"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// expectSound holds what is true of all findings about one file.
func expectSound(t *testing.T, found []diag.Diagnostic, name string) {
	t.Helper()
	for _, d := range found {
		if d.Message == "" || d.Help == "" || d.Rule == "" || !d.Span.Valid() || d.Span.File().Name() != name {
			t.Fatalf("%+v says too little or stands in another file than %s", d, name)
		}
		if from, to := d.Span.Offsets(); from < 0 || to < from || to > len(d.Span.File().Text()) {
			t.Fatalf("%s stands at %d to %d", d.Message, from, to)
		}
	}
}

func FuzzReadSettings(f *testing.F) {
	f.Add([]byte(goodSettings))
	f.Add([]byte("title: [x]\nlanguage: é é\nscale: 1/3 kg\nmodules: {a: b}\nhouse: 3\nlayouts: ../..\naddress: x\nclass: {heads: -1}\nstock: {a: b}\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		s, found := ReadSettings(fstest.MapFS{SettingsFile: {Data: data}})
		expectSound(t, found, SettingsFile)
		if s.Scale.Grams().Sign() <= 0 {
			t.Fatalf("the scale shows steps of %s", s.Scale)
		}
		c, found := Link(Parts{Settings: s})
		expectSound(t, found, SettingsFile)
		if c.File != s.File {
			t.Fatal("the course has another file than its settings")
		}
	})
}

func FuzzReadRange(f *testing.F) {
	const name = "content/ranges/meadow.yaml"
	f.Add([]byte(goodRange))
	f.Add([]byte("name: x\nchecked: 2026-13-01\ncode: {style: digits, separators: [\".\", \"\"]}\nlevels: {99: x}\ntones: {1: {name: a, base: é}}\nshades: [\"6.1\", 6, 06]\nkinds: {demi: {ratio: 2:1, time: x, strengths: 3}}\nundertone: {1: green}\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		r, found := ReadRange(fstest.MapFS{name: {Data: data}}, name)
		expectSound(t, found, name)
		if r.Partial != diag.HasErrors(found) {
			t.Fatalf("partial is %v with %s", r.Partial, show(found))
		}
		if r.Partial {
			return
		}
		for _, text := range r.Shades {
			if _, err := r.Find(text); err != nil {
				t.Fatalf("the range lists %q and does not find it: %v", text, err)
			}
		}
	})
}

// FuzzReadTexts reads any bytes as each of the other files of a course.
func FuzzReadTexts(f *testing.F) {
	const page, paper = PagesFolder + "/about.md", PapersFolder + "/first.yaml"
	f.Add([]byte("- {term: bowl, meaning: What is mixed., see: [tone, é]}\n- {term: bowl, meaning: x}\n- {see: bowl}\n"))
	f.Add([]byte("---\ntitle: About\nsummary: x\n---\n\n## É\n\n![a](b.png) [c](d.md) {a of b}\n"))
	f.Add([]byte("title: x\ntime: 40 min\npass: 170 %\nmust: [a, a/b]\ndraw:\n  - {questions: 4, module: m}\n  - {questions: -1, outcome: é/é}\npracticals: [g/w]\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		files := fstest.MapFS{WordsFile: {Data: data}, page: {Data: data}, paper: {Data: data}}
		words, found := ReadWords(files)
		expectSound(t, found, WordsFile)
		p, found := ReadPage(files, page)
		expectSound(t, found, page)
		x, found := ReadPaper(files, paper)
		expectSound(t, found, paper)
		// No lesson is there, so nearly all that they name is missing.
		settings, _ := ReadSettings(fstest.MapFS{SettingsFile: {Data: []byte(goodSettings)}})
		if _, found := Link(Parts{Settings: settings, Words: words, Pages: []*Page{p}, Papers: []*Paper{x}}); !diag.HasErrors(found) {
			t.Fatal("a course without lessons has no errors")
		}
	})
}

func BenchmarkReadRange(b *testing.B) {
	files := goodFiles()
	b.ReportAllocs()
	for b.Loop() {
		if _, found := ReadRange(files, "content/ranges/meadow.yaml"); len(found) > 0 {
			b.Fatal(show(found))
		}
	}
}
