package bench

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// BenchmarkBrowser measures how soon a browser shows what was saved: the watcher's pause, the
// build, the news to the page, and what is new put into it. It needs a Chromium.
func BenchmarkBrowser(b *testing.B) {
	bin, err := exec.LookPath("chromium")
	if err != nil {
		b.Skip("there is no chromium to look with")
	}
	plait := program(b)
	flags := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(bin), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-quic", true))
	alloc, closeAlloc := chromedp.NewExecAllocator(context.Background(), flags...)
	defer closeAlloc()
	for _, n := range lessons(b) {
		b.Run(fmt.Sprint("lessons=", n), func(b *testing.B) {
			p := newPlace(b, n)
			address := preview(b, plait, p.dir)
			ctx, closeTab := chromedp.NewContext(alloc)
			defer closeTab()
			if err := chromedp.Do(ctx, chromedp.Navigate(address+fmt.Sprintf("lessons/lesson-%d.html", n/2))); err != nil {
				b.Fatal(err)
			}
			var values []float64
			for range max(b.N, 5*leastRounds) {
				time.Sleep(rest)
				saved := time.Now()
				p.edit(b, p.lesson, "summary: ", "summary: Edited %d times.")
				shown(b, ctx, fmt.Sprintf("Edited %d times.", p.edits))
				values = append(values, time.Since(saved).Seconds()*1000)
			}
			show(b, row{"save to browser", n, values, "ms", "50, 80 (p95)"})
		})
	}
}

// rest is how long a page is left alone between two edits.
const rest = 200 * time.Millisecond

// preview starts a preview of a course and returns its address.
func preview(b *testing.B, plait, dir string) string {
	b.Helper()
	cmd := exec.Command(plait, "preview", "--port", "0", "--course", dir)
	out, err := cmd.StdoutPipe()
	if err != nil {
		b.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() {
		_ = cmd.Process.Signal(os.Interrupt)
		_ = cmd.Wait()
	})
	lines := bufio.NewScanner(out)
	address := ""
	for lines.Scan() {
		if at, ok := strings.CutPrefix(lines.Text(), "preview at "); ok {
			address, _, _ = strings.Cut(at, " ")
		}
		if strings.Contains(lines.Text(), "formulas, ") { // the first build is done
			break
		}
	}
	go func() {
		for lines.Scan() {
		}
	}()
	return address
}

// shown waits until the page shows a text. While it is loaded again there is nothing to ask.
func shown(b *testing.B, ctx context.Context, text string) {
	b.Helper()
	asks := fmt.Sprintf("document.body && document.body.textContent.includes(%q)", text)
	for end := time.Now().Add(10 * time.Second); time.Now().Before(end); time.Sleep(time.Millisecond) {
		if ok, err := chromedp.Run(ctx, chromedp.Evaluate[bool](asks)); err == nil && ok {
			return
		}
	}
	b.Fatalf("the page never showed %q", text)
}
