package browsertest

import (
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// The checks of this package are only worth something when they can fail, so
// each is run here on a page that is bad in a known way.

func broken(t *testing.T) *site {
	t.Helper()
	s, err := readSite(filepath.Join("testdata", "broken"))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestBrokenPageIsHeard(t *testing.T) {
	p := openPage(t, broken(t), "index.html")
	p.eval("() => document.querySelector('.pale').click()")
	heard := strings.Join(p.takeComplaints(), "\n")
	expectWords(t, heard,
		"console.log: \"hello\"",
		"thrown on purpose",
		"request for https://elsewhere.example/picture.png",
		"lost.png",
		"security error",
	)
}

func TestBrokenPageIsJudged(t *testing.T) {
	p := openPage(t, broken(t), "index.html", withWidth(320))
	axe := readAxe(t)
	defer p.takeComplaints()
	expectWords(t, strings.Join(barriers(p, axe), "\n"),
		"color-contrast", "document-title", "html-has-lang", "image-alt")
	expectWords(t, strings.Join(overhang(p), "\n"), "px wide", `class="wide"`)
	expectWords(t, strings.Join(looseness(p), "\n"), "default-src 'none'", "allows *")
}

func TestBrokenMarkupIsFound(t *testing.T) {
	t.Run("standard", func(t *testing.T) {
		expectFaults(t, standardCheck(t, broken(t)), "title", "alt", "Duplicate ID", "colour")
	})
	t.Run("habits", func(t *testing.T) {
		expectFaults(t, habitsCheck(t, broken(t)), "no-dup-id", "no-implicit-button-type")
	})
}

func expectFaults(t *testing.T, check *exec.Cmd, words ...string) {
	t.Helper()
	said, err := check.CombinedOutput()
	if err == nil {
		t.Error("the checker found nothing")
	}
	expectWords(t, string(said), words...)
}

func TestFollow(t *testing.T) {
	s := &site{files: []string{"index.html", "film.webm", "lessons/gloss.html"}}
	all := map[string]outline{
		"index.html":         {IDs: []string{"top"}},
		"lessons/gloss.html": {IDs: []string{"mix"}},
	}
	for _, c := range []struct {
		name string
		link link
		want string // part of the fault; empty for a good link
	}{
		{"file", link{Tag: "a", Value: "gloss.html"}, ""},
		{"file above", link{Tag: "a", Value: "../index.html#top"}, ""},
		{"same page", link{Tag: "a", Value: "#mix"}, ""},
		{"time in a film", link{Tag: "video", Attr: "src", Value: "../film.webm#t=42"}, ""},
		{"data", link{Tag: "link", Value: "data:,"}, ""},
		{"prose", link{Tag: "a", Value: "https://elsewhere.example/", Prose: true}, ""},
		{"own address", link{Tag: "link", Rel: "canonical", Value: "https://school.example/"}, ""},
		{"missing file", link{Tag: "a", Value: "index.html"}, "no such file"},
		{"folder", link{Tag: "a", Value: "../lessons/"}, "no such file"},
		{"outside the folder", link{Tag: "a", Value: "../../index.html"}, "no such file"},
		{"missing place", link{Tag: "a", Value: "#rinse"}, "no such place"},
		{"place in a film", link{Tag: "a", Value: "../film.webm#mix"}, "no page"},
		{"empty", link{Tag: "a", Value: ""}, "leads nowhere"},
		{"empty fragment", link{Tag: "a", Value: "#"}, "leads nowhere"},
		{"from the root", link{Tag: "a", Value: "/index.html"}, "root of a server"},
		{"navigation outside", link{Tag: "a", Value: "https://elsewhere.example/"}, "out of the site"},
		{"insecure", link{Tag: "a", Value: "http://elsewhere.example/", Prose: true}, "out of the site"},
		{"no scheme", link{Tag: "img", Value: "//elsewhere.example/x.png", Prose: true}, "out of the site"},
		{"picture outside", link{Tag: "img", Value: "https://elsewhere.example/x.png", Prose: true}, "out of the site"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := follow(s, all, "lessons/gloss.html", c.link)
			if c.want == "" && got != "" || !strings.Contains(got, c.want) {
				t.Errorf("follow(%+v) = %q, want %q", c.link, got, c.want)
			}
		})
	}
}

func TestNeighbours(t *testing.T) {
	all := map[string]outline{
		"index.html": {Links: []link{
			{Tag: "a", Value: "lessons/gloss.html#mix"},
			{Tag: "a", Value: "https://elsewhere.example/index.html"},
			{Tag: "link", Value: "about.html"},
			{Tag: "a", Value: "lost.html"},
		}},
		"lessons/gloss.html": {},
		"about.html":         {},
	}
	if got, want := neighbours(all, "index.html"), []string{"lessons/gloss.html"}; !slices.Equal(got, want) {
		t.Errorf("neighbours = %q, want %q", got, want)
	}
}

// TestPageControls tries what the tests of single pages build on.
func TestPageControls(t *testing.T) {
	s, err := readSite(filepath.Join("testdata", "working"))
	if err != nil {
		t.Fatal(err)
	}
	t.Run("typing", func(t *testing.T) {
		p := openPage(t, s, "index.html")
		p.fill("input", "45")
		p.waitText("#twice", "90")
		if got := p.value("input"); got != "45" {
			t.Errorf("the field holds %q, want 45", got)
		}
	})
	t.Run("sleep", func(t *testing.T) {
		p := openPage(t, s, "index.html", withClock())
		p.click("button")
		p.sleep(10 * time.Minute)
		p.waitText("#left", "4:")
		p.sleep(5 * time.Minute)
		p.waitText("#left", "time is up")
	})
	t.Run("store", func(t *testing.T) {
		p := openPage(t, s, "index.html")
		p.waitText("#stored", "visit 1")
		p.reload()
		p.waitText("#stored", "visit 2")
		other := openPage(t, s, "index.html")
		other.waitText("#stored", "visit 1")
	})
	t.Run("reader", func(t *testing.T) {
		openPage(t, s, "index.html", withDark()).waitText("#media", "dark")
		openPage(t, s, "index.html", withPrint()).waitText("#media", "print")
		openPage(t, s, "index.html", withWidth(320)).waitText("#media", "320px")
		if got := openPage(t, s, "index.html").text("#media"); got != "" {
			t.Errorf("by default the page sees %q", got)
		}
	})
	t.Run("no scripts", func(t *testing.T) {
		p := openPage(t, s, "index.html", withoutScripts())
		if got := p.text("#stored"); got != "" {
			t.Errorf("a script ran: %q", got)
		}
		if got := p.count("main p"); got != 4 {
			t.Errorf("%d paragraphs found, want 4", got)
		}
	})
}
