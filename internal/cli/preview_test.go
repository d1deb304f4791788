package cli

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"plait/internal/starter"
)

// printed is what a command prints while a test looks at it.
type printed struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (p *printed) Write(b []byte) (int, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.text.Write(b)
}

func (p *printed) String() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.text.String()
}

// previewed is a course in a folder of its own with a preview of it.
type previewed struct {
	t         *testing.T
	dir       string
	address   string
	out, errs *printed
	stop      context.CancelFunc
	exit      chan int
}

const (
	lessonFile = "lessons/01-first-bowl/lesson.md"
	lessonPage = "lessons/first-bowl.html"
)

// startPreview shows the starter course, with more files in it or other text in the
// ones it has.
func startPreview(t *testing.T, files map[string]string, flags ...string) *previewed {
	t.Helper()
	p := &previewed{t: t, dir: filepath.Join(t.TempDir(), "course"), out: &printed{}, errs: &printed{}, exit: make(chan int, 1)}
	if err := os.CopyFS(p.dir, starter.Files()); err != nil {
		t.Fatal(err)
	}
	for name, text := range files {
		p.write(name, text)
	}
	ctx, stop := context.WithCancel(context.Background())
	p.stop = stop
	t.Cleanup(stop)
	args := append([]string{"preview", "--course", p.dir}, flags...)
	go func() { p.exit <- run(ctx, args, console{out: p.out, err: p.errs}) }()
	line := regexp.MustCompile(`(?m)^preview at (http://127\.0\.0\.1:\d+/) — stop with Ctrl-C$`)
	p.wait("the address", func() bool { return line.MatchString(p.out.String()) })
	p.address = line.FindStringSubmatch(p.out.String())[1]
	return p
}

// wait gives the preview time until something is so.
func (p *previewed) wait(what string, so func() bool) {
	p.t.Helper()
	for range 1000 {
		if so() {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	p.t.Fatalf("never came: %s\n%s\n%s", what, p.out, p.errs)
}

func (p *previewed) expectPrinted(text string) {
	p.t.Helper()
	p.wait(text, func() bool { return strings.Contains(p.out.String()+p.errs.String(), text) })
}

func (p *previewed) get(path string) (code int, body string) {
	p.t.Helper()
	r, err := http.Get(p.address + path)
	if err != nil {
		p.t.Fatal(err)
	}
	defer r.Body.Close()
	data, err := io.ReadAll(r.Body)
	if err != nil {
		p.t.Fatal(err)
	}
	return r.StatusCode, string(data)
}

// expect waits until a page holds a text.
func (p *previewed) expect(path, text string) {
	p.t.Helper()
	p.wait(path+" with "+text, func() bool {
		code, body := p.get(path)
		return code == http.StatusOK && strings.Contains(body, text)
	})
}

func (p *previewed) write(name, text string) {
	p.t.Helper()
	file := filepath.Join(p.dir, filepath.FromSlash(name))
	if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
		p.t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
		p.t.Fatal(err)
	}
}

// replace changes a text that a file holds.
func (p *previewed) replace(name, old, text string) {
	p.t.Helper()
	data, err := os.ReadFile(filepath.Join(p.dir, filepath.FromSlash(name)))
	if err != nil {
		p.t.Fatal(err)
	}
	if !bytes.Contains(data, []byte(old)) {
		p.t.Fatalf("%s does not hold %q", name, old)
	}
	p.write(name, strings.Replace(string(data), old, text, 1))
}

func (p *previewed) expectExit(want int) {
	p.t.Helper()
	select {
	case got := <-p.exit:
		if got != want {
			p.t.Errorf("ended with %d, want %d\n%s", got, want, p.errs)
		}
	case <-time.After(10 * time.Second):
		p.t.Error("did not end")
	}
}

func TestPreview(t *testing.T) {
	p := startPreview(t, nil, "--port", "0")
	p.expect(lessonPage, "Your first bowl")
	p.expect(lessonPage, `<script src="/-/preview.js"></script>`)
	if _, err := os.Stat(filepath.Join(p.dir, "public")); err == nil {
		t.Error("the preview has written to the course")
	}

	p.replace(lessonFile, "title: Your first bowl", "title: Your very first bowl")
	p.expect(lessonPage, "Your very first bowl")
	p.expectPrinted(lessonFile + " changed: ")

	// A broken lesson: the last good page stays, and all of it is said.
	p.replace(lessonFile, "title: Your very", "titel: Your broken")
	p.expect("-/problems", "titel")
	p.expect(lessonPage, "Your very first bowl")
	p.expectPrinted(lessonFile + ":2:1: error: ")
	p.expectPrinted(", 1 error, ")

	p.replace(lessonFile, "titel: Your broken", "title: Your mended")
	p.expect(lessonPage, "Your mended first bowl")

	p.stop()
	p.expectExit(exitFine)
	if _, err := http.Get(p.address); err == nil {
		t.Error("the port is still open")
	}
}

func TestPreviewFollowsEveryPartOfTheCourse(t *testing.T) {
	p := startPreview(t, map[string]string{"look/templates/lesson.html": `{{define "main"}}<h1>first look</h1>{{end}}`}, "--port", "0")
	p.expect(lessonPage, "Your first bowl")

	p.replace("content/course.yaml", "\nlanguage: ", "\nlayouts: look\nlanguage: ")
	p.expect(lessonPage, "first look")
	p.write("look/templates/lesson.html", `{{define "main"}}<h1>second look</h1>{{end}}`)
	p.expect(lessonPage, "second look")

	// A template that fails at a page is told at the key that names its folder; where only a
	// page that was not tried fails, it says so in its place.
	p.write("look/templates/lesson.html", `{{define "main"}}{{index .Steps 99}}{{end}}`)
	p.expectPrinted("error: the pages could not be made: the course's own layouts cannot be used: lessons/first-bowl.html")
	p.write("look/templates/revise.html", `{{define "main"}}{{index .Decks 99}}{{end}}`)
	p.write("look/templates/lesson.html", `{{define "main"}}<h1>second look</h1>{{end}}`)
	p.expect(lessonPage, "second look")
	p.wait("the fault in place of the page", func() bool {
		code, body := p.get("revise.html")
		return code == http.StatusInternalServerError && strings.Contains(body, "This page cannot be made") && strings.Contains(body, "index out of range")
	})
	p.write("look/templates/revise.html", `{{define "main"}}<h1>mended</h1>{{end}}`)
	p.expect("revise.html", "mended")
	// One that cannot be read is told there too.
	p.write("look/templates/lesson.html", `{{if}}`)
	p.expectPrinted(":10: error: the pages could not be made: the course's own layouts cannot be used: templates/lesson.html")
	p.expect(lessonPage, "second look")
	// Other changes do not hide it.
	p.replace("content/about.md", "title: ", "title: New, ")
	p.expectPrinted("content/about.md changed: ")
	p.expect(lessonPage, "second look")
	p.replace("content/course.yaml", "layouts: look\n", "")
	p.expect(lessonPage, "Your first bowl")
	p.expect("about.html", "New, ")
}

// A picture is read from the course's folder when it is asked for, also after builds
// that failed.
// Pages with scripts of the course's own are loaded as a whole.
func TestScriptsOfTheCourse(t *testing.T) {
	files := fstest.MapFS{"own/templates/foot.html": {}, "wild/scripts/bowl.js": {}, "scripts/notes.js": {}}
	for layouts, want := range map[string]bool{"": false, "own": false, "wild": true, ".": true} {
		if got := hasScripts(files, layouts); got != want {
			t.Errorf("layouts %q have scripts: %v", layouts, got)
		}
	}
}

func TestPreviewShowsPictures(t *testing.T) {
	p := startPreview(t, nil, "--port", "0")
	p.expect(lessonPage, "<img")
	picture := regexp.MustCompile(`<img src="\.\./([^"]*bowl[^"]*\.svg)"`)
	_, body := p.get(lessonPage)
	found := picture.FindStringSubmatch(body)
	if found == nil {
		t.Fatalf("no picture in\n%s", body)
	}
	p.expect(found[1], "<svg")
	for i := range 3 {
		p.replace(lessonFile, "title: ", fmt.Sprintf("title%d: ", i))
		p.expect("-/problems", fmt.Sprintf("title%d", i))
		p.expect(found[1], "<svg")
		p.replace(lessonFile, fmt.Sprintf("title%d: ", i), "title: ")
		p.wait("no problem", func() bool { _, body := p.get("-/problems"); return !strings.Contains(body, fmt.Sprintf("title%d", i)) })
		p.expect(found[1], "<svg")
	}
}

// A course that is broken from the start can be mended while it is shown.
func TestPreviewOfABrokenCourse(t *testing.T) {
	p := startPreview(t, map[string]string{"content/course.yaml": "titel: x\n"}, "--port", "0")
	p.wait("the list", func() bool {
		code, body := p.get("")
		return code == http.StatusServiceUnavailable && strings.Contains(body, "content/course.yaml")
	})
	good, err := starter.Files().Open("content/course.yaml")
	if err != nil {
		t.Fatal(err)
	}
	defer good.Close()
	data, err := io.ReadAll(good)
	if err != nil {
		t.Fatal(err)
	}
	p.write("content/course.yaml", string(data))
	p.expect("", "first-bowl.html")
}

func TestPreviewOnAPortThatIsTaken(t *testing.T) {
	ln, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer ln.Close()
	port := fmt.Sprint(ln.Addr().(*net.TCPAddr).Port)
	p := startPreview(t, nil, "--port", port)
	p.expectPrinted("port " + port + " is in use by another program")
	p.expect(lessonPage, "Your first bowl")
}

func TestPreviewOfAFolderThatGoes(t *testing.T) {
	p := startPreview(t, nil, "--port", "0")
	p.expect(lessonPage, "Your first bowl")
	if err := os.RemoveAll(p.dir); err != nil {
		t.Fatal(err)
	}
	p.expectExit(exitMachine)
	p.expectPrinted("the watched folder is gone")
}

func TestPreviewUse(t *testing.T) {
	for _, flags := range [][]string{{"--port", "70000"}, {"--port", "-1"}, {"--port", "x"}, {"--course", filepath.Join(t.TempDir(), "nowhere")}} {
		var out, errs bytes.Buffer
		args := append([]string{"preview"}, flags...)
		if got := run(context.Background(), args, console{out: &out, err: &errs}); got != exitUse || out.Len() > 0 {
			t.Errorf("%q ends with %d\n%s%s", flags, got, out.String(), errs.String())
		}
	}
}
