package highlight

import (
	"html"
	"regexp"
	"strings"
	"sync"
	"testing"
	"unicode/utf8"
)

// expectHTML checks that a sample holds the marked-up pieces in this order.
func expectHTML(t *testing.T, language, code string, pieces ...string) {
	t.Helper()
	got, ok := HTML(language, code)
	if !ok {
		t.Fatalf("HTML(%q) does not know the language", language)
	}
	rest := got
	for _, p := range pieces {
		_, after, found := strings.Cut(rest, p)
		if !found {
			t.Errorf("HTML(%q, %q)\nlacks %s\nin order in %s", language, code, p, got)
			return
		}
		rest = after
	}
}

func TestFormula(t *testing.T) {
	expectHTML(t, "formula", "colour: 2 parts 8N (20 g) + 1 part 8V # a gloss\n",
		`<span class="h-key">colour</span>: <span class="h-number">2 parts</span> <span class="h-text">8N</span>`,
		`<span class="h-mark">(</span><span class="h-number">20 g</span><span class="h-mark">)</span>`,
		`<span class="h-number">1 part</span> <span class="h-text">8V</span>`,
		`<span class="h-note"># a gloss</span>`)
	expectHTML(t, "formula", "strength: 1.2 %\nratio: \"1:1.5\"\n",
		`<span class="h-number">1.2 %</span>`, `<span class="h-text">&#34;1:1.5&#34;</span>`)
}

func TestSettings(t *testing.T) {
	expectHTML(t, "range", "tones:\n  V: {name: violet, base: violet}\n",
		`<span class="h-key">tones</span>`, `<span class="h-key">V</span>`,
		`<span class="h-key">name</span>: violet`, `<span class="h-key">base</span>: violet`)
	expectHTML(t, "course", "modules:\n  - name: on-the-head\n",
		`<span class="h-mark">- </span><span class="h-key">name</span>: on-the-head`)
	expectHTML(t, "words", "- term: level\n", `<span class="h-key">term</span>`)
	expectHTML(t, "care", "- Look at it.\n", `<span class="h-mark">-</span> Look at it.`)
}

func TestLesson(t *testing.T) {
	expectHTML(t, "lesson", "---\ntitle: A gloss\n---\n\n## 0:42-2:10 Mix\n\nPour `{developer of gloss}` **first**.\n\n```formula gloss\nratio: 1:2\n```\n\n![Head](a.svg)\n",
		`<span class="h-mark">---</span>`, `<span class="h-key">title</span>`, `<span class="h-mark">---</span>`,
		`<span class="h-mark">## </span><span class="h-number">0:42-2:10</span><span class="h-head"> Mix</span>`,
		"<span class=\"h-mark\">`{developer of gloss}`</span>", `<span class="h-head">**first**</span>`,
		`<span class="h-key">formula</span> gloss`, `<span class="h-key">ratio</span>`,
		`<span class="h-text">a.svg</span>`)
}

func TestConsole(t *testing.T) {
	expectHTML(t, "console", "$ plait build --course demo # once\n5 lessons\n",
		`<span class="h-key">plait</span> build <span class="h-mark">--course</span> demo`, `<span class="h-note"># once</span>`)
}

func TestUnknownLanguage(t *testing.T) {
	got, ok := HTML("cobol", "a < b")
	if ok || got != "a &lt; b" {
		t.Errorf("unknown language: got %q, %v", got, ok)
	}
	if _, ok := HTML("yaml", strings.Repeat("a", maxCode+1)); ok {
		t.Error("a sample beyond the limit was coloured")
	}
}

func TestConcurrentUse(t *testing.T) {
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() { HTML("formula", "colour: 20 g 8N\n") })
	}
	all.Wait()
}

// Colour adds spans and nothing else: without them the sample is as it was.
func FuzzHTMLKeepsText(f *testing.F) {
	f.Add("lesson", "---\na: b\n---\n## 0:42 x\n```formula\nx\n```\n")
	f.Add("formula", "colour: \"2 parts\r\n<b>&")
	f.Add("console", "$ plait\n\x00é")
	tags := regexp.MustCompile(`<span class="h-[a-z]+">|</span>`)
	f.Fuzz(func(t *testing.T, language, code string) {
		if !utf8.ValidString(code) {
			t.Skip("a source file is valid UTF-8 before it gets here")
		}
		got, _ := HTML(language, code)
		if back := html.UnescapeString(tags.ReplaceAllString(got, "")); back != html.UnescapeString(html.EscapeString(code)) {
			t.Errorf("HTML(%q, %q) shows %q", language, code, back)
		}
	})
}

// What was worked out once can be taken along and is used as it is.
func TestSamplesAreTakenAlong(t *testing.T) {
	const code = "colour: 1 part 9V # taken along\n"
	want, _ := HTML("formula", code)
	list := Samples()
	found := false
	for i, s := range list {
		if s.Code == code {
			found = s.HTML == want
			list[i].HTML = "taken along"
		}
	}
	if !found || len(list) != Known() {
		t.Fatalf("the sample is not among %d", len(list))
	}
	Load(list)
	if got, ok := HTML("formula", code); !ok || got != "taken along" {
		t.Errorf("got %s", got)
	}
	kept.Lock()
	defer kept.Unlock()
	delete(kept.html, sample{"formula", code})
}
