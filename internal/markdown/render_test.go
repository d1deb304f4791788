package markdown

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"plait/internal/diag"
	"plait/internal/source"
)

func expectHTML(t *testing.T, in, want string) {
	t.Helper()
	d, faults := parse(in, lessonOptions)
	for _, f := range faults {
		t.Errorf("%q: %s: %s", in, at(f.Span), f.Message)
	}
	if got := d.HTML(Hooks{}); got != want {
		t.Errorf("%q is written as\n%s\nwant\n%s", in, got, want)
	}
}

// Source: CommonMark Spec 0.31.2, from memory; the number of a section stands
// beside its examples. Samples of code differ by the tabindex that makes them
// reachable by keyboard, headings by their ids.
func TestCommonMark(t *testing.T) {
	// 2.2 Tabs
	expectHTML(t, "\tfoo\tbaz\t\tbim\n", "<pre tabindex=\"0\"><code>foo\tbaz\t\tbim\n</code></pre>\n")
	expectHTML(t, "  - foo\n\n\tbar\n", "<ul>\n<li>\n<p>foo</p>\n<p>bar</p>\n</li>\n</ul>\n")
	// 2.4 Backslash escapes
	expectHTML(t, "\\*not emphasized*\n\\[not a link](/foo)\n", "<p>*not emphasized*\n[not a link](/foo)</p>\n")
	// 2.5 Entity and numeric character references
	expectHTML(t, "&copy; &#35; &#0; &nbsp &MadeUpEntity;\n", "<p>© # \ufffd &amp;nbsp &amp;MadeUpEntity;</p>\n")
	// 4.1 Thematic breaks
	expectHTML(t, "***\n---\n___\n", "<hr>\n<hr>\n<hr>\n")
	// 4.2 ATX headings
	expectHTML(t, "### foo ###   \n#hashtag\n", "<h3 id=\"foo\">foo</h3>\n<p>#hashtag</p>\n")
	expectHTML(t, "####### foo\n", "<p>####### foo</p>\n")
	// 4.3 Setext headings
	expectHTML(t, "Foo\n*bar*\n---\n", "<h2 id=\"foo-bar\">Foo\n<em>bar</em></h2>\n")
	// 4.5 Fenced code blocks
	expectHTML(t, "~~~~    ruby startline=3 $%@#$\ndef foo(x)\n~~~~~~~\n", "<pre tabindex=\"0\"><code>def foo(x)\n</code></pre>\n")
	// 4.8 Paragraphs
	expectHTML(t, "aaa\n             bbb\n", "<p>aaa\nbbb</p>\n")
	// 5.1 Block quotes
	expectHTML(t, "> bar\nbaz\n> foo\n", "<blockquote>\n<p>bar\nbaz\nfoo</p>\n</blockquote>\n")
	// 5.3 Lists
	expectHTML(t, "- foo\n- bar\n+ baz\n", "<ul>\n<li>foo</li>\n<li>bar</li>\n</ul>\n<ul>\n<li>baz</li>\n</ul>\n")
	expectHTML(t, "3) foo\n", "<ol start=\"3\">\n<li>foo</li>\n</ol>\n")
	// 6.1 Code spans
	expectHTML(t, "`` foo ` bar ``  `a\nb`\n", "<p><code>foo ` bar</code>  <code>a b</code></p>\n")
	// 6.2 Emphasis and strong emphasis
	expectHTML(t, "**Gomphocarpus (*Gomphocarpus physocarpus*)** snake_case_word\n",
		"<p><strong>Gomphocarpus (<em>Gomphocarpus physocarpus</em>)</strong> snake_case_word</p>\n")
	// 6.3 Links
	expectHTML(t, "[link](</my uri> 'ti\"tle')\n", "<p><a href=\"/my%20uri\" title=\"ti&quot;tle\">link</a></p>\n")
	expectHTML(t, "[foo]: /url \"title\"\n\n[foo]\n", "<p><a href=\"/url\" title=\"title\">foo</a></p>\n")
	// 6.5 Autolinks
	expectHTML(t, "<https://foo.bar.baz/test?q=hello&id=22&boolean>\n",
		"<p><a href=\"https://foo.bar.baz/test?q=hello&amp;id=22&amp;boolean\" rel=\"noreferrer\">https://foo.bar.baz/test?q=hello&amp;id=22&amp;boolean</a></p>\n")
	expectHTML(t, "<https://example.com/\\[\\>\n", "<p><a href=\"https://example.com/%5C%5B%5C\" rel=\"noreferrer\">https://example.com/\\[\\</a></p>\n")
	// 6.7 Hard line breaks
	expectHTML(t, "foo  \nbaz\\\nbim\n", "<p>foo<br>\nbaz<br>\nbim</p>\n")
}

// What is beside CommonMark: tables whose cells are aligned by class, footnotes,
// definition lists; and what is not: other marks stay text.
func TestBesideCommonMark(t *testing.T) {
	expectHTML(t, "| a | b | c |\n|:--|:-:|--:|\n| 1 | 2 |\n", `<table>
<thead>
<tr>
<th scope="col">a</th>
<th scope="col" class="centre">b</th>
<th scope="col" class="right">c</th>
</tr>
</thead>
<tbody>
<tr>
<td>1</td>
<td class="centre">2</td>
<td></td>
</tr>
</tbody>
</table>
`)
	expectHTML(t, "a[^n]\n\n[^n]: note\n", `<p>a<sup id="fnref:1"><a href="#fn:1" class="footnote-ref" role="doc-noteref">1</a></sup></p>
<div class="footnotes" role="doc-endnotes">
<hr>
<ol>
<li id="fn:1">
<p>note&#160;<a href="#fnref:1" class="footnote-backref" role="doc-backlink">&#x21a9;&#xfe0e;</a></p>
</li>
</ol>
</div>
`)
	expectHTML(t, "term\n: what it means\n", "<dl>\n<dt>term</dt>\n<dd>what it means</dd>\n</dl>\n")
	expectHTML(t, "~~a~~ https://e.org \"q\" -- ...\n\n- [ ] x\n",
		"<p>~~a~~ https://e.org &quot;q&quot; -- ...</p>\n<ul>\n<li>[ ] x</li>\n</ul>\n")
}

func TestHooks(t *testing.T) {
	d := parseClean(t, "## A `x` [l](a.html)\n\nPour `{x of y}`. ![in](a.png) [l](b \"t\") <me@e.org>\n\n![alone](b.png)\n\n- ![in item](c.png)\n\n```formula y\n```\n\n```go\n1 < 2\n```\n\n```none\n<\n```\n")
	h := Hooks{
		Block: func(out []byte, b *Block) []byte { return append(out, "<b>"+b.Kind+"</b>\n"...) },
		Value: func(v *Value) string { return "<" + v.Text.Value + ">" },
		Image: func(i *Image) string { return fmt.Sprintf("<i>%s %v</i>", i.Target.Value, i.Alone) },
		Link:  func(l *Link) string { return "https://e.org/\"" + l.Target.Value },
		Code: func(language, code string) (string, bool) {
			return "<u>" + language + "</u>", language == "go"
		},
	}
	want := `<p>Pour <span class="value">&lt;x of y&gt;</span>. <i>a.png false</i> <a href="https://e.org/%22b" title="t" rel="noreferrer">l</a> <a href="https://e.org/%22mailto:me@e.org" rel="noreferrer">me@e.org</a></p>
<i>b.png true</i>
<ul>
<li><i>c.png false</i></li>
</ul>
<b>formula</b>
<pre tabindex="0"><code><u>go</u></code></pre>
<pre tabindex="0"><code>&lt;
</code></pre>
`
	if got := d.Sections[0].HTML(h); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if got, want := d.Sections[0].TitleHTML(h), `A <code>x</code> <a href="https://e.org/%22a.html" rel="noreferrer">l</a>`; got != want {
		t.Errorf("got %s want %s", got, want)
	}
}

func TestWithoutHooks(t *testing.T) {
	expectHTML(t, "`{x < y}`\n\n![a \"b\"](a b.png)\n\n![a \"b\"](<a b.png>)\n\n```formula y\n```\n",
		"<p><code>{x &lt; y}</code></p>\n<p>![a &quot;b&quot;](a b.png)</p>\n<img src=\"a%20b.png\" alt=\"a &quot;b&quot;\">\n")
}

func TestConcurrentUse(t *testing.T) {
	var wait sync.WaitGroup
	d, _ := parse(lessonText, lessonOptions)
	want := d.HTML(Hooks{})
	for range 8 {
		wait.Go(func() {
			for range 20 {
				other, _ := parse(lessonText, lessonOptions)
				if d.HTML(Hooks{}) != want || other.HTML(Hooks{}) != want {
					t.Error("the same text is written otherwise")
				}
			}
		})
	}
	wait.Wait()
}

// written is every element and attribute that may be written without hooks.
var written = regexp.MustCompile(`^<(?:(p|em|strong|code|ul|li|dl|dt|dd|table|thead|tbody|tr|blockquote|br|hr)|(h[1-6]) id="[^"<>]+"|(ol)(?: start="[0-9]+")?|(pre) tabindex="0"|(a) href="[^"<>]*"(?: title="[^"<>]*")?(?: rel="noreferrer")?|(img) src="[^"<>]*" alt="[^"<>]*"|(td|th)(?: scope="col")?(?: class="(?:right|centre)")?|(sup) id="fnref[0-9]*:[0-9]+"|(a) href="#fn:[0-9]+" class="footnote-ref" role="doc-noteref"|(a) href="#fnref[0-9]*:[0-9]+" class="footnote-backref" role="doc-backlink"|(div) class="footnotes" role="doc-endnotes"|(li) id="fn:[0-9]+")>`)

// checkHTML holds that HTML has only the elements and attributes of ours, each
// closed in its turn, that ids are unique and that no address runs anything.
func checkHTML(t *testing.T, html string) {
	t.Helper()
	var open []string
	ids := map[string]bool{}
	for i := strings.IndexByte(html, '<'); i >= 0; i = strings.IndexByte(html, '<') {
		if strings.IndexByte(html[:i], '>') >= 0 {
			t.Fatalf("a bare > stands in %q", html[:i])
		}
		html = html[i:]
		end := strings.IndexByte(html, '>') + 1
		tag := html[:end]
		if name, ok := strings.CutPrefix(tag, "</"); ok {
			if n := len(open) - 1; n < 0 || open[n]+">" != name {
				t.Fatalf("%s closes %v", tag, open)
			}
			open = open[:len(open)-1]
		} else {
			m := written.FindStringSubmatch(tag)
			if m == nil {
				t.Fatalf("%q is written", tag)
			}
			name := strings.Join(m[1:], "")
			if name == "a" && slices.Contains(open, "a") {
				t.Fatalf("%q stands within a link", tag)
			}
			if !slices.Contains([]string{"br", "hr", "img"}, name) {
				open = append(open, name)
			}
			checkAttributes(t, tag, ids)
		}
		html = html[end:]
	}
	if len(open) > 0 {
		t.Fatalf("%v is not closed", open)
	}
}

var (
	idAttribute     = regexp.MustCompile(` id="([^"]*)"`)
	scriptAttribute = regexp.MustCompile(`(?i)(?:href|src)="\s*(?:javascript|data|file|vbscript):`)
)

func checkAttributes(t *testing.T, tag string, ids map[string]bool) {
	t.Helper()
	if scriptAttribute.MatchString(tag) {
		t.Fatalf("%q is written", tag)
	}
	if m := idAttribute.FindStringSubmatch(tag); m != nil {
		if ids[m[1]] {
			t.Fatalf("the id %q is written twice", m[1])
		}
		ids[m[1]] = true
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{
		lessonText,
		"![a](b \"c\"){x}\n\n[a]: <b> 'c'\n[![x](y)](z)\n", "a[^1]\n\n[^1]: b\n\n  ```care\n  x\n", "- - ```formula x\n\ty\n", "> | a |\n> |:-:|\n> | `{b}` |\n",
		"## 1:02-1:03 \\* {#a}\n\n# {#a}\n", "<b onclick=x>\n<script>\n", "a\n: b\n\n  c\n", "`{\n>a`\n", "<https://a\\b>\r\n", "## [^a]\n[^a]: ## x\n", "\t```x\n", "```\n~~~formula\n",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, in string) {
		const header = "header\n"
		file := source.NewFile("lesson.md", []byte(header+in))
		body := file.Span(len(header), len(file.Text()))
		d, faults := Parse(file, body, lessonOptions)
		for _, x := range faults {
			if !body.Contains(x.Span) || x.Message == "" || x.Help == "" {
				t.Fatalf("fault %+v", x)
			}
		}
		checkPlaces(t, d, body)
		if slices.ContainsFunc(d.Sections, func(s *Section) bool { return s.ID == "" }) {
			t.Fatal("a section has no id")
		}
		if !slices.ContainsFunc(faults, func(x diag.Diagnostic) bool { return x.Rule == ruleID }) {
			checkHTML(t, d.HTML(Hooks{}))
		}
	})
}

func checkPlaces(t *testing.T, d *Document, body source.Span) {
	t.Helper()
	within := func(what string, text source.Text) {
		t.Helper()
		if text.Span.Valid() && !body.Contains(text.Span) || !text.Span.Valid() && text.Value != "" {
			t.Fatalf("%s %q stands at %s", what, text.Value, at(text.Span))
		}
	}
	same := func(what string, text source.Text) {
		t.Helper()
		within(what, text)
		if got := text.Span.Text(); got != text.Value && !strings.ContainsAny(got, "\r\n\t\\&") && text.Value != "" {
			t.Fatalf("%s %q covers %q", what, text.Value, got)
		}
	}
	for _, s := range d.Sections {
		same("stamp", s.Stamp)
		within("title", s.Title)
	}
	for _, v := range d.Values {
		same("value", v.Text)
	}
	for _, i := range d.Images {
		within("target", i.Target)
		within("alt", i.Alt)
		within("title", i.Title)
	}
	for _, l := range d.Links {
		within("target", l.Target)
	}
	for _, b := range d.Blocks {
		same("kind and name", b.Name)
		if got := b.Body.Span(0, len(b.Body.Text())); !body.Contains(got) {
			t.Fatalf("a block's body stands at %s", at(got))
		}
	}
}
