package build

import (
	"context"
	"fmt"
	"runtime"
	"strings"
	"testing"
	"testing/fstest"

	"plait/internal/diag"
	"plait/layouts"
)

// A hostile file is made of n pieces of one kind. Whoever sends it in must not be able to
// hold a build up: the work may grow as the file does, and no faster.
type hostile struct {
	what string
	file string
	text func(n int) string
}

// Files that hostile text is put into.
const (
	hostileLesson   = "lessons/02-two/lesson.md"
	hostileSheet    = "lessons/01-one/plan.head.yaml"
	hostileCaptions = "lessons/01-one/talk.vtt"
	hostilePicture  = "lessons/01-one/a.svg"
	hostileSettings = "content/course.yaml"
	hostileWords    = "content/words.yaml"
	hostileRange    = "content/ranges/meadow.yaml"
	hostilePaper    = "content/papers/first.yaml"
)

// sound is a course without a fault; hostile texts take the place of its files.
func sound() fstest.MapFS {
	files := fstest.MapFS{}
	for name, text := range map[string]string{
		hostileSettings:            "title: One\nlanguage: en\nrange: meadow\nmodules: [{name: all, title: All, lessons: [one, two]}]\n",
		hostileWords:               "- {term: gloss, meaning: A coat of colour.}\n",
		hostileRange:               meadow("[8N, 8V]"),
		hostilePaper:               "title: First\ntime: 10 min\npass: 50 %\ndraw: [{questions: 1, module: all}]\n",
		hostileLesson:              opened + "Nothing.\n",
		"lessons/01-one/lesson.md": heading + "![Where](plan.head.yaml)\n\n![Hand](a.svg)\n\n" + bowl("2 parts 8N + 1 part 8V", "24 g colour", "1:2") + "\n" + query,
		hostileSheet:               "title: Where\nsections: [{part: horseshoe, gives: [top, lengths]}]\n",
		hostileCaptions:            "WEBVTT\n\n00:00.000 --> 00:05.000\nTwo parts.\n",
		hostilePicture:             `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 4"/>`,
	} {
		files[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return files
}

// heading begins the lesson that the questions of the paper are drawn from, opened one
// that a hostile text follows.
const (
	heading = "---\ntitle: One\nsummary: One bowl.\noutcomes: {one: Weigh it}\nhair: {lengths: 8 lightened}\n" +
		"recording: {link: \"https://film.example/a\", captions: talk.vtt, length: \"1:00\"}\nuses: [colour]\n---\n\nOnce.\n\n## 0:00 Look\n\nLook.\n\n"
	opened = "---\ntitle: Two\nsummary: More.\nhair: {lengths: 8 lightened}\nuses: [colour]\n---\n\nTwice.\n\n## Look\n\n"
)

const query = "```question type\nask: How much developer?\ngiven: {formula: gloss, colour: 52 g}\nfind: developer\ntests: one\nbecause: Twice as much.\npaper: yes\n```\n"

func bowl(colour, amount, ratio string) string {
	return "```formula gloss\non: [lengths]\nkind: demi\ncolour: " + colour + "\ndeveloper: 6 vol\nratio: " + ratio + "\namount: " + amount +
		"\ntime: 15 min from last section\nhair: 8 lightened\ntarget: 8 cool\n```\n"
}

func meadow(shades string) string {
	return "name: Meadow\nchecked: 2026-03-01\ncode: {style: letters}\nlevels: {7: dark blonde, 8: medium blonde}\n" +
		"tones: {N: {name: natural}, V: {name: violet, base: violet}}\nshades: " + shades + "\nkinds: {demi: {ratio: \"1:2\", time: 10-20 min, strengths: [1.8 %]}}\n"
}

// repeated returns a text again and again; %d in it becomes the number of the piece.
func repeated(before, piece, after string) func(int) string {
	return func(n int) string {
		var b strings.Builder
		b.WriteString(before)
		for i := range n {
			if strings.Contains(piece, "%") {
				fmt.Fprintf(&b, piece, i)
			} else {
				b.WriteString(piece)
			}
		}
		return b.String() + after
	}
}

var hostiles = []hostile{
	{"headings", hostileLesson, repeated(opened, "## x\n\n", "")},
	{"steps with times", hostileLesson, func(n int) string {
		return repeated(opened, "## 1:00:%02d x\n\n", "")(min(n, 60)) + repeated("", "## 1:00:59 y\n\n", "")(n)
	}},
	{"a long line", hostileLesson, repeated(opened, "word ", "\n")},
	{"a long word", hostileLesson, repeated(opened, "w", "\n")},
	{"quotes in quotes", hostileLesson, repeated(opened, ">", " x\n")},
	{"lists in lists", hostileLesson, repeated(opened, "- ", "x\n")},
	{"open brackets", hostileLesson, repeated(opened, "[", "\n")},
	{"open pictures", hostileLesson, repeated(opened, "![a](", "\n")},
	{"stars and underscores", hostileLesson, repeated(opened, "*a_", "\n")},
	{"stars in paragraphs", hostileLesson, repeated(opened, "*a **b _c\n\n", "\n")},
	{"backquotes", hostileLesson, repeated(opened, "`a``", "\n")},
	{"angle brackets", hostileLesson, repeated(opened, "<a ", "\n")},
	{"comments", hostileLesson, repeated(opened, "<!-- ", "\n")},
	{"entities", hostileLesson, repeated(opened, "&amp;&#x41;", "\n")},
	{"link definitions", hostileLesson, repeated(opened, "[a%d]: b\n", "\n[a1]\n")},
	{"a wide table", hostileLesson, repeated(opened+"|", "a|", "\n")},
	{"a long table", hostileLesson, repeated(opened+"|a|b|\n|-|-|\n", "|a|b|\n", "\n")},
	{"code blocks", hostileLesson, repeated(opened, "```yaml\na: [b\n```\n\n", "")},
	{"a long code block", hostileLesson, repeated(opened+"```yaml\n", "a: \"b\n", "```\n")},
	{"bowls", hostileLesson, repeated(opened, strings.NewReplacer("gloss", "gloss-%d", "1.8 %", "1.8 %%").Replace(bowl("8N", "24 g colour", "1:2"))+"\n", "")},
	{"parts of a bowl", hostileLesson, func(n int) string {
		return opened + bowl("8N"+strings.Repeat(" + 1 part 8V", n), "24 g colour", "1:2")
	}},
	{"digits of a weight", hostileLesson, func(n int) string { return opened + bowl("8N", strings.Repeat("9", n)+" g colour", "1:2") }},
	{"digits after the point", hostileLesson, func(n int) string { return opened + bowl("8N", "1."+strings.Repeat("3", n)+" g colour", "1:2") }},
	{"digits of a ratio", hostileLesson, func(n int) string { return opened + bowl("8N", "24 g colour", "1:"+strings.Repeat("7", n)) }},
	{"values in prose", hostileLesson, repeated(opened+bowl("8N", "24 g colour", "1:2")+"\n", "`{mixed of gloss}`\n\n", "")},
	{"questions", hostileLesson, repeated(opened+bowl("8N", "24 g colour", "1:2")+"\n", strings.Replace(query, "type", "type-%d", 1)+"\n", "")},
	{"choices", hostileLesson, repeated(opened+"```question type\nask: Which?\nchoose: {right: a, wrong: [b", ", c%d", "]}\ntests: one\n```\n")},
	{"keys of a header", hostileLesson, repeated("---\n", "k%d: v\n", "---\n\nx\n")},
	{"maps in maps", hostileLesson, repeated("---\ntitle: ", "{a: ", "\n---\n\nx\n")},
	{"aliases", hostileLesson, func(n int) string { return "---\na: &a [x]\nb: [*a" + strings.Repeat(", *a", n) + "]\n---\n\nx\n" }},
	{"anchors upon anchors", hostileLesson, func(n int) string {
		var b strings.Builder
		b.WriteString("---\na0: &a0 [x]\n")
		for i := range min(n, 60) {
			fmt.Fprintf(&b, "a%d: &a%d [*a%d, *a%[3]d, *a%[3]d, *a%[3]d]\n", i+1, i+1, i)
		}
		return b.String() + strings.Repeat("# more\n", n) + "---\n\nx\n"
	}},
	{"a folded text", hostileLesson, repeated("---\nsummary: >\n", "  a\n\n", "---\n\nx\n")},
	{"an open string", hostileLesson, repeated("---\ntitle: \"", "\\\"a\n  ", "\n---\n\nx\n")},
	{"kit", hostileLesson, repeated("---\ntitle: One\nkit: [a", ", b%d", "]\n---\n\nx\n")},
	{"partings", hostileSheet, repeated("sections:\n", "  - {part: horseshoe}\n", "")},
	{"names of sections", hostileSheet, repeated("sections: [{part: horseshoe, gives: [a", ", b%d", "]}]\n")},
	{"slices", hostileSheet, repeated("sections: [{part: slices, count: ", "9", "}]\n")},
	{"captions", hostileCaptions, repeated("WEBVTT\n", "\n00:00.000 --> 00:05.000\nTwo parts of 8N, no, one part.\n", "")},
	{"a long caption", hostileCaptions, repeated("WEBVTT\n\n00:00.000 --> 00:05.000\n", "two parts of 8N, no, one part ", "\n")},
	{"tags of a caption", hostileCaptions, repeated("WEBVTT\n\n00:00.000 --> 00:05.000\n", "<v a><b>", "\n")},
	{"entities of a caption", hostileCaptions, repeated("WEBVTT\n\n00:00.000 --> 00:05.000\n", "&lt;&", "\n")},
	{"numbers of a caption", hostileCaptions, repeated("WEBVTT\n\n00:00.000 --> 00:05.000\n", "one hundred and ", "\n")},
	{"attributes of a drawing", hostilePicture, repeated("<svg ", `a%d="b" `, "/>")},
	{"entities of a drawing", hostilePicture, repeated("<!DOCTYPE svg [<!ENTITY a \"", "&a;", "\">]><svg/>")},
	{"comments of a drawing", hostilePicture, repeated("", "<!-- a -->", "<svg/>")},
	{"modules", hostileSettings, repeated("title: One\nlanguage: en\nmodules:\n", "  - {name: m%d, title: M, lessons: [one]}\n", "")},
	{"lessons of a module", hostileSettings, repeated("title: One\nlanguage: en\nmodules: [{name: m, title: M, lessons: [one", ", l%d", "]}]\n")},
	{"words", hostileWords, repeated("", "- {term: term%d, meaning: M}\n", "")},
	{"words for one thing", hostileWords, repeated("- {term: gloss, meaning: M, see: [gloss", ", see%d", "]}\n")},
	{"shades", hostileRange, func(n int) string { return meadow("[8N" + strings.Repeat(", 8V", n) + "]") }},
	{"codes", hostileRange, repeated("name: Meadow\ncode: {style: letters}\nshades: [8N", ", %dNVNVNV", "]\n")},
	{"draws of a paper", hostilePaper, repeated("title: First\ntime: 10 min\npass: 50 %\ndraw:\n", "  - {questions: 1, module: all}\n", "")},
}

// few and many are the pieces that hostile files are made of. A text of more bytes than
// plait reads is refused before it is looked at, and grows no further.
const (
	few  = 150
	many = 8 * few
)

// atMost is how many times the work many pieces may take: half as many again as they are,
// since maps and lists grow in leaps.
const atMost = 1.5 * many / few

// asked counts the bytes that are asked for in all while something is done.
func asked(do func()) float64 {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	do()
	runtime.ReadMemStats(&after)
	return float64(after.TotalAlloc - before.TotalAlloc)
}

// work returns the bytes that a course asks for to be read and judged, with all that is
// found written as a command writes it, and to be made into pages where it has no error.
func work(t *testing.T, files fstest.MapFS) (read, pages float64) {
	t.Helper()
	var result *Result
	read = asked(func() {
		var err error
		if result, err = Read(context.Background(), Options{Files: files, Layouts: layouts.FS, Workers: 1}); err != nil {
			t.Fatal(err)
		}
		var out strings.Builder
		if err := diag.WriteText(&out, result.Diagnostics, diag.TextOptions{}); err != nil {
			t.Fatal(err)
		}
	})
	if diag.HasErrors(result.Diagnostics) {
		return read, 0
	}
	pages = asked(func() {
		if _, err := result.Pages(); err != nil {
			t.Fatal(err)
		}
	})
	return read, pages
}

// A file of many times the pieces takes as many times the work and a little, counted in
// the bytes that are asked for, which do not depend on the machine. What is quadratic
// takes many times that. Pages of any course take a great deal that does not grow.
func TestHostileFilesHoldNothingUp(t *testing.T) {
	work(t, sound()) // what is made once for all builds counts for none
	_, fixed := work(t, sound())
	if fixed == 0 {
		t.Fatal("the course that hostile files are put into has errors of its own")
	}
	for _, h := range hostiles {
		t.Run(strings.ReplaceAll(h.what, " ", "_"), func(t *testing.T) {
			of := func(n int) (read, pages float64) {
				files := sound()
				files[h.file] = &fstest.MapFile{Data: []byte(h.text(n))}
				return work(t, files)
			}
			read, pages := of(few)
			manyRead, manyPages := of(many)
			t.Logf("%.1f KB: %.1f MB to read, %.1f times as much as an eighth; %.1f MB and %.1f for pages",
				float64(len(h.text(many)))/1e3, manyRead/1e6, manyRead/read, manyPages/1e6, manyPages/pages)
			if manyRead > atMost*read || manyPages > fixed+atMost*max(pages-fixed, fixed/20) {
				t.Error("the work grows faster than the file")
			}
		})
	}
}
