package markdown

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"plait/internal/diag"
	"plait/internal/source"
)

var lessonOptions = Options{Blocks: []string{"formula", "care"}, Steps: true}

func parse(text string, opts Options) (*Document, []diag.Diagnostic) {
	file := source.NewFile("lesson.md", []byte(text))
	return Parse(file, file.Whole(), opts)
}

// parseClean parses a lesson in which nothing is wrong.
func parseClean(t *testing.T, text string) *Document {
	t.Helper()
	d, faults := parse(text, lessonOptions)
	for _, f := range faults {
		t.Errorf("%q: %s: %s", text, at(f.Span), f.Message)
	}
	return d
}

// at prints a span as its first place and what it covers.
func at(s source.Span) string {
	return fmt.Sprintf("%d:%d %q", s.Start().Line, s.Start().Column, s.Text())
}

func expectAt(t *testing.T, what string, got source.Text, value, place string) {
	t.Helper()
	if got.Value != value || at(got.Span) != place {
		t.Errorf("%s is %q at %s, want %q at %s", what, got.Value, at(got.Span), value, place)
	}
}

func expectFaults(t *testing.T, in string, want ...string) {
	t.Helper()
	_, faults := parse(in, lessonOptions)
	var got []string
	for _, d := range faults {
		if d.Help == "" {
			t.Errorf("%q shows no way out", d.Message)
		}
		got = append(got, at(d.Span)+" "+d.Rule+": "+d.Message)
	}
	if g, w := strings.Join(got, "\n"), strings.Join(want, "\n"); g != w {
		t.Errorf("%q reports\n%s\nwant\n%s", in, g, w)
	}
}

func TestSections(t *testing.T) {
	d := parseClean(t, "Før you start.\n\n## 0:42 Mix the *gloss*\n\ntext\n\n## 1:02:03–1:03:00  Ünd rinse {#rinse}\n### Detail\n\n2:10 - 3:00 Part & comb\n---\n")
	if d.Intro == nil || d.Intro.HTML(Hooks{}) != "<p>Før you start.</p>\n" || d.Intro.Title.Value != "" {
		t.Errorf("intro is %+v", d.Intro)
	}
	if len(d.Sections) != 3 {
		t.Fatalf("%d sections", len(d.Sections))
	}
	expectAt(t, "title", d.Sections[0].Title, "Mix the gloss", `3:9 "Mix the *gloss*"`)
	expectAt(t, "stamp", d.Sections[0].Stamp, "0:42", `3:4 "0:42"`)
	expectAt(t, "title", d.Sections[1].Title, "Ünd rinse", `7:21 "Ünd rinse"`)
	expectAt(t, "stamp", d.Sections[1].Stamp, "1:02:03–1:03:00", `7:4 "1:02:03–1:03:00"`)
	expectAt(t, "title", d.Sections[2].Title, "Part & comb", `10:13 "Part & comb"`)
	expectAt(t, "stamp", d.Sections[2].Stamp, "2:10 - 3:00", `10:1 "2:10 - 3:00"`)
	if got := at(d.Sections[0].Span); got != `3:4 "0:42 Mix the *gloss*"` {
		t.Errorf("heading stands at %s", got)
	}
	if got := d.Sections[0].TitleHTML(Hooks{}); got != "Mix the <em>gloss</em>" {
		t.Errorf("title is written as %s", got)
	}
}

func TestWhatIsNoTime(t *testing.T) {
	for _, title := range []string{"1:2 and why", "0:4 Mix", "0:42Mix", "At 0:42 mix", "12 heads", "*0:42* Mix", "0:42:3 Mix"} {
		d := parseClean(t, "## "+title+"\n")
		if s := d.Sections[0]; s.Stamp.Value != "" {
			t.Errorf("%q has the time %q", title, s.Stamp.Value)
		}
	}
	d, _ := parse("## 0:42 Mix\n", Options{})
	if s := d.Sections[0]; s.Stamp.Value != "" || s.Title.Value != "0:42 Mix" || s.ID != "0-42-mix" {
		t.Errorf("a page has no times, got %+v", s)
	}
}

func TestIntroIsNilForNothing(t *testing.T) {
	for _, in := range []string{"", "\n\n", "## A\n", "[x]: y.html\n\n## A [x]\n"} {
		if d := parseClean(t, in); d.Intro != nil {
			t.Errorf("%q has an intro", in)
		}
	}
}

func TestIDs(t *testing.T) {
	text := "## Überblick für Ä\n## Überblick für Ä\n### 日本\n### !\n### Fine {#main-2}\n### Main\n### Main 2\n### E\u0301te\u0301\n"
	file := source.NewFile("a.md", []byte(text))
	d, faults := Parse(file, file.Whole(), Options{Reserved: []string{"main"}})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	want := []string{"überblick-für-ä", "überblick-für-ä-2", "日本", "part", "main-2", "main-3", "main-2-2", "été"}
	if !slices.Equal(d.IDs(), want) {
		t.Errorf("got %v", d.IDs())
	}
	out := d.HTML(Hooks{})
	for _, id := range want {
		if strings.Count(out, `id="`+id+`"`) != 1 {
			t.Errorf("the id %s does not stand once in\n%s", id, out)
		}
	}
}

func TestReservedIDs(t *testing.T) {
	file := source.NewFile("a.md", []byte("## A {#main}\n"))
	_, faults := Parse(file, file.Whole(), Options{Reserved: []string{"main"}})
	if len(faults) != 1 || faults[0].Rule != "text/duplicate-id" || at(faults[0].Span) != `1:4 "A"` {
		t.Errorf("got %v", faults)
	}
}

func TestBlocks(t *testing.T) {
	d := parseClean(t, "## A\n\n```formula gloss two\nratio: 1:2\n```\n\n- item\n\n  ~~~~ care\n  - é x\n\n    y\n  ~~~~\n\n> ```formula\r\n> a: 1\r\n> ```\r\n\n## B\n\n   ```care\n   - z\n  w\n   ```\n")
	if len(d.Blocks) != 4 || len(d.Sections[0].Blocks) != 3 || d.Blocks[3].Section != d.Sections[1] {
		t.Fatalf("got %d blocks", len(d.Blocks))
	}
	expect := func(b *Block, kind, name, span, body string) {
		t.Helper()
		if b.Kind != kind || b.Name.Value != name || at(b.Span) != span || b.Body.Text() != body {
			t.Errorf("got %s %q at %s with %q", b.Kind, b.Name.Value, at(b.Span), b.Body.Text())
		}
	}
	expect(d.Blocks[0], "formula", "gloss two", "3:1 \"```formula gloss two\"", "ratio: 1:2\n")
	expect(d.Blocks[1], "care", "", "9:3 \"~~~~ care\"", "- é x\n\n  y\n")
	expect(d.Blocks[2], "formula", "", "15:3 \"```formula\"", "a: 1\r\n")
	expect(d.Blocks[3], "care", "", "21:4 \"```care\"", "- z\nw\n")
	expectAt(t, "name", d.Blocks[0].Name, "gloss two", `3:12 "gloss two"`)

	body := d.Blocks[1].Body
	i := strings.Index(body.Text(), "y")
	if got := at(body.Span(i, i+1)); got != `12:5 "y"` {
		t.Errorf("the block's last word stands at %s", got)
	}
}

func TestEmptyBlockPointsAtItsFence(t *testing.T) {
	d := parseClean(t, "```formula x\n```\n")
	if got := at(d.Blocks[0].Body.Span(0, 0)); got != "1:1 \"```formula x\"" {
		t.Errorf("an empty block points at %s", got)
	}
}

func TestFenceFaults(t *testing.T) {
	expectFaults(t, "```formla gloss\na: 1\n```\n",
		"1:4 \"formla\" text/fence: there is no block \"formla\"")
	expectFaults(t, "```formula gloss\na: 1\n", "1:1 \"```formula gloss\" text/fence: the fence is not closed")
	expectFaults(t, "```formula gloss\na: 1\n``", "1:1 \"```formula gloss\" text/fence: the fence is not closed")
	expectFaults(t, "- ````formula gloss\n  a: 1\n  ```\n\ntext\n", "1:3 \"````formula gloss\" text/fence: the fence is not closed")
	expectFaults(t, "- ```formula gloss\n\ta: 1\n  ```\n", `2:2 "" text/fence: a tab stands in the indent`)
	expectFaults(t, "```yaml\na: 1\n```\n")
	expectFaults(t, "```\nplain\n```\n")
	expectFaults(t, "```formula a\n```")
}

func TestValues(t *testing.T) {
	d := parseClean(t, "Pour `{developer of gloss}` and\n- ``{ strength\n  of gloss }``, `{}`, `{x`, `y}`, `plain`\n\n## A\n\n| `{8N of gloss}` |\n|---|\n")
	if len(d.Values) != 3 {
		t.Fatalf("got %d values", len(d.Values))
	}
	expectAt(t, "value", d.Values[0].Text, "developer of gloss", `1:8 "developer of gloss"`)
	if v := d.Values[1].Text; v.Value != "strength of gloss" || v.Span.Start().Line != 2 {
		t.Errorf("a value over two lines is %q at %s", v.Value, at(v.Span))
	}
	expectAt(t, "value", d.Values[2].Text, "8N of gloss", `7:5 "8N of gloss"`)
	if d.Values[0].Section != d.Intro || d.Values[2].Section != d.Sections[0] {
		t.Error("values belong to the section they stand in")
	}
}

func TestImages(t *testing.T) {
	d := parseClean(t, "![Where *it* goes](<plan.head.yaml>  \"left, back\")\n\nA ![sm\\]all](a\\_b.png 'one &amp; two') one.\n\n![ref] [![in](in.svg)](page.html)\n\n[ref]: r.png \"T\"\n")
	if len(d.Images) != 4 {
		t.Fatalf("got %d pictures", len(d.Images))
	}
	a, b, c, e := d.Images[0], d.Images[1], d.Images[2], d.Images[3]
	expectAt(t, "target", a.Target, "plan.head.yaml", `1:21 "plan.head.yaml"`)
	expectAt(t, "alt", a.Alt, "Where it goes", `1:3 "Where *it* goes"`)
	expectAt(t, "title", a.Title, "left, back", `1:39 "left, back"`)
	expectAt(t, "target", b.Target, "a_b.png", `3:14 "a\\_b.png"`)
	expectAt(t, "alt", b.Alt, "sm]all", `3:5 "sm\\]all"`)
	expectAt(t, "title", b.Title, "one & two", `3:24 "one &amp; two"`)
	expectAt(t, "target", c.Target, "r.png", `5:1 "![ref]"`)
	expectAt(t, "title", c.Title, "T", `5:1 "![ref]"`)
	expectAt(t, "target", e.Target, "in.svg", `5:15 "in.svg"`)
	if !a.Alone || b.Alone || c.Alone || e.Alone {
		t.Error("only the first picture is a paragraph of its own")
	}
	expectAt(t, "link", d.Links[0].Target, "page.html", `5:24 "page.html"`)
}

func TestLinks(t *testing.T) {
	d := parseClean(t, "é [a *b*](x.html#y \"t\") <https://e.org/?a&b> <me@e.org> [r][] [f][r]\n\n[r]: HTTPS://e.org\n")
	if len(d.Links) != 5 {
		t.Fatalf("got %d links", len(d.Links))
	}
	expectAt(t, "link", d.Links[0].Target, "x.html#y", `1:11 "x.html#y"`)
	expectAt(t, "link", d.Links[1].Target, "https://e.org/?a&b", `1:26 "https://e.org/?a&b"`)
	expectAt(t, "link", d.Links[2].Target, "mailto:me@e.org", `1:47 "me@e.org"`)
	expectAt(t, "link", d.Links[3].Target, "HTTPS://e.org", `1:57 "[r]"`)
	expectAt(t, "link", d.Links[4].Target, "HTTPS://e.org", `1:63 "[f]"`)
	inQuote := parseClean(t, "> [a](\n> b.html)\n")
	expectAt(t, "link", inQuote.Links[0].Target, "b.html", `2:3 "b.html"`)
	if l := d.Links[0]; l.Text != "a b" || l.Title != "t" {
		t.Errorf("got %+v", l)
	}
}

func TestRefusedLinks(t *testing.T) {
	for _, target := range []string{
		"javascript:alert(1)", "JavaScript:x", "java&#115;cript:x", "java\\script:x", "<java\tscript:x>", "data:image/svg+xml,x",
		"file:///etc/passwd", "vbscript:x", "&#1;javascript:x", "//evil.example/x", "", "<>", "blob:x",
	} {
		for _, in := range []string{"[a](" + target + ")", "![a](" + target + ")"} {
			d, faults := parse(in, lessonOptions)
			if len(faults) != 1 || faults[0].Rule != "text/link" {
				t.Errorf("%s reports %v", in, faults)
			}
			if len(d.Links)+len(d.Images) > 0 || strings.Contains(d.HTML(Hooks{}), "<a ") {
				t.Errorf("%s is passed on", in)
			}
		}
	}
	expectFaults(t, "é [a](javascript:x)", `1:7 "javascript:x" text/link: an address cannot begin with "javascript:"`)
	expectFaults(t, "<javascript:x>", `1:2 "javascript:x" text/link: an address cannot begin with "javascript:"`)
	expectFaults(t, "[a]()", `1:5 "" text/link: the link or picture leads nowhere`)
	expectFaults(t, "[](a.html) [a <https://e.org>](b.html)",
		`1:4 "a.html" text/link: the link has no words`,
		`1:32 "b.html" text/link: a link or the mark of a footnote stands within a link`)
	expectFaults(t, "[a[^1]](b.html)\n\n[^1]: c\n",
		`1:9 "b.html" text/link: a link or the mark of a footnote stands within a link`)
	expectFaults(t, "[a][b]\n\n[b]: data:x", `1:1 "[a]" text/link: an address cannot begin with "data:"`)
}

func TestFaults(t *testing.T) {
	expectFaults(t, "a <b>x</b>\n\n<div>\nx\n</div>\n\n<!-- é -->\n\nA <?php ?> <![CDATA[x]]>\n",
		`1:3 "<b>" text/raw-html: HTML cannot stand in the text`,
		`3:1 "<div>" text/raw-html: HTML cannot stand in the text`,
		`7:1 "<!-- é -->" text/raw-html: a comment cannot stand in the text`,
		`9:3 "<?php ?>" text/raw-html: HTML cannot stand in the text`,
		`9:12 "<![CDATA[x]]>" text/raw-html: HTML cannot stand in the text`)
	expectFaults(t, "![](a.png) ![ ](b.png)",
		`1:1 "![" text/alt: the picture has no words for those who cannot see it`,
		`1:12 "![" text/alt: the picture has no words for those who cannot see it`)
	expectFaults(t, "# One\n\nTwo\n===\n",
		`1:3 "One" text/heading: a heading of the first level stands in the text; the page has its title from the header`,
		`3:1 "Two" text/heading: a heading of the first level stands in the text; the page has its title from the header`)
	expectFaults(t, "> ## A\n\n## 0:42\n\n##\n\n## `{ratio of x}`\n",
		`1:6 "A" text/heading: a heading of the second level stands in a list or a quote`,
		`3:4 "0:42" text/heading: the heading has no words`,
		`5:1 "##" text/heading: the heading has no words`,
		"7:4 \"`{ratio of x}`\" text/heading: a computed value or a picture stands in a heading")
	expectFaults(t, "![x](a.png){.wide} y {#z} {n} \\{.q} {. {\n",
		`1:12 "{.wide}" text/attribute: attributes in braces cannot be given here`,
		`1:22 "{#z}" text/attribute: attributes in braces cannot be given here`)
	expectFaults(t, "![x](a.png){width=3}\n", `1:12 "{width=3}" text/attribute: attributes in braces cannot be given here`)
	expectFaults(t, "## A {.b onclick=\"x\"}\n\n### B {#a_b}\n",
		`1:4 "A" text/attribute: a heading can be given an id of letters, digits and hyphens and nothing else`,
		`1:4 "A" text/attribute: a heading can be given an id of letters, digits and hyphens and nothing else`,
		`3:5 "B" text/attribute: a heading can be given an id of letters, digits and hyphens and nothing else`)
	expectFaults(t, "## A {#x}\n\n### B {#x}\n", `3:5 "B" text/duplicate-id: two headings have the id "x"`)
	expectFaults(t, "a[^1] b[^2] \\[^3]\n\n[^1]: x\n\n[^4]: y\n",
		`5:1 "[^4]" text/footnote: nothing refers to the footnote [^4]`,
		`1:8 "[^2]" text/footnote: there is no footnote [^2]`)
}

func TestRefusedTexts(t *testing.T) {
	expectFaults(t, "a\x00b", "1:2 \"\\x00\" text/character: the invisible character U+0000 cannot stand here")
	expectFaults(t, "é\xff", "1:2 \"\\xff\" text/character: the byte 0xff is no text")
	expectFaults(t, "a \ufeffb", "1:3 \"\\ufeff\" text/character: the invisible character U+FEFF cannot stand here")

	quotes := func(n int) string { return "\n" + strings.Repeat("> ", n) + "x\n" }
	expectFaults(t, quotes(maxMarkers))
	expectFaults(t, quotes(maxMarkers+1), `2:1 "`+strings.TrimSpace(strings.Repeat("> ", maxMarkers+1))+`" text/nesting: quotes and lists stand more than 50 deep in each other`)
	for _, mark := range []string{"- ", "1. ", "* ", "+\t", "12) ", ": "} {
		if n, _ := markers(strings.Repeat(mark, 7) + "x"); n != 7 {
			t.Errorf("%q counts %d times", mark, n)
		}
	}
	if n, _ := markers("-x 1.x **bold** --- 2026"); n != 0 {
		t.Errorf("text counts as %d marks", n)
	}

	stars := func(n int) string { return "x\n\n" + strings.Repeat("* ", 20) + strings.Repeat("*", n-20) + "\n\nx\n" }
	if _, faults := parse(stars(maxSigns), lessonOptions); len(faults) > 0 {
		t.Error(faults)
	}
	expectFaults(t, stars(maxSigns+1), `3:1 "" text/nesting: the paragraph has more than 2000 brackets, stars, underscores and backquotes`)

	table := func(columns, rows int) string {
		return strings.Repeat("|a", columns) + "|\n" + strings.Repeat("|-", columns) + "|\n" + strings.Repeat("|x\n", rows) + "\ntext\n"
	}
	expectFaults(t, table(98, 199)) // 100 × 200 is the limit
	expectFaults(t, table(98, 200), `202:1 "" text/nesting: the tables of the text have more than 20000 cells`)
	d, _ := parse(quotes(60), lessonOptions)
	if d == nil || d.Intro != nil || d.Sections != nil || d.HTML(Hooks{}) != "" {
		t.Error("a refused text gives an empty document")
	}
}

// The header stands in the same file, so places count from the file's start.
func TestPlacesBehindAHeader(t *testing.T) {
	file := source.NewFile("a.md", []byte("\xef\xbb\xbf---\ntitle: é\n---\n## 0:42 Mix `{a of b}` <b>\n"))
	body := file.Span(strings.Index(file.Text(), "##"), len(file.Text()))
	d, faults := Parse(file, body, Options{Steps: true})
	expectAt(t, "stamp", d.Sections[0].Stamp, "0:42", `4:4 "0:42"`)
	expectAt(t, "value", d.Values[0].Text, "a of b", `4:15 "a of b"`)
	if len(faults) != 2 || at(faults[0].Span) != `4:24 "<b>"` {
		t.Errorf("got %v", faults)
	}
}

// A title is what a reader sees of the heading, without marks.
func TestTitleIsPlain(t *testing.T) {
	d := parseClean(t, "## One *two* three&amp;\\* `code` [link](a.html) <https://e.org>\n\nText.\n")
	const want = "One two three&* code link https://e.org"
	if got := d.Sections[0].Title.Value; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
