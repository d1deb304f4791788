package asset

import (
	"context"
	"os/exec"
	"testing"

	"github.com/chromedp/chromedp"
)

// A browser weighs as the program does, not only node.
func TestBrowserWeighsAlike(t *testing.T) {
	expectNoDifference(t, inBrowser(t, vectorRun(t)))
}

// inBrowser returns the last value of a script, a text.
func inBrowser(t *testing.T, script []byte) []byte {
	t.Helper()
	bin, err := exec.LookPath("chromium")
	if err != nil {
		t.Skip("no chromium")
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(bin), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-quic", true))
	allocator, end := chromedp.NewExecAllocator(context.Background(), options...)
	defer end()
	ctx, cancel := chromedp.NewContext(allocator)
	defer cancel()
	if err := chromedp.Do(ctx, chromedp.Navigate("about:blank")); err != nil {
		t.Fatal(err)
	}
	value, err := chromedp.Run(ctx, chromedp.Evaluate[string](string(script)))
	if err != nil {
		t.Fatal(err)
	}
	return []byte(value)
}
