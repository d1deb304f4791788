package browsertest

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"

	"github.com/chromedp/chromedp"
)

// atEnd holds what is to be closed when the last test is done.
var atEnd []func()

func TestMain(m *testing.M) {
	code := m.Run()
	for _, end := range atEnd {
		end()
	}
	os.Exit(code)
}

// missing ends the test for want of a tool.
func missing(t *testing.T, what, remedy string) {
	t.Helper()
	if os.Getenv("PLAIT_BROWSER") == "required" {
		t.Fatalf("%s is missing: %s", what, remedy)
	}
	t.Skipf("%s is missing: %s", what, remedy)
}

// program gives the path of the first of the programs that is installed.
func program(t *testing.T, remedy string, names ...string) string {
	t.Helper()
	for _, name := range names {
		if file, err := exec.LookPath(name); err == nil {
			return file
		}
	}
	missing(t, names[0], remedy)
	return ""
}

// checker gives the path of a file of the installed checkers.
func checker(t *testing.T, name string) string {
	t.Helper()
	file, err := filepath.Abs(filepath.Join("node_modules", filepath.FromSlash(name)))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(file); err != nil {
		missing(t, name, "run npm ci --ignore-scripts in internal/browsertest")
	}
	return file
}

// browser gives the one browser that all tests share. Each page has a tab and a
// store of its own.
func browser(t *testing.T) context.Context {
	t.Helper()
	bin := program(t, "install chromium", "chromium", "chromium-browser", "google-chrome")
	start.Do(func() { running, startErr = startBrowser(bin) })
	if startErr != nil {
		t.Fatalf("cannot start %s: %v", bin, startErr)
	}
	return running
}

var (
	start    sync.Once
	running  context.Context
	startErr error
)

// startBrowser starts Chromium with a fresh profile and with all that talks to
// the network by itself switched off.
func startBrowser(bin string) (context.Context, error) {
	flags := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(bin),
		chromedp.NoSandbox,
		chromedp.DisableGPU,
		chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-domain-reliability", true),
		chromedp.Flag("disable-quic", true),
		chromedp.Flag("no-pings", true),
		chromedp.Flag("font-render-hinting", "none"),
		chromedp.Flag("host-resolver-rules", "MAP * ~NOTFOUND, EXCLUDE 127.0.0.1, EXCLUDE localhost"),
	)
	alloc, cancelAlloc := chromedp.NewExecAllocator(context.Background(), flags...)
	ctx, cancel := chromedp.NewContext(alloc)
	atEnd = append(atEnd, cancel, cancelAlloc)
	return ctx, chromedp.Do(ctx)
}
