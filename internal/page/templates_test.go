package page

import (
	"encoding/json"
	"reflect"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"plait/internal/asset"
	"plait/layouts"
)

// The content policy allows nothing inside a page to run or to style it, so a
// template must not try.
func TestPagesKeepThePolicy(t *testing.T) {
	inline := regexp.MustCompile(`(?i)<style|\sstyle=|\son[a-z]+=|javascript:|<script(>|[^>]*>[^<])`)
	data := regexp.MustCompile(`(?s)<script type="application/(?:ld\+)?json">.*?</script>`)
	for kind, page := range samplePages(t, parsed(t, layouts.FS)) {
		if found := inline.FindString(data.ReplaceAllString(page, "")); found != "" {
			t.Errorf("%s has %q", kind, found)
		}
		// A policy holds for what comes after it, and the charset must come first.
		if !strings.Contains(page, "<meta charset=\"utf-8\">\n<meta http-equiv=\"Content-Security-Policy\"") {
			t.Errorf("%s: the policy does not follow the charset", kind)
		}
	}
}

func TestPolicy(t *testing.T) {
	if p := policy(""); !strings.Contains(p, "connect-src 'none'") {
		t.Errorf("a built page may connect: %s", p)
	}
	if p := policy(""); !strings.Contains(p, "media-src 'none'") {
		t.Errorf("a page without a film may play one: %s", p)
	}
	if p := policy("", "'self'", "data:"); !strings.Contains(p, "media-src 'self' data:;") {
		t.Errorf("a page may not play its film: %s", p)
	}
	if p := policy("/live.js"); !strings.Contains(p, "connect-src 'self'") {
		t.Errorf("a page of the preview may not connect: %s", p)
	}
}

// Links are relative and name a file, so that a course opens from a folder.
func TestLinksAreRelative(t *testing.T) {
	address := regexp.MustCompile(`(?:href|src)="([^"]*)"`)
	for kind, page := range samplePages(t, parsed(t, layouts.FS)) {
		for _, m := range address.FindAllStringSubmatch(page, -1) {
			if strings.HasPrefix(m[1], "data:") || strings.HasPrefix(m[1], "#") {
				continue
			}
			file, _, _ := strings.Cut(m[1], "#")
			if strings.HasPrefix(m[1], "/") || strings.Contains(m[1], "//") || strings.HasSuffix(file, "/") || !strings.Contains(file, ".") {
				t.Errorf("%s links to %q", kind, m[1])
			}
		}
	}
}

func TestTextIsEscaped(t *testing.T) {
	page := samplePages(t, parsed(t, layouts.FS))["lesson"]
	for _, want := range []string{"<title>A &amp; B</title>", `content="Say &#34;so&#34;"`, "Harbour &lt;Row&gt;"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %s", want)
		}
	}
}

func TestHeadingsDescend(t *testing.T) {
	heading := regexp.MustCompile(`<h([1-6])`)
	for kind, page := range samplePages(t, parsed(t, layouts.FS)) {
		page, _, _ = strings.Cut(page, "<template")
		last := "0"
		for _, m := range heading.FindAllStringSubmatch(page, -1) {
			if m[1][0] > last[0]+1 {
				t.Errorf("%s jumps from h%s to h%s", kind, last, m[1])
			}
			last = m[1]
		}
		if strings.Count(page, "<h1") != 1 {
			t.Errorf("%s has %d main headings", kind, strings.Count(page, "<h1"))
		}
	}
}

func TestBowlDataIsWhatTheCardShows(t *testing.T) {
	page := samplePages(t, parsed(t, layouts.FS))["lesson"]
	_, rest, _ := strings.Cut(page, `<script type="application/json">`)
	text, _, _ := strings.Cut(rest, "</script>")
	var data BowlData
	if err := json.Unmarshal([]byte(text), &data); err != nil {
		t.Fatalf("%v in %s", err, text)
	}
	want := BowlData{Colour: "colour", Step: "0.1", Kinds: []string{"colour", "colour", "developer"}, Weights: []string{"20", "10", "60"}}
	if !reflect.DeepEqual(data, want) {
		t.Errorf("got %v, want %v", data, want)
	}
}

// A course replaces one template and keeps the rest.
func TestOwnTemplate(t *testing.T) {
	own := fstest.MapFS{"templates/missing.html": {Data: []byte(`{{define "main"}}<h1>Gone fishing</h1>{{end}}`)}}
	pages := samplePages(t, parsed(t, asset.Overlay(own, layouts.FS)))
	if !strings.Contains(pages["missing"], "<h1>Gone fishing</h1>") {
		t.Error("the course's own template is not used")
	}
	if !strings.Contains(pages["lesson"], `class="bowl"`) {
		t.Error("the other templates are gone")
	}
}

func TestWrongTemplateIsNamed(t *testing.T) {
	own := fstest.MapFS{"templates/bowl.html": {Data: []byte("{{define \"bowl\"}}\n{{.Nothing")}}
	_, err := ParseTemplates(asset.Overlay(own, layouts.FS))
	if err == nil || !strings.Contains(err.Error(), "templates/bowl.html") || !strings.Contains(err.Error(), ":2:") {
		t.Errorf("got %v, want the file and the line", err)
	}
}

func BenchmarkLessonPage(b *testing.B) {
	set := parsed(b, layouts.FS)
	lesson := sampleLesson(b, set)
	bowl := sampleBowlView(b)
	for b.Loop() {
		if _, err := set.part("bowl", bowl); err != nil {
			b.Fatal(err)
		}
		if _, err := set.page(nil, "lesson", lesson); err != nil {
			b.Fatal(err)
		}
	}
}
