package preview

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"plait/internal/artifact"
)

// livePage is a page as the site has them in a preview: with the script and with
// the policy that pages of a preview have.
func livePage(title string) string {
	return `<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; media-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'">
<title>` + title + `</title><link rel="icon" href="data:,"><script src="` + Script + `"></script></head>
<body><main><h1>` + title + `</h1>` + strings.Repeat("<p>Two parts of 8N hold the level.</p>\n", 200) + `</main></body></html>`
}

func live(t *testing.T, title string) Result {
	t.Helper()
	tree := artifact.New()
	for _, name := range []string{"index.html", "lessons/gloss.html"} {
		if err := tree.Add(artifact.File{Path: name, Stage: artifact.Page, Data: []byte(livePage(title))}); err != nil {
			t.Fatal(err)
		}
	}
	return Result{Tree: tree}
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
	flags := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(bin), chromedp.NoSandbox, chromedp.DisableGPU)
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
	for range 200 {
		ok, err := chromedp.Run(b.ctx, chromedp.Evaluate[bool](condition))
		if err == nil && ok {
			return
		}
		time.Sleep(25 * time.Millisecond)
	}
	b.t.Fatalf("never came: %s\n%s", condition, eval[string](b, "document.title + ' ' + document.querySelector('dialog')?.outerHTML"))
}

func TestPagesFollow(t *testing.T) {
	s := New()
	address := start(t, s)
	s.Update(live(t, "one"))
	b := browse(t, address+"/lessons/gloss.html")
	b.expect("document.title === 'one'")

	// A new build: the page is loaded again, at its place, once.
	eval[chromedp.Void](b, "scrollTo(0, 1234)")
	s.Update(live(t, "two"))
	b.expect("document.title === 'two' && scrollY === 1234")
	b.expectStill()

	// An error: the list lies over the page and has the focus.
	s.Update(bad("the first fault"))
	b.expect("document.querySelector('dialog[open]')?.textContent.includes('the first fault')")
	b.expect("document.querySelector('dialog').contains(document.activeElement)")
	b.expect("document.title === 'two' && scrollY === 1234")
	s.Update(bad("the second fault"))
	b.expect("document.querySelector('dialog[open]')?.textContent.includes('the second fault')")
	b.accessible()
	b.picture("overlay")

	// It can be put away, stays away on other pages, and comes back when asked for
	// or when there is another one.
	b.do(chromedp.KeyEvent("\x1b"))
	b.expect("!document.querySelector('dialog').open")
	b.do(chromedp.Navigate(address + "/"))
	b.expect("document.querySelector('.plait-problems-opener')?.offsetHeight > 0 && !document.querySelector('dialog').open")
	b.accessible()
	b.do(chromedp.Click(chromedp.CSS(".plait-problems-opener")))
	b.expect("document.querySelector('dialog').open")
	b.do(chromedp.Click(chromedp.CSS("dialog button")))
	b.expect("!document.querySelector('dialog').open")
	s.Update(bad("the third fault"))
	b.expect("document.querySelector('dialog[open]')?.textContent.includes('the third fault')")

	// Mended.
	s.Update(live(t, "three"))
	b.expect("document.title === 'three' && !document.querySelector('dialog')")
	b.expectStill()
}

// expectStill checks that the page does not go on loading itself.
func (b *tab) expectStill() {
	b.t.Helper()
	before := eval[float64](b, "performance.timeOrigin")
	time.Sleep(300 * time.Millisecond)
	if after := eval[float64](b, "performance.timeOrigin"); after != before {
		b.t.Error("the page was loaded again")
	}
}

func TestPageBeforeTheFirstBuild(t *testing.T) {
	s := New()
	address := start(t, s)
	b := browse(t, address+"/lessons/gloss.html")
	b.expect("document.body.textContent.includes('is being built')")
	s.Update(bad("the first fault"))
	b.expect("document.body.textContent.includes('the first fault')")
	b.expectStill()
	b.accessible()
	b.picture("waiting")
	s.Update(bad("the second fault"))
	b.expect("document.body.textContent.includes('the second fault')")
	s.Update(live(t, "one"))
	b.expect("document.title === 'one'")
	b.expectStill()
}

// A page that nobody looks at holds no connection, and catches up when it is seen.
func TestHiddenPages(t *testing.T) {
	s := New()
	address := start(t, s)
	s.Update(live(t, "one"))
	b := browse(t, address+"/")
	b.expect("document.title === 'one'")
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
	if title := eval[string](b, "document.title"); title != "one" {
		t.Errorf("a hidden page was loaded again: %s", title)
	}
	look(false, 1)
	b.expect("document.title === 'two'")
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
		call(b, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
			Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}},
		})
		faults := eval[[]string](b, `axe.run(document, {preload: false, runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]})
			.then(r => r.violations.flatMap(v => v.nodes.map(n => v.id + " " + n.html + " " + n.failureSummary)))`)
		for _, fault := range faults {
			b.t.Errorf("%s: %s", scheme, fault)
		}
	}
}

// picture keeps a picture of the page where PLAIT_SHOTS names a folder.
func (b *tab) picture(name string) {
	b.t.Helper()
	dir := os.Getenv("PLAIT_SHOTS")
	if dir == "" {
		return
	}
	for _, scheme := range []string{"dark", "light"} {
		call(b, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
			Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}},
		})
		png, err := chromedp.Run(b.ctx, chromedp.CaptureScreenshot())
		if err == nil {
			err = os.MkdirAll(dir, 0o777)
		}
		if err == nil {
			err = os.WriteFile(filepath.Join(dir, "preview-"+name+"-"+scheme+".png"), png, 0o666)
		}
		if err != nil {
			b.t.Error(err)
		}
	}
}
