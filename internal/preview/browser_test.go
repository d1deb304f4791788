package preview

import (
	"bytes"
	"context"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"plait/internal/build"
	"plait/internal/starter"
	"plait/layouts"
)

const (
	lesson     = "lessons/01-first-bowl/lesson.md"
	lessonPage = "/lessons/first-bowl.html"
)

// live is a build of the starter course, as a preview has it, with another title of
// its lesson.
func live(t *testing.T, title string) Result {
	t.Helper()
	files := fstest.MapFS{}
	err := fs.WalkDir(starter.Files(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(starter.Files(), name)
		files[name] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := bytes.Cut(files[lesson].Data, []byte("\ntitle: "))
	_, rest, _ = bytes.Cut(rest, []byte("\n"))
	files[lesson].Data = append([]byte("---\ntitle: "+title+"\n"), rest...)
	built, err := build.Read(context.Background(), build.Options{Files: files, Layouts: layouts.FS, Live: Script})
	if err != nil {
		t.Fatal(err)
	}
	tree, err := built.Pages()
	if err != nil {
		t.Fatal(err, built.Diagnostics)
	}
	return Result{Tree: tree, Inputs: files}
}

// warned is a build that found something and made the site all the same.
func warned(t *testing.T, title string) Result {
	r := live(t, title)
	r.Diagnostics = bad("x").Diagnostics[1:]
	return r
}

// tab is a page in a browser. What it writes to the console fails the test.
type tab struct {
	t   *testing.T
	ctx context.Context
}

func browse(t *testing.T, address string) *tab {
	t.Helper()
	bin := ""
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if file, err := exec.LookPath(name); err == nil && bin == "" {
			bin = file
		}
	}
	if bin == "" {
		lacking(t, "chromium")
	}
	flags := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(bin), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-quic", true))
	alloc, closeAlloc := chromedp.NewExecAllocator(context.Background(), flags...)
	t.Cleanup(closeAlloc)
	ctx, closeTab := chromedp.NewContext(alloc)
	t.Cleanup(closeTab)
	b := &tab{t: t, ctx: ctx}
	b.do()
	var mu sync.Mutex
	var said []string
	if err := chromedp.Listen(ctx, func(event any) {
		mu.Lock()
		defer mu.Unlock()
		switch event := event.(type) {
		case *runtime.EventConsoleAPICalled:
			said = append(said, fmt.Sprint("console.", event.Type))
		case *runtime.EventExceptionThrown:
			said = append(said, event.ExceptionDetails.Text)
		case *log.EventEntryAdded:
			said = append(said, event.Entry.Text+" "+event.Entry.URL)
		}
	}); err != nil {
		t.Fatal(err)
	}
	call(b, log.Enable, cdp.Empty{})
	t.Cleanup(func() {
		mu.Lock()
		defer mu.Unlock()
		for _, text := range said {
			// The page before the first build is an answer with status 503.
			if !strings.Contains(text, "status of 503") {
				t.Errorf("the page is not quiet: %s", text)
			}
		}
	})
	b.do(chromedp.EmulateViewport(1000, 700), chromedp.Navigate(address))
	return b
}

func lacking(t *testing.T, what string) {
	t.Helper()
	if os.Getenv("PLAIT_BROWSER") == "required" {
		t.Fatalf("%s is missing", what)
	}
	t.Skipf("%s is missing", what)
}

func call[P, R any](b *tab, command cdp.Command[P, R], params P) {
	b.t.Helper()
	if _, err := chromedp.Call(b.ctx, command, params); err != nil {
		b.t.Fatal(err)
	}
}

func (b *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	if err := chromedp.Do(b.ctx, steps...); err != nil {
		b.t.Fatal(err)
	}
}

func eval[T any](b *tab, expression string) T {
	b.t.Helper()
	result, err := chromedp.Run(b.ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		b.t.Fatalf("%s: %v", expression, err)
	}
	return result
}

// expect waits until the expression, a condition, is true on the page. While the
// page is loaded again there may be nothing to ask.
func (b *tab) expect(condition string) {
	b.t.Helper()
	for range 400 {
		ok, err := chromedp.Run(b.ctx, chromedp.Evaluate[bool](condition))
		if err == nil && ok {
			return
		}
		time.Sleep(25 * time.Millisecond)
	}
	b.t.Fatalf("never came: %s\n%s", condition, eval[string](b, "scrollY + ' of ' + document.documentElement.scrollHeight + ' ' + document.title + ' ' + document.querySelector('dialog')?.outerHTML"))
}

func TestPagesFollow(t *testing.T) {
	s := New()
	address := start(t, s)
	s.Update(live(t, "one"))
	b := browse(t, address+lessonPage)
	b.expect("document.title.startsWith('one')")

	// A build that has changed the page: it is loaded again, at its place, once.
	eval[chromedp.Void](b, "scrollTo({top: 321, behavior: 'instant'})")
	s.Update(live(t, "two"))
	b.expect("document.title.startsWith('two') && scrollY === 321")
	// One that has not leaves it alone.
	b.expectStill(func() { s.Update(live(t, "two")) })

	// An error: the list lies over the page and has the focus.
	s.Update(bad("the first fault"))
	b.expect("document.querySelector('dialog[open]')?.textContent.includes('the first fault')")
	b.expect("document.querySelector('dialog').contains(document.activeElement)")
	b.expect("document.title.startsWith('two') && scrollY === 321")
	s.Update(bad(strings.Repeat("a long fault, ", 9) + "the second"))
	b.expect("document.querySelector('dialog[open]')?.textContent.includes('the second')")
	b.accessible()
	b.picture("overlay")

	// It can be put away, stays away on other pages, and comes back when asked for
	// or when there is another one.
	b.do(chromedp.KeyEvent(kb.Escape))
	b.expect("!document.querySelector('dialog').open")
	b.do(chromedp.Navigate(address + "/"))
	b.expect("document.querySelector('.plait-problems-opener')?.offsetHeight > 0 && !document.querySelector('dialog').open")
	b.accessible()
	b.do(chromedp.Focus(chromedp.CSS(".plait-problems-opener")), chromedp.KeyEvent(kb.Enter))
	b.expect("document.querySelector('dialog').open")
	b.do(chromedp.KeyEvent(kb.Enter)) // on the button that has the focus: Close
	b.expect("!document.querySelector('dialog').open && document.activeElement.matches('.plait-problems-opener')")
	s.Update(bad("the third fault"))
	b.expect("document.querySelector('dialog[open]')?.textContent.includes('the third fault')")

	// Mended; the home page shows the title of the lesson.
	s.Update(live(t, "three"))
	b.expect("document.body.textContent.includes('three') && !document.querySelector('dialog')")
	b.expectStill(nil)
}

// Warnings do not come between the author and the page.
func TestWarnings(t *testing.T) {
	s := New()
	address := start(t, s)
	s.Update(warned(t, "one"))
	b := browse(t, address+lessonPage)
	const opener = "document.querySelector('.plait-problems-opener')"
	b.expect(opener + "?.textContent === '1 warning' && " + opener + ".offsetHeight > 0 && !document.querySelector('dialog').open")
	b.accessible()
	b.picture("count")

	// The list that was opened stays open while the page follows.
	b.do(chromedp.Click(chromedp.CSS(".plait-problems-opener")))
	b.expect("document.querySelector('dialog').open && document.querySelector('dialog').textContent.includes('a warning')")
	b.accessible()
	s.Update(warned(t, "two"))
	b.expect("document.title.startsWith('two') && document.querySelector('dialog')?.open")
	b.do(chromedp.KeyEvent(kb.Escape))
	b.expect("!document.querySelector('dialog').open")

	// An error opens the list, and its mend closes it.
	s.Update(bad("a fault"))
	b.expect("document.querySelector('dialog[open]')?.textContent.includes('a fault')")
	s.Update(warned(t, "two"))
	b.expect("!document.querySelector('dialog').open && " + opener + ".textContent === '1 warning'")
	s.Update(live(t, "two"))
	b.expect("!document.querySelector('dialog') && !" + opener)
}

// Keys in the list do not reach the scripts of the page, which has its own use for
// Escape.
func TestListOverStepView(t *testing.T) {
	s := New()
	address := start(t, s)
	s.Update(live(t, "one"))
	b := browse(t, address+lessonPage)
	b.do(chromedp.Click(chromedp.CSS("[data-do=steps]")))
	b.expect("document.documentElement.classList.contains('stepping')")
	s.Update(bad("a fault"))
	b.expect("document.querySelector('dialog[open]')?.textContent.includes('a fault')")
	b.do(chromedp.KeyEvent(kb.Escape))
	b.expect("!document.querySelector('dialog').open")
	b.expect("document.documentElement.classList.contains('stepping')")
	b.do(chromedp.KeyEvent(kb.Escape))
	b.expect("!document.documentElement.classList.contains('stepping')")
}

// expectStill checks that the page does not load itself again, whatever happens.
func (b *tab) expectStill(happen func()) {
	b.t.Helper()
	before := eval[float64](b, "performance.timeOrigin")
	if happen != nil {
		happen()
	}
	time.Sleep(300 * time.Millisecond)
	if after := eval[float64](b, "performance.timeOrigin"); after != before {
		b.t.Error("the page was loaded again")
	}
}

func TestPageBeforeTheFirstBuild(t *testing.T) {
	s := New()
	address := start(t, s)
	b := browse(t, address+lessonPage)
	b.expect("document.body.textContent.includes('is being built')")
	s.Update(bad("the first fault"))
	b.expect("document.body.textContent.includes('the first fault')")
	b.expectStill(nil)
	b.accessible()
	b.picture("waiting")
	s.Update(bad("the second fault"))
	b.expect("document.body.textContent.includes('the second fault')")
	s.Update(live(t, "one"))
	b.expect("document.title.startsWith('one')")
	b.expectStill(nil)
}

// A page that nobody looks at holds no connection, and catches up when it is seen.
func TestHiddenPages(t *testing.T) {
	s := New()
	address := start(t, s)
	s.Update(live(t, "one"))
	b := browse(t, address+lessonPage)
	b.expect("document.title.startsWith('one')")
	look := func(hidden bool, streams int) {
		t.Helper()
		eval[chromedp.Void](b, fmt.Sprintf("Object.defineProperty(document, 'hidden', {configurable: true, value: %v}), void document.dispatchEvent(new Event('visibilitychange'))", hidden))
		for range 200 {
			if s.open() == streams {
				return
			}
			time.Sleep(25 * time.Millisecond)
		}
		t.Fatalf("hidden: %v, streams: %d", hidden, s.open())
	}
	look(true, 0)
	s.Update(live(t, "two"))
	time.Sleep(100 * time.Millisecond)
	if title := eval[string](b, "document.title"); !strings.HasPrefix(title, "one") {
		t.Errorf("a hidden page was loaded again: %s", title)
	}
	look(false, 1)
	b.expect("document.title.startsWith('two')")
}

// accessible runs the rules of WCAG 2.2 level A and AA, light and dark.
// Source: WCAG 2.2, W3C, as axe-core reads it.
func (b *tab) accessible() {
	b.t.Helper()
	axe, err := os.ReadFile(filepath.Join("..", "browsertest", "node_modules", "axe-core", "axe.min.js"))
	if err != nil {
		lacking(b.t, "axe-core: run npm ci --ignore-scripts in internal/browsertest")
	}
	b.do(chromedp.Evaluate[chromedp.Void](string(axe)))
	for _, scheme := range []string{"dark", "light"} {
		b.prefer(scheme)
		faults := eval[[]string](b, `axe.run(document, {preload: false, runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]})
			.then(r => r.violations.flatMap(v => v.nodes.map(n => v.id + " " + n.html + " " + n.failureSummary)))`)
		for _, fault := range faults {
			b.t.Errorf("%s: %s", scheme, fault)
		}
	}
}

// prefer makes the reader one who prefers light or dark pages.
func (b *tab) prefer(scheme string) {
	b.t.Helper()
	call(b, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}},
	})
}

// picture keeps a picture of the page where PLAIT_SHOTS names a folder.
func (b *tab) picture(name string) {
	b.t.Helper()
	dir := os.Getenv("PLAIT_SHOTS")
	if dir == "" {
		return
	}
	for _, look := range []struct {
		name, scheme string
		width        int64
	}{{"dark", "dark", 1000}, {"phone", "light", 360}, {"light", "light", 1000}} {
		b.do(chromedp.EmulateViewport(look.width, 700))
		b.prefer(look.scheme)
		png, err := chromedp.Run(b.ctx, chromedp.CaptureScreenshot())
		if err == nil {
			err = os.MkdirAll(dir, 0o777)
		}
		if err == nil {
			err = os.WriteFile(filepath.Join(dir, "preview-"+name+"-"+look.name+".png"), png, 0o666)
		}
		if err != nil {
			b.t.Error(err)
		}
	}
}
