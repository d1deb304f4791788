package lesson

import (
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"plait/internal/diag"
)

const folder = "lessons/04-brassy-gloss"

// good is a lesson without a fault.
const good = `---
title: A gloss
summary: One bowl, weighed.
outcomes: {weighs-bowl: Weigh a bowl of two shades}
hair: {roots: 7 natural, lengths: 8 lightened, white: 0 %}
recording: {film: gloss.webm, length: "3:51"}
uses: [colour]
kit: [scale, gloves]
accept: [{rule: formula/target-level, at: gloss, because: A strand said so.}]
---

Read this first.

## 0:42 Mix the gloss

Pour ` + "`{developer of gloss}`" + ` first.

` + "```" + `formula gloss
kind: demi
colour: 2 parts 8N + 1 part 8V
developer: 6 vol
amount: 30 g colour
` + "```" + `

![A bowl](bowl.svg)

## 1:10-2:30 Rinse

` + "```" + `care
- Rinse until the water runs clear.
` + "```" + `
`

// film is the head of a WebM file of 231 seconds.
const film = "\x1a\x45\xdf\xa3\x80\x18\x53\x80\x67\x90\x15\x49\xa9\x66\x8b\x44\x89\x88\x41\x0c\x32\xc0\x00\x00\x00\x00"

func files(text string) fstest.MapFS {
	return fstest.MapFS{
		folder + "/lesson.md":  {Data: []byte(text)},
		folder + "/bowl.svg":   {Data: []byte("<svg/>")},
		folder + "/notes.txt":  {Data: []byte("later")},
		folder + "/old.svg":    {Mode: fs.ModeDir},
		folder + "/gloss.webm": {Data: []byte(film)},
	}
}

func show(list []diag.Diagnostic) string {
	var lines []string
	for _, d := range list {
		at := d.Span.Start()
		lines = append(lines, fmt.Sprintf("%d:%d %q %s: %s", at.Line, at.Column, d.Span.Text(), d.Rule, d.Message))
	}
	return strings.Join(lines, "\n")
}

// expectFaults reads the good lesson with some text in place of another.
func expectFaults(t *testing.T, old, with string, want ...string) {
	t.Helper()
	if !strings.Contains(good, old) {
		t.Fatalf("%q is not in the lesson", old)
	}
	_, found := Read(files(strings.Replace(good, old, with, 1)), folder)
	if got := show(diag.Sorted(found)); got != strings.Join(want, "\n") {
		t.Errorf("%q\n got %s\nwant %s", with, got, strings.Join(want, "\n"))
	}
	for _, d := range found {
		if d.Help == "" {
			t.Errorf("%s: no way out", d.Message)
		}
	}
}

func TestRead(t *testing.T) {
	l, found := Read(files(good), folder)
	if len(found) > 0 {
		t.Fatal(show(found))
	}
	if l.Name != "brassy-gloss" || l.Folder != folder || l.Title.Value != "A gloss" || l.Draft {
		t.Errorf("the lesson is %q in %q, %q", l.Name, l.Folder, l.Title.Value)
	}
	if len(l.Steps) != 2 || l.Intro == nil || len(l.Formulas) != 1 || len(l.Care) != 1 || len(l.Accept) != 1 || len(l.Hair.Zones) != 2 {
		t.Fatalf("%d steps, %d formulas, %d cautions, %d accepted, %d zones", len(l.Steps), len(l.Formulas), len(l.Care), len(l.Accept), len(l.Hair.Zones))
	}
	if f := l.Formulas[0]; f.Step != l.Steps[0] || f.Name.Value != "gloss" || f.Broken {
		t.Errorf("the formula is %+v", f)
	}
	if s := l.Steps[1]; s.Number != 2 || s.Time.From != 70*time.Second || s.Time.Until != 150*time.Second || s.Title.Value != "Rinse" {
		t.Errorf("the second step is %+v", s)
	}
	if l.Recording.Length.Value != 231*time.Second {
		t.Errorf("the recording runs %s", l.Recording.Length.Value)
	}
	if _, ok := l.Formula("gloss"); !ok {
		t.Error("there is no formula gloss")
	}
	if _, ok := l.Formula("roots"); ok {
		t.Error("there is a formula roots")
	}
}

func TestNames(t *testing.T) {
	for in, want := range map[string]string{
		"lessons/04-brassy-gloss": "brassy-gloss",
		"lessons/brassy-gloss":    "brassy-gloss",
		"lessons/4":               "4",
		"lessons/04-":             "04-",
		"lessons/04gloss":         "04gloss",
		"lessons/-gloss":          "-gloss",
	} {
		if got := nameOf(in); got != want {
			t.Errorf("%s is named %q, want %q", in, got, want)
		}
	}
}

func TestHeaderFaults(t *testing.T) {
	expectFaults(t, good, "", `1:1 "" text/header: the file does not begin with a header`)
	expectFaults(t, "---\ntitle", "title", `1:1 "title: A gloss" text/header: the file does not begin with a header`)
	expectFaults(t, "}]\n---\n", "}]\n", `1:1 "---" text/header: the header is not closed`)
	expectFaults(t, "title: A gloss", "titel: A gloss", `2:1 "titel" text/unknown-key: a lesson's header has no key "titel"`)
	expectFaults(t, "title: A gloss\n", "", `2:1 "" text/missing-key: a lesson's header has no "title"`)
	expectFaults(t, "[colour]", "[color]", `7:8 "color" care/uses: "color" brings no cautions`)
	expectFaults(t, "7 natural", "7 virgin", `5:17 "virgin" formula/hair: "virgin" is not a state of hair`)
	expectFaults(t, "white: 0 %", "white: some", `5:55 "some" formula/hair: "some" is not a share`)
	expectFaults(t, "white: 0 %", "white: 130 %", `5:55 "130 %" formula/hair: 130 % white is more than all of it`)
	expectFaults(t, "white: 0 %", "wite: 0 %", "5:48 \"wite\" text/unknown-key: `hair` has no key \"wite\"")
	expectFaults(t, `"3:51"`, "3 min", `6:39 "3 min" recording/time: "3 min" is not a time in a recording`)
	expectFaults(t, "film:", "movie:", "6:13 \"movie\" text/unknown-key: `recording` has no key \"movie\"")
	expectFaults(t, ", because: A strand said so.", "", `9:10 "" text/missing-key: an accepted finding has no "because"`)
	expectFaults(t, "kit: [scale, gloves]", "kit: {scale: 1}", "8:6 \"{scale: 1}\" text/wrong-kind: `kit` is a map of keys and values, want a list")
	expectFaults(t, "![A bowl](bowl.svg)", "```open heard-and-not-placed\n- 0:44 dry 80 %\n```", "25:1 \"```open heard-and-not-placed\" text/open: what was heard and not placed is still listed here")
	expectFaults(t, "kit: [scale, gloves]", "ready: perhaps", "8:8 \"perhaps\" text/wrong-kind: `ready` is \"perhaps\", want yes or no")
}

func TestDraft(t *testing.T) {
	l, found := Read(files(strings.Replace(good, "kit: [scale, gloves]", "ready: no", 1)), folder)
	if len(found) > 0 || !l.Draft {
		t.Errorf("a lesson that is not ready is no draft: %s", show(found))
	}
}

func TestBodyFaults(t *testing.T) {
	expectFaults(t, "0:42 Mix", "0:75 Mix", `14:4 "0:75" recording/time: "0:75" is not a time in a recording`)
	expectFaults(t, "1:10-2:30", "2:30-1:10", `27:4 "2:30-1:10" recording/time: the step ends before it begins`)
	expectFaults(t, "```formula gloss", "```formula", "18:1 \"```formula\" formula/name: the formula has no name")
	expectFaults(t, "```formula gloss", "```formul gloss", "18:4 \"formul\" text/fence: there is no block \"formul\"")
	expectFaults(t, "## 1:10", "```formula gloss\nkind: demi\ncolour: 8N\ndeveloper: none\n```\n\n## 1:10", `27:12 "gloss" formula/name: this lesson has two formulas called "gloss"`)
	expectFaults(t, "kind: demi", "knd: demi", `19:1 "knd" text/unknown-key: a formula block has no key "knd"`)
	expectFaults(t, "- Rinse until", "Rinse: until", `30:1 "Rinse: until the water runs clear." text/wrong-kind: a care block is a map of keys and values, want a list`)
	expectFaults(t, good[strings.Index(good, "## 0:42"):], "", `11:1 "" text/steps: the lesson has no steps`)
}

func TestPictures(t *testing.T) {
	expectFaults(t, "](bowl.svg)", "](plan.svg)", `25:11 "plan.svg" text/picture: there is no picture "plan.svg"`)
	expectFaults(t, "](bowl.svg)", "](old.svg)", `25:11 "old.svg" text/picture: "old.svg" is a folder, not a picture`)
	expectFaults(t, "](bowl.svg)", "](notes.txt)", `25:11 "notes.txt" text/picture: "notes.txt" is not a picture`)
	expectFaults(t, "](bowl.svg)", "](../../../bowl.svg)", `25:11 "../../../bowl.svg" text/picture: the picture "../../../bowl.svg" lies outside the course`)
	expectFaults(t, "](bowl.svg)", "](/bowl.svg)", `25:11 "/bowl.svg" text/picture: the picture "/bowl.svg" lies outside the course`)
	expectFaults(t, "](bowl.svg)", "](https://example.org/bowl.svg)", `25:11 "https://example.org/bowl.svg" text/picture: the picture "https://example.org/bowl.svg" lies on another site`)
	expectFaults(t, "](bowl.svg)", "](../04-brassy-gloss/bowl.svg)")
}

func TestTexts(t *testing.T) {
	expectFaults(t, "Read this", "Caf\xe9: read this", `12:4 "\xe9" text/utf-8: the byte 0xe9 is not UTF-8 text`)
	_, found := Read(fstest.MapFS{}, folder)
	if got, want := show(found), `1:1 "" text/missing: lessons/04-brassy-gloss/lesson.md is missing`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// Columns count characters as an author's editor does, whatever ends the lines and
// whatever stands before: a byte order mark, letters of several bytes, tabs, the
// indent of a list or of a quote.
func TestPlaces(t *testing.T) {
	const text = "---\ntitle: Färben\nsummary: Kurz.\n---\n\n" +
		"## Mix\n\n" +
		"1. Töpfchen 長\tand `{strength of glss}`:\n\n" +
		"   ```formula gloss\n   kind: demi\n   colour: 8N\n   on: [\"Längen\"]\n   developer: 6 öl\n   ```\n\n" +
		"> - ```formula roots\n>   kind: demi\n>   colour: 8N (ö\n>   developer: none\n>   ```\n"
	want := `14:15 "6 öl" formula/developer: "6 öl" is not a developer strength` + "\n" +
		`19:13 "8N (ö" formula/syntax: the bracket in "8N (ö" is not closed at the end`
	for name, text := range map[string]string{
		"lf":   text,
		"crlf": strings.ReplaceAll(text, "\n", "\r\n"),
		"bom":  "\ufeff" + text,
		"both": "\ufeff" + strings.ReplaceAll(text, "\n", "\r\n"),
	} {
		l, found := Read(files(text), folder)
		if got := show(found); got != want {
			t.Errorf("%s\n got %s\nwant %s", name, got, want)
		}
		if len(l.Doc.Values) != 1 {
			t.Fatalf("%s: %d values", name, len(l.Doc.Values))
		}
		at := l.Doc.Values[0].Text.Span
		if p := at.Start(); p.Line != 8 || p.Column != 21 || at.Text() != "strength of glss" {
			t.Errorf("%s: the value %q stands at %v", name, at.Text(), p)
		}
	}
}

func TestLimits(t *testing.T) {
	endless := endlessFile{}
	_, found := Read(fsOf{&endless}, folder)
	if got, want := show(found), `1:1 "" text/size: the file is larger than 256 KiB`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if endless.read > 2*MaxBytes {
		t.Errorf("%d bytes were read of a file of which at most %d count", endless.read, MaxBytes)
	}
}

// endlessFile is a file without an end that counts what is read of it.
type endlessFile struct{ read int }

func (f *endlessFile) Stat() (fs.FileInfo, error) { return nil, fs.ErrInvalid }
func (f *endlessFile) Close() error               { return nil }
func (f *endlessFile) Read(p []byte) (int, error) {
	f.read += len(p)
	return len(p), nil
}

type fsOf struct{ file fs.File }

func (f fsOf) Open(string) (fs.File, error) { return f.file, nil }

// FuzzReadLesson reads any bytes as a lesson. Whatever is wrong is said at a place
// within the file and with a way out, and everything that was read stands in it.
func FuzzReadLesson(f *testing.F) {
	f.Add([]byte(good))
	f.Add([]byte("\ufeff---\r\ntitle: x\r\nsummary: é\r\n---\r\n## 0:42-2:10 Mix\r\n> 1. ```formula a\r\n>    kind: demi\r\n>    colour: 8N (\r\n"))
	f.Add([]byte("---\nhair: {a: [}\naccept: [{}]\n---\n## x\n![](../x)\n`{a of b}`\n```care\n- [x\n"))
	f.Add([]byte("---\n---"))
	f.Fuzz(func(t *testing.T, data []byte) {
		l, found := Read(files(string(data)), folder)
		whole := l.File.Whole()
		for _, d := range found {
			if d.Message == "" || d.Help == "" || d.Rule == "" || d.Span.File().Name() != folder+"/lesson.md" {
				t.Fatalf("%+v says too little", d)
			}
			if from, to := d.Span.Offsets(); from < 0 || to < from || to > len(d.Span.File().Text()) {
				t.Fatalf("%s stands at %d to %d", d.Message, from, to)
			}
		}
		for _, s := range l.Steps {
			if !whole.Contains(s.Span) {
				t.Fatalf("step %d stands outside the file", s.Number)
			}
		}
		for _, b := range l.Formulas {
			if !whole.Contains(b.Span) || !whole.Contains(b.Fence.Span) || b.Broken && !diag.HasErrors(found) {
				t.Fatalf("formula %q stands outside the file, or is broken without an error", b.Name.Value)
			}
		}
		for _, v := range l.Doc.Values {
			if !whole.Contains(v.Text.Span) {
				t.Fatalf("value %q stands outside the file", v.Text.Value)
			}
		}
	})
}

func BenchmarkRead(b *testing.B) {
	fsys := files(good)
	b.SetBytes(int64(len(good)))
	b.ReportAllocs()
	for b.Loop() {
		if _, found := Read(fsys, folder); len(found) > 0 {
			b.Fatal(show(found))
		}
	}
}
