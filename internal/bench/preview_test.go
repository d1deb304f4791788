package bench

import (
	"bytes"
	"context"
	"fmt"
	"testing"
	"time"

	"plait/internal/build"
	"plait/internal/disk"
	"plait/internal/page"
	"plait/layouts"
)

// BenchmarkPreview measures what a preview does between the news that a lesson was
// saved and the bytes of its page.
func BenchmarkPreview(b *testing.B) {
	for _, n := range lessons(b) {
		b.Run(fmt.Sprint("lessons=", n), func(b *testing.B) {
			p := newPlace(b, n)
			folder, err := disk.Open(p.dir)
			if err != nil {
				b.Fatal(err)
			}
			defer folder.Close()
			var kept build.Kept
			var pages page.Kept
			var theme *page.Theme
			follow := func(changed ...string) []byte {
				kept.Forget(changed)
				pages.Forget(changed)
				result, err := build.Read(context.Background(), build.Options{Files: folder, Layouts: layouts.FS, Lazy: true, Kept: &kept, Pages: &pages})
				if err != nil {
					b.Fatal(err)
				}
				if theme == nil {
					if theme, err = result.Theme(); err != nil {
						b.Fatal(err)
					}
				}
				tree, err := result.PagesWith(theme)
				if err != nil {
					b.Fatal(err)
				}
				f, _ := tree.Get(fmt.Sprintf("lessons/lesson-%d.html", n/2))
				data, err := f.Bytes()
				if err != nil {
					b.Fatal(err)
				}
				return data
			}
			follow()
			var times []time.Duration
			for range max(b.N, 5*leastRounds) {
				p.edit(b, p.lesson, "summary: ", "summary: Edited %d times.")
				times = append(times, took(func() {
					if page := follow(p.lesson); !bytes.Contains(page, fmt.Appendf(nil, "Edited %d times.", p.edits)) {
						b.Error("the page does not follow")
					}
				}))
			}
			show(b, row{"preview, lesson", n, milliseconds(times), "ms", "5 (p95)"})
		})
	}
}
