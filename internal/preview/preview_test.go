package preview

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"plait/internal/artifact"
	"plait/internal/diag"
	"plait/internal/source"
)

// film is what stands in for a film: a kilobyte in which each place is known.
var film = func() []byte {
	data := make([]byte, 1024)
	for i := range data {
		data[i] = byte(i)
	}
	return data
}()

// good is a build without errors. The mark is in the text of the home page.
func good(t testing.TB, mark string) Result {
	t.Helper()
	tree := artifact.New()
	for _, f := range []artifact.File{
		{Path: "index.html", Stage: artifact.Page, Data: []byte("<title>home</title>" + mark)},
		{Path: "lessons/gloss.html", Stage: artifact.Page, Data: []byte("<title>gloss</title>" + mark)},
		{Path: "lessons/überblick.html", Stage: artifact.Page, Data: []byte("<title>view</title>")},
		{Path: "assets/plait.css", Data: []byte("body{}")},
		{Path: "assets/head.svg", Data: []byte("<svg/>")},
		{Path: "media/gloss.webm", Input: "lessons/01-gloss/gloss.webm"},
		{Path: "media/gloss.en.vtt", Input: "lessons/01-gloss/gloss.en.vtt"},
		{Path: "media/lost.png", Input: "lessons/01-gloss/lost.png"},
	} {
		if err := tree.Add(f); err != nil {
			t.Fatal(err)
		}
	}
	return Result{Tree: tree, Inputs: fstest.MapFS{
		"lessons/01-gloss/gloss.webm":   {Data: film, ModTime: time.Unix(1, 0)},
		"lessons/01-gloss/gloss.en.vtt": {Data: []byte("WEBVTT\n")},
		"content/course.yaml":           {Data: []byte("secret: yes")},
	}}
}

// bad is a build with one error and a warning.
func bad(message string) Result {
	f := source.NewFile("lessons/01-gloss/lesson.md", []byte("# Gloss\n\tratio: 2:1 # <café>\n"))
	at := f.Span(16, 19)
	return Result{Diagnostics: []diag.Diagnostic{
		diag.Errorf("formula/ratio", at, "%s", message).
			WithNote(f.Span(2, 7), "in this lesson").WithHelp("write 1:2 or 2:1 & say which is colour"),
		diag.Warningf("text/long", f.Whole(), "a warning"),
	}}
}

func get(t *testing.T, h http.Handler, target string, headers ...string) *http.Response {
	t.Helper()
	return ask(t, h, http.MethodGet, target, headers...)
}

// ask sends a request by the name of 127.0.0.1 and with headers: name, value, …
func ask(t *testing.T, h http.Handler, method, target string, headers ...string) *http.Response {
	t.Helper()
	r := httptest.NewRequest(method, target, nil)
	r.Host = "127.0.0.1:4000"
	for i := 0; i < len(headers); i += 2 {
		r.Header.Set(headers[i], headers[i+1])
		if headers[i] == "Host" {
			r.Host = headers[i+1]
		}
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w.Result()
}

func body(t *testing.T, r *http.Response) string {
	t.Helper()
	defer r.Body.Close()
	data, err := io.ReadAll(r.Body)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestFiles(t *testing.T) {
	s := New()
	s.Update(good(t, "one"))
	h := s.Handler()
	for _, c := range []struct {
		target string
		code   int
		kind   string
		text   string
	}{
		{"/", 200, "text/html; charset=utf-8", "<title>home</title>one"},
		{"/index.html", 200, "text/html; charset=utf-8", "<title>home</title>one"},
		{"/lessons/gloss.html?step=2", 200, "text/html; charset=utf-8", "<title>gloss</title>one"},
		{"/lessons/%C3%BCberblick.html", 200, "text/html; charset=utf-8", "<title>view</title>"},
		{"/assets/plait.css", 200, "text/css; charset=utf-8", "body{}"},
		{"/media/gloss.webm", 200, "video/webm", string(film)},
		{"/media/gloss.en.vtt", 200, "text/vtt; charset=utf-8", "WEBVTT\n"},
		{"/-/preview.js", 200, "text/javascript; charset=utf-8", string(script())},
		{"/-/preview.css", 200, "text/css; charset=utf-8", string(style)},
		{"/media/lost.png", 404, "text/html; charset=utf-8", ""},
		{"/lessons/", 404, "text/html; charset=utf-8", ""},
		{"/lessons", 404, "text/html; charset=utf-8", ""},
		{"/Lessons/gloss.html", 404, "text/html; charset=utf-8", ""},
		{"/content/course.yaml", 404, "text/html; charset=utf-8", ""},
		{"/../content/course.yaml", 404, "text/html; charset=utf-8", ""},
		{"/lessons/..%2f..%2fcontent/course.yaml", 404, "text/html; charset=utf-8", ""},
		{"/lessons/%2e%2e/index.html", 404, "text/html; charset=utf-8", ""},
		{"//index.html", 404, "text/html; charset=utf-8", ""},
		{"/lessons\\gloss.html", 404, "text/html; charset=utf-8", ""},
		{"/-/other", 404, "text/html; charset=utf-8", ""},
	} {
		r := get(t, h, c.target)
		text := body(t, r)
		if r.StatusCode != c.code || r.Header.Get("Content-Type") != c.kind || c.text != "" && text != c.text {
			t.Errorf("%s: %d %s %.40q", c.target, r.StatusCode, r.Header.Get("Content-Type"), text)
		}
		if strings.Contains(text, "secret") {
			t.Errorf("%s: shows a file of the course", c.target)
		}
		if r.Header.Get("X-Content-Type-Options") != "nosniff" {
			t.Errorf("%s: the browser may guess the type", c.target)
		}
	}
}

// Source: RFC 9110, sections 9.3.2 (HEAD), 13.1.2 (If-None-Match) and 14 (ranges).
func TestRangesAndTags(t *testing.T) {
	s := New()
	s.Update(good(t, "one"))
	h := s.Handler()
	for _, c := range []struct {
		headers []string
		code    int
		length  string
		text    string
	}{
		{[]string{"Range", "bytes=10-19"}, 206, "10", string(film[10:20])},
		{[]string{"Range", "bytes=1000-"}, 206, "24", string(film[1000:])},
		{[]string{"Range", "bytes=-4"}, 206, "4", string(film[1020:])},
		{[]string{"Range", "bytes=4000-"}, 416, "", ""},
		{nil, 200, "1024", string(film)},
	} {
		r := get(t, h, "/media/gloss.webm", c.headers...)
		text := body(t, r)
		if r.StatusCode != c.code || c.code != 416 && (text != c.text || r.Header.Get("Content-Length") != c.length) {
			t.Errorf("%q: %d, %d bytes", c.headers, r.StatusCode, len(text))
		}
	}
	for _, target := range []string{"/media/gloss.webm", "/assets/plait.css", "/lessons/gloss.html"} {
		tag := get(t, h, target).Header.Get("ETag")
		if r := get(t, h, target, "If-None-Match", tag); tag == "" || r.StatusCode != 304 {
			t.Errorf("%s: %q gives %d", target, tag, r.StatusCode)
		}
	}
	r := ask(t, h, http.MethodHead, "/media/gloss.webm")
	if r.StatusCode != 200 || r.Header.Get("Content-Length") != "1024" || body(t, r) != "" {
		t.Errorf("HEAD: %d, %s", r.StatusCode, r.Header.Get("Content-Length"))
	}
	if r := get(t, h, "/favicon.ico"); r.StatusCode != 204 {
		t.Errorf("what browsers ask for unbidden gives %d", r.StatusCode)
	}
	// A page must never come from a store: it would show what was there before.
	if r := get(t, h, "/"); r.Header.Get("Cache-Control") != "no-store" {
		t.Errorf("the page may be stored: %v", r.Header)
	}
	if r := get(t, h, "/assets/plait.css"); !strings.Contains(r.Header.Get("Cache-Control"), "immutable") {
		t.Errorf("what is named by its content is asked for again: %v", r.Header)
	}
	if r := get(t, h, "/media/gloss.webm"); r.Header.Get("Cache-Control") != "no-cache" {
		t.Errorf("a file of the course may be stored: %v", r.Header)
	}
	if policy := get(t, h, "/assets/head.svg").Header.Get("Content-Security-Policy"); !strings.Contains(policy, "default-src 'none'") || !strings.Contains(policy, "sandbox") {
		t.Errorf("a drawing may run scripts: %q", policy)
	}
}

// A page of another site is not answered, whatever name it uses for this computer.
func TestRequestsFromElsewhere(t *testing.T) {
	s := New()
	s.Update(good(t, "one"))
	h := s.Handler()
	for _, c := range []struct {
		method  string
		headers []string
		code    int
	}{
		{"GET", nil, 200},
		{"HEAD", nil, 200},
		{"POST", nil, 405},
		{"PUT", nil, 405},
		{"OPTIONS", nil, 405},
		{"CONNECT", nil, 405},
		{"GET", []string{"Host", "localhost:4000"}, 200},
		{"GET", []string{"Host", "LOCALHOST"}, 200},
		{"GET", []string{"Host", "[::1]:4000"}, 200},
		{"GET", []string{"Host", "127.8.8.8:1"}, 200},
		{"GET", []string{"Host", "rebound.example:4000"}, 421},
		{"GET", []string{"Host", "127.0.0.1.rebound.example"}, 421},
		{"GET", []string{"Host", "localhost.rebound.example:4000"}, 421},
		{"GET", []string{"Host", "192.168.1.7:4000"}, 421},
		{"GET", []string{"Host", "0.0.0.0:4000"}, 421},
		{"GET", []string{"Host", ""}, 421},
		{"GET", []string{"Origin", "http://127.0.0.1:4000"}, 200},
		{"GET", []string{"Origin", "http://127.0.0.1:5000"}, 403},
		{"GET", []string{"Origin", "https://127.0.0.1:4000"}, 403},
		{"GET", []string{"Origin", "http://evil.example"}, 403},
		{"GET", []string{"Origin", "null"}, 403},
		{"GET", []string{"Sec-Fetch-Site", "same-origin"}, 200},
		{"GET", []string{"Sec-Fetch-Site", "none"}, 200},
		{"GET", []string{"Sec-Fetch-Site", "cross-site"}, 403},
		{"GET", []string{"Sec-Fetch-Site", "same-site", "Sec-Fetch-Mode", "no-cors"}, 403},
		{"GET", []string{"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "navigate", "Sec-Fetch-Dest", "document"}, 200},
		{"GET", []string{"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "navigate", "Sec-Fetch-Dest", "iframe"}, 403},
	} {
		for _, target := range []string{"/", "/media/gloss.webm", "/-/problems"} {
			r := ask(t, h, c.method, target, c.headers...)
			if r.StatusCode != c.code {
				t.Errorf("%s %s %q: %d, want %d", c.method, target, c.headers, r.StatusCode, c.code)
			}
		}
	}
	r := httptest.NewRequest("GET", "/", strings.NewReader("content"))
	r.Host = "localhost"
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	if w.Code != 400 {
		t.Errorf("a request with content: %d", w.Code)
	}
}

// The list of problems gives each with its place, its line and its way out, and
// nothing of an author's text is taken for markup.
func TestProblems(t *testing.T) {
	s := New()
	h := s.Handler()
	r := get(t, h, "/lessons/gloss.html")
	if text := body(t, r); r.StatusCode != 503 || !strings.Contains(text, "is being built") {
		t.Errorf("before any build: %d %s", r.StatusCode, text)
	}

	s.Update(bad(`ratio "2:1" is <script>alert(1)</script>`))
	r = get(t, h, "/lessons/gloss.html")
	text := body(t, r)
	if r.StatusCode != 503 || !strings.Contains(r.Header.Get("Content-Security-Policy"), "default-src 'none'") {
		t.Errorf("%d %v", r.StatusCode, r.Header)
	}
	for _, want := range []string{
		"<h1 id=\"plait-problems-title\">1 error and 1 warning</h1>",
		"There is no page to show yet",
		"ratio &#34;2:1&#34; is &lt;script&gt;alert(1)&lt;/script&gt; <small>formula/ratio</small>",
		"<span class=\"plait-error\">error:</span> ratio",
		"<b>lessons/01-gloss/lesson.md</b>:2:9",
		"<span class=\"plait-line\">2</span>\tratio: <mark>2:1</mark> # &lt;café&gt;</pre>",
		"in this lesson",
		"<b>lessons/01-gloss/lesson.md</b>:1:3",
		"write 1:2 or 2:1 &amp; say which is colour",
		"<span class=\"plait-warning\">warning:</span> a warning",
		"<script src=\"/-/preview.js\">",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not say %s:\n%s", want, text)
		}
	}

	// With a site to show the page stays and the list is apart.
	s.Update(good(t, "one"))
	s.Update(bad("again"))
	if text := body(t, get(t, h, "/")); text != "<title>home</title>one" {
		t.Errorf("the last good page is gone: %s", text)
	}
	text = body(t, get(t, h, "/-/problems"))
	if !strings.Contains(text, "again") || strings.Contains(text, "<html") || !strings.Contains(text, "The page behind this list") {
		t.Errorf("the list:\n%s", text)
	}
}

func TestManyProblems(t *testing.T) {
	s := New()
	f := source.NewFile("a.md", []byte("x\n"))
	var r Result
	for i := range 500 {
		r.Diagnostics = append(r.Diagnostics, diag.Errorf("text/x", f.Whole(), "error %d", i))
	}
	s.Update(r)
	text := body(t, get(t, s.Handler(), "/"))
	if strings.Count(text, "<li>") != maxShown || !strings.Contains(text, "There are 460 more") || !strings.Contains(text, "500 errors") {
		t.Errorf("got %d items:\n%s", strings.Count(text, "<li>"), text)
	}
	r.Diagnostics = r.Diagnostics[:maxShown+1]
	s.Update(r)
	if text := body(t, get(t, s.Handler(), "/")); !strings.Contains(text, "There is one more") {
		t.Errorf("with one too many:\n%s", text)
	}
	s.Update(Result{})
	if text := body(t, get(t, s.Handler(), "/")); !strings.Contains(text, "The course could not be built") {
		t.Errorf("without a tree or a reason: %s", text)
	}
}

// start serves on a port of its own until the test ends.
func start(t testing.TB, s *Server) (address string) {
	t.Helper()
	ln, _, err := Listen(0)
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- s.Serve(ctx, ln) }()
	t.Cleanup(func() {
		stop()
		if err := <-done; err != nil {
			t.Errorf("serving ended with %v", err)
		}
	})
	return "http://" + ln.Addr().String()
}

// stream reads the messages of a page.
type stream struct {
	t     *testing.T
	lines *bufio.Scanner
	close func() error
}

func listen(t *testing.T, address, page string) *stream {
	t.Helper()
	r, err := http.Get(address + "/-/events?page=" + url.QueryEscape(page))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { r.Body.Close() })
	if kind := r.Header.Get("Content-Type"); r.StatusCode != 200 || kind != "text/event-stream" {
		t.Fatalf("%d %s", r.StatusCode, kind)
	}
	return &stream{t: t, lines: bufio.NewScanner(r.Body), close: r.Body.Close}
}

func (s *stream) next() message {
	s.t.Helper()
	for s.lines.Scan() {
		data, found := strings.CutPrefix(s.lines.Text(), "data: ")
		if !found {
			continue
		}
		var m message
		if err := json.Unmarshal([]byte(data), &m); err != nil {
			s.t.Fatal(err)
		}
		return m
	}
	s.t.Fatalf("the stream has ended: %v", s.lines.Err())
	return message{}
}

func TestEvents(t *testing.T) {
	s := New()
	address := start(t, s)
	const gloss = "/lessons/gloss.html"
	page, stray := listen(t, address, gloss), listen(t, address, "/stray.html")
	if m := page.next(); m != (message{Page: waiting}) {
		t.Errorf("before any build: %+v", m)
	}
	stray.next()

	s.Update(good(t, "one"))
	first := page.next()
	if first.List != "" || first.Count != "" || first.Failed {
		t.Errorf("after a good build: %+v", first)
	}
	if m := stray.next(); m != (message{Page: missing}) {
		t.Errorf("where no page is: %+v", m)
	}
	// The page is sent with the same tag.
	r, err := http.Get(address + gloss)
	if err != nil {
		t.Fatal(err)
	}
	r.Body.Close()
	if got := r.Header.Get("Server-Timing"); got != fmt.Sprintf("plait;desc=%q", first.Page) {
		t.Errorf("the page is %s, the message says %s", got, first.Page)
	}

	s.Update(bad("x"))
	broken := page.next()
	if broken.Page != first.Page || broken.List == "" || broken.Count != "1 error and 1 warning" || !broken.Failed {
		t.Errorf("after a bad build: %+v", broken)
	}
	if late := listen(t, address, gloss).next(); late != broken {
		t.Errorf("a page that comes later is told %+v", late)
	}

	warned := good(t, "one")
	warned.Diagnostics = bad("x").Diagnostics[1:]
	s.Update(warned)
	m := page.next()
	if m.Page != first.Page || m.List == "" || m.List == broken.List || m.Count != "1 warning" || m.Failed {
		t.Errorf("after a build with a warning: %+v", m)
	}
	s.Update(good(t, "two"))
	if m := page.next(); m.Page == first.Page || m.List != "" {
		t.Errorf("after the mend: %+v", m)
	}
	page.close()
	for range 500 {
		if s.open() == 2 { // the stray and the late one
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Errorf("%d streams are open", s.open())
}

// A page is named as it stands in the address, and only a page whose own bytes have
// changed is told of another state.
func TestPageTags(t *testing.T) {
	s := New()
	s.Update(good(t, "one"))
	before := s.state()
	r := good(t, "one")
	if err := r.Tree.Add(artifact.File{Path: "about.html", Stage: artifact.Page, Data: []byte("about")}); err != nil {
		t.Fatal(err)
	}
	s.Update(r)
	for path, want := range map[string]string{
		"/":                                 tagOf([]byte("<title>home</title>one")),
		"/index.html":                       tagOf([]byte("<title>home</title>one")),
		"/lessons/%C3%BCberblick.html":      tagOf([]byte("<title>view</title>")),
		"/about.html":                       tagOf([]byte("about")),
		"/stray.html":                       missing,
		"":                                  missing,
		"%zz":                               missing,
		"/lessons/../content/course.yaml":   missing,
		"/lessons/..%2fcontent/course.yaml": missing,
	} {
		if got := s.message(path); !strings.Contains(got, `{"page":"`+want+`",`) {
			t.Errorf("%s: %s, want %s", path, got, want)
		}
	}
	if pageTag(before, "/index.html") != pageTag(s.state(), "/index.html") {
		t.Error("a page that is the same has another tag")
	}
}

func (s *Server) open() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	return len(s.streams)
}

// A page that does not read holds up nobody, and when it reads it gets the newest.
func TestUpdatesDoNotWait(t *testing.T) {
	s := New()
	address := start(t, s)
	slow := listen(t, address, "/")
	slow.next()
	result := good(t, "x")
	for range 10_000 {
		s.Update(result)
	}
	s.Update(good(t, "newest"))
	want := pageTag(s.state(), "/")
	for i := 0; slow.next().Page != want; i++ {
		if i > 10_000 {
			t.Fatal("the newest never came")
		}
	}
}

func TestTooManyStreams(t *testing.T) {
	s := New()
	for range maxStreams {
		if s.subscribe() == nil {
			t.Fatal("too few streams are allowed")
		}
	}
	if r := get(t, s.Handler(), "/-/events"); r.StatusCode != 503 {
		t.Errorf("got %d", r.StatusCode)
	}
}

// Readers that ask and never read take up slots and no more; when all are taken
// others are told at once.
func TestTooManyRequests(t *testing.T) {
	s := New()
	s.Update(good(t, "x"))
	for range maxRequests {
		s.slots <- struct{}{}
	}
	if r := get(t, s.Handler(), "/"); r.StatusCode != 503 || r.Header.Get("Retry-After") == "" {
		t.Errorf("got %d", r.StatusCode)
	}
	<-s.slots
	if r := get(t, s.Handler(), "/"); r.StatusCode != 200 {
		t.Errorf("got %d", r.StatusCode)
	}
	if len(s.slots) != maxRequests-1 {
		t.Errorf("%d slots are taken", len(s.slots))
	}
}

// Two hundred pages listen, others hang with half a request or do not read, and a
// page is still answered while the site is built again and again.
func TestCrowd(t *testing.T) {
	s := New()
	s.Update(good(t, strings.Repeat("long ", 1<<20)))
	address := start(t, s)
	for range 50 {
		c, err := net.Dial("tcp", strings.TrimPrefix(address, "http://"))
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
		fmt.Fprint(c, "GET / HTTP/1.1\r\nHost: localhost\r\n\r\nGET") // and never reads
	}
	var pages []*stream
	for range 200 {
		pages = append(pages, listen(t, address, "/lessons/gloss.html"))
	}
	var group sync.WaitGroup
	for range 4 {
		group.Go(func() {
			for range 50 {
				r, err := http.Get(address + "/lessons/gloss.html")
				if err != nil {
					t.Error(err)
					return
				}
				_, _ = io.Copy(io.Discard, r.Body)
				r.Body.Close()
				if r.StatusCode != 200 {
					t.Errorf("got %d", r.StatusCode)
				}
			}
		})
	}
	next := good(t, "next")
	for range 100 {
		s.Update(next)
	}
	s.Update(good(t, "last"))
	want := pageTag(s.state(), "/lessons/gloss.html")
	for _, p := range pages {
		for p.next().Page != want {
		}
	}
	group.Wait()
}

func TestListen(t *testing.T) {
	ln, moved, err := Listen(0)
	if err != nil || moved {
		t.Fatal(moved, err)
	}
	defer ln.Close()
	at := ln.Addr().(*net.TCPAddr)
	if !at.IP.IsLoopback() {
		t.Errorf("listens on %v", at.IP)
	}
	other, moved, err := Listen(uint16(at.Port))
	if err != nil || !moved {
		t.Fatalf("a port that is taken: %v, %v", moved, err)
	}
	defer other.Close()
	if other.Addr().String() == ln.Addr().String() || !other.Addr().(*net.TCPAddr).IP.IsLoopback() {
		t.Errorf("in place of %v: %v", ln.Addr(), other.Addr())
	}
}

// Whatever path is asked for, the answer is a file of the tree whose path it is.
func FuzzLookup(f *testing.F) {
	r := good(f, "x")
	for _, file := range r.Tree.Files() {
		f.Add("/" + file.Path)
	}
	for _, path := range []string{"", "/", "//", "/..", "/lessons/../index.html", "/index.html/", "/\x00", "/a\\b", "index.html"} {
		f.Add(path)
	}
	f.Fuzz(func(t *testing.T, requested string) {
		file, ok := lookup(r.Tree, requested)
		if !ok {
			return
		}
		if !fs.ValidPath(file.Path) || "/"+file.Path != requested && "/"+strings.TrimSuffix(file.Path, "index.html") != requested {
			t.Errorf("%q gives %q", requested, file.Path)
		}
	})
}

// BenchmarkPage answers with a page of 60 KB.
func BenchmarkPage(b *testing.B) {
	s := New()
	s.Update(good(b, strings.Repeat("x", 60<<10)))
	h := s.Handler()
	r := httptest.NewRequest("GET", "/lessons/gloss.html", nil)
	r.Host = "localhost"
	for b.Loop() {
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		if w.Code != 200 {
			b.Fatal(w.Code)
		}
	}
}

// BenchmarkUpdate measures from a result to the message at the page.
func BenchmarkUpdate(b *testing.B) {
	s := New()
	address := start(b, s)
	r, err := http.Get(address + "/-/events?page=/")
	if err != nil {
		b.Fatal(err)
	}
	defer r.Body.Close()
	lines := bufio.NewScanner(r.Body)
	results := [2]Result{good(b, "even"), good(b, "odd")}
	i := 0
	for b.Loop() {
		s.Update(results[i%2])
		i++
		for want := pageTag(s.state(), "/"); !strings.Contains(lines.Text(), want); {
			if !lines.Scan() {
				b.Fatal(lines.Err())
			}
		}
	}
}
