package browsertest

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp/kb"
	"golang.org/x/tools/txtar"
)

// The film of the demo's gloss lesson and what stands beside it.
const (
	film     = ".film video"
	here     = ".film .here"
	nowLine  = ".lines [aria-current]"
	nowTitle = ".step.now h2"
	playFilm = ".film [data-film=play]"
)

// openFilm opens the lesson once its film is ready to be moved and its script, which
// the page calls in last, is at work.
func openFilm(t *testing.T, settings ...setting) *page {
	t.Helper()
	p := openPage(t, built(t), glossPage, settings...)
	p.waitFor("the film is loaded", "() => document.querySelector('.film video').readyState > 0 && !document.querySelector('.film .keys').hidden")
	return p
}

// waitFor waits until a condition of the page holds.
func (p *page) waitFor(what, condition string) {
	p.t.Helper()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		if evalTo[bool](p, condition) {
			return
		}
	}
	p.t.Fatalf("waited in vain: %s", what)
}

// at is where the film is, in seconds.
func (p *page) at() float64 {
	p.t.Helper()
	return evalTo[float64](p, "() => document.querySelector('.film video').currentTime")
}

// filmTimes are the beginnings of the steps, in seconds.
func filmTimes(p *page) []float64 {
	p.t.Helper()
	return evalTo[[]float64](p, "() => [...document.querySelectorAll('.step > a.when')].map(a => Number(a.dataset.at))")
}

// expectAt checks that the film is at a time or has gone on from it a little.
func expectAt(p *page, what string, want float64) {
	p.t.Helper()
	if got := p.at(); got < want-0.06 || got > want+1.5 {
		p.t.Errorf("%s: the film is at %.2f s, want %.2f", what, got, want)
	}
}

// The film goes where a step, a line, a key, the rail or the address of the page
// says, and what is shown follows.
func TestSeek(t *testing.T) {
	p := openFilm(t)
	times := filmTimes(p)
	if len(times) < 3 {
		t.Fatalf("%d steps have a time", len(times))
	}
	p.click(".step:nth-child(3) > a.when")
	expectAt(p, "a step", times[2])
	p.waitText(playFilm, "Pause")
	p.click(playFilm)
	p.waitText(playFilm, "Play")
	expectTexts(t, p, nowTitle, p.text(".step:nth-child(3) h2"))
	expectWords(t, p.text(here), p.text(nowTitle))

	p.eval("() => { document.querySelector('.said').open = true }")
	line := evalTo[float64](p, "() => Number(document.querySelectorAll('.lines a')[1].dataset.at)")
	p.click(".lines li:nth-child(2) a")
	expectAt(p, "a line", line)
	p.waitText(nowLine, p.text(".lines li:nth-child(2) a"))
	p.click(playFilm)

	p.eval("() => document.querySelector('.film video').focus()")
	p.press("n")
	expectAt(p, "the next step", times[1])
	p.press(kb.ArrowRight)
	expectAt(p, "five seconds on", times[1]+5)
	p.press(kb.ArrowLeft)
	p.press("p")
	expectAt(p, "the step before", times[0])
	p.press(" ")
	p.waitFor("space plays", "() => !document.querySelector('.film video').paused")
	p.press("k")
	p.waitFor("k stops", "() => document.querySelector('.film video').paused")

	p.eval("t => { const r = document.querySelector('.rail input'); r.value = t; r.dispatchEvent(new Event('input', {bubbles: true})) }", times[1]+1)
	expectAt(p, "the rail", times[1]+1)
	expectTexts(t, p, nowTitle, p.text(".step:nth-child(2) h2"))
	if n := p.count(".rail rect"); n != len(times) {
		t.Errorf("%d chapters stand on the rail, want %d", n, len(times))
	}
	if n := p.count(".rail rect.now"); n != 1 {
		t.Errorf("%d chapters are marked on the rail", n)
	}
}

// Before it plays, the film shows its first picture: a black one would say that there is
// nothing to see.
func TestFilmShowsItsFirstPicture(t *testing.T) {
	p := openFilm(t)
	p.waitFor("a picture is there", `() => {
		const film = document.querySelector('.film video')
		return film.readyState >= HTMLMediaElement.HAVE_CURRENT_DATA && !film.seeking && film.getVideoPlaybackQuality().totalVideoFrames > 0
	}`)
	if at := p.at(); at <= 0 || at > 0.2 {
		t.Errorf("the film waits at %.2f s", at)
	}
	expectTexts(t, p, playFilm, "Play")
	expectWords(t, p.text(here), "0:00")
}

// A link with a time opens the film there.
func TestSeekByAddress(t *testing.T) {
	p := openFilm(t)
	p.goTo(glossPage + "?t=20")
	p.waitFor("the film is at 20 s", "() => Math.abs((document.querySelector('.film video')?.currentTime ?? 0) - 20) < 0.1")
}

// While the film plays, the line that is said and the step are marked and the list
// of lines moves along.
func TestFilmFollows(t *testing.T) {
	p := openFilm(t)
	p.eval("() => { document.querySelector('.said').open = true }")
	last := evalTo[float64](p, "() => Number([...document.querySelectorAll('.lines a')].pop().dataset.at)")
	p.eval("t => { document.querySelector('.film video').currentTime = t - 0.4 }", last)
	p.click(playFilm)
	p.waitFor("the last line is said", "() => document.querySelector('.lines li:last-child [aria-current]') !== null")
	if !evalTo[bool](p, `() => {
		const list = document.querySelector('.lines').getBoundingClientRect()
		const line = document.querySelector('.lines [aria-current]').getBoundingClientRect()
		return line.top >= list.top - 1 && line.bottom <= list.bottom + 1
	}`) {
		t.Error("the line that is said lies outside the list")
	}
	if n := p.count(nowTitle); n != 1 {
		t.Errorf("%d steps are lit", n)
	}
}

func TestFindInFilm(t *testing.T) {
	p := openFilm(t)
	p.eval("() => { document.querySelector('.said').open = true }")
	all := p.count(".lines li")
	p.fill(".said input", "8V")
	found := p.texts(".lines li:not([hidden])")
	if len(found) == 0 || len(found) == all {
		t.Fatalf("%d of %d lines are left", len(found), all)
	}
	for _, line := range found {
		expectWords(t, line, "8V")
	}
	expectWords(t, p.text(".said output"), "of", "lines")
	p.fill(".said input", "no such word")
	expectTexts(t, p, ".said output", "0 of "+strings.TrimPrefix(p.text(".said output"), "0 of "))
	if n := p.count(".lines li:not([hidden])"); n != 0 {
		t.Errorf("%d lines are left", n)
	}
}

// Captions show from inside the page and can be put away; speed and sound change; a
// step repeats until it is let go.
func TestFilmControls(t *testing.T) {
	p := openFilm(t)
	const showing = "() => { const t = document.querySelector('.film video').textTracks[0]; return t.mode === 'showing' && t.cues?.length > 0 }"
	p.waitFor("captions show", showing)
	first := evalTo[float64](p, "() => document.querySelector('.film video').textTracks[0].cues[0].startTime")
	p.eval("t => { document.querySelector('.film video').currentTime = t + 0.1 }", first)
	p.waitFor("a caption is up", "() => document.querySelector('.film video').textTracks[0].activeCues.length === 1")
	p.click(".film [data-film=captions]")
	if evalTo[bool](p, showing) {
		t.Error("captions show though they were put away")
	}
	p.eval("() => { const s = document.querySelector('.keys select'); s.value = '1.5'; s.dispatchEvent(new Event('change', {bubbles: true})) }")
	if rate := evalTo[float64](p, "() => document.querySelector('.film video').playbackRate"); rate != 1.5 {
		t.Errorf("the film runs at %v", rate)
	}
	p.click(".film [data-film=mute]")
	if !evalTo[bool](p, "() => document.querySelector('.film video').muted") {
		t.Error("the film is not mute")
	}

	times := filmTimes(p)
	p.click(".step:nth-child(2) > a.when")
	p.click(".film [data-film=repeat]")
	p.eval("t => { document.querySelector('.film video').currentTime = t }", times[2]-0.3)
	p.waitFor("the step begins again", "() => document.querySelector('.film video').currentTime < "+jsNumber(times[2]-1))
	expectAt(p, "the repeated step", times[1])
	p.click(".film [data-film=repeat]")
	p.eval("t => { document.querySelector('.film video').currentTime = t }", times[2]-0.2)
	p.waitFor("the film goes on", "() => document.querySelector('.film video').currentTime > "+jsNumber(times[2]))
}

func jsNumber(n float64) string { return strconv.FormatFloat(n, 'f', -1, 64) }

// Without scripts the browser's own controls are there, with captions, and each
// time is a link to its moment.
func TestFilmWithoutScripts(t *testing.T) {
	p := openPage(t, built(t), glossPage, withoutScripts())
	if p.count(film+"[controls] track[default]") != 1 {
		t.Error("the film lacks controls or captions")
	}
	if n := len(p.shown(".film .keys, .film [type=search]")); n != 0 {
		t.Errorf("%d controls are shown that need a script", n)
	}
	if n := p.count(".step > a.when[href*='#t=']"); n != p.count(".step") {
		t.Errorf("%d steps lead to the film", n)
	}
	p.waitFor("captions are read", "() => document.querySelector('.film video').textTracks[0].cues?.length > 0")
}

// Without the film everything else is there, and no link leads to nothing.
func TestFilmAbsent(t *testing.T) {
	s := copyOfSite(t, built(t))
	for _, name := range s.withSuffix(".webm") {
		if err := os.Remove(filepath.Join(s.dir, filepath.FromSlash(name))); err != nil {
			t.Fatal(err)
		}
	}
	p := openPage(t, s, glossPage)
	p.waitText(".film .gone", "The film is not here")
	p.waitComplaint("net::ERR_FILE_NOT_FOUND")
	if n := p.count("a[data-at][href]"); n != 0 {
		t.Errorf("%d links lead to the film that is not there", n)
	}
	expectTexts(t, p, ".step:nth-child(2) h2", "Mix the gloss")
	p.click("[data-do=steps]")
	p.waitText(".stepbar p", "Step 1 of")
}

// copyOfSite copies a site, so that a test can take files away.
func copyOfSite(t *testing.T, s *site) *site {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS(s.dir)); err != nil {
		t.Fatal(err)
	}
	return &site{dir: dir, files: s.files}
}

// hosted is a course of one lesson whose film is hosted elsewhere.
const hosted = `-- content/course.yaml --
title: Films
language: en-GB
modules: [{name: films, title: Films, lessons: [media, page]}]
-- lessons/01-media/lesson.md --
---
title: A film elsewhere
summary: One film.
recording: {link: "https://films.example/gloss.webm", captions: a.en.vtt, length: "1:00"}
---

## 0:00 Look

Look.

## 0:30 Mix

Mix.
-- lessons/01-media/a.en.vtt --
WEBVTT

00:01.000 --> 00:04.000
Two parts of 8N.
-- lessons/02-page/lesson.md --
---
title: A page elsewhere
summary: One page.
recording: {link: "https://films.example/watch/gloss", length: "1:00"}
---

## 0:30 Mix

Mix.
`

// A hosted film is asked for before anything is loaded from there, and the page may
// load from no other place. Declined, times are plain links.
func TestHostedFilm(t *testing.T) {
	s := builtFrom(t, hosted)
	p := openPage(t, s, "lessons/media.html") // any request elsewhere fails the test
	policy := evalTo[string](p, `() => document.querySelector('meta[http-equiv="Content-Security-Policy"]').content`)
	expectWords(t, policy, "media-src data: https://films.example;", "default-src 'none'")
	if strings.Count(policy, "https:") != 1 {
		t.Errorf("the policy names more than one place: %s", policy)
	}
	if p.count(film) != 0 {
		t.Error("there is a film before it was asked for")
	}
	expectWords(t, p.text(".film .ask"), "films.example", "Nothing has been loaded")
	expectTexts(t, p, ".step > a.when[href='https://films.example/gloss.webm#t=30']", "0:30")

	p.click("[data-do=film]")
	p.waitText(".film .gone", "The film is not here") // there is no such place
	p.waitComplaint("request for https://films.example/gloss.webm")
	p.waitComplaint("net::ERR_NAME_NOT_RESOLVED")

	p.goTo("lessons/page.html")
	if p.count("[data-do=film], video") != 0 {
		t.Error("the page offers to load what is no film")
	}
	expectTexts(t, p, ".step > a.when[href='https://films.example/watch/gloss#t=30']", "0:30")
	if policy := evalTo[string](p, `() => document.querySelector('meta[http-equiv="Content-Security-Policy"]').content`); strings.Contains(policy, "https:") {
		t.Errorf("the policy names a place from which nothing is loaded: %s", policy)
	}
}

// builtFrom builds the course of an archive.
func builtFrom(t *testing.T, archive string) *site {
	t.Helper()
	dir, out := t.TempDir(), t.TempDir()
	for _, f := range txtar.Parse([]byte(archive)).Files {
		name := filepath.Join(dir, filepath.FromSlash(f.Name))
		if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, f.Data, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	cmd := exec.Command("go", "run", "plait/cmd/plait", "build", "--course", dir, "--out", filepath.Join(out, "site"))
	if said, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	s, err := readSite(filepath.Join(out, "site"))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Chapters and captions are WebVTT that the parser of the standard's community has
// nothing to say about.
func TestRecordingFiles(t *testing.T) {
	s := built(t)
	names := s.withSuffix(".vtt")
	if len(names) < 2 {
		t.Fatalf("the site has %q", names)
	}
	for _, name := range names {
		mode := "subtitles"
		if strings.HasSuffix(name, ".chapters.vtt") {
			mode = "chapters"
		}
		faults := parserFaults(t, mode, string(readFile(t, s, name)))
		for _, fault := range faults {
			t.Errorf("%s: %s", name, fault)
		}
	}
	lines := regexp.MustCompile(`(?m)^(\d+):(\d\d) \S`).FindAllStringSubmatch(string(readFile(t, s, "lessons/brassy-gloss.description.txt")), -1)
	before := -10
	for i, m := range lines {
		minutes, _ := strconv.Atoi(m[1])
		seconds, _ := strconv.Atoi(m[2])
		at := minutes*60 + seconds
		if i == 0 && at != 0 || at-before < 10 {
			t.Errorf("chapter %d of the description begins at %s:%s", i+1, m[1], m[2])
		}
		before = at
	}
	if len(lines) < 3 {
		t.Errorf("the description has %d chapters", len(lines))
	}
}
