package bench

import (
	"bytes"
	"context"
	"fmt"
	"runtime/debug"
	"testing"

	"plait/internal/build"
	"plait/internal/cli"
	"plait/internal/disk"
	"plait/internal/page"
	server "plait/internal/preview"
	"plait/layouts"
)

// follower is a preview without its server: what it does between the news that something was
// saved and the bytes of the page that is open.
type follower struct {
	b     *testing.B
	files *disk.Folder
	open  string // path of the page
	kept  build.Kept
	pages page.Kept
	theme *page.Theme
}

// newFollower begins to follow a course with a lesson of it open.
func newFollower(b *testing.B, p *place) *follower {
	b.Helper()
	files, err := disk.Open(p.dir)
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { files.Close() })
	f := &follower{b: b, files: files, open: fmt.Sprintf("lessons/lesson-%d.html", len(p.texts)/2)}
	f.follow()
	return f
}

// follow returns the open page after something has changed.
func (f *follower) follow(changed ...string) []byte {
	f.kept.Forget(changed)
	f.pages.Forget(changed)
	result, err := build.Read(context.Background(), build.Options{Files: f.files, Layouts: layouts.FS, Live: server.Script, Lazy: true, Kept: &f.kept, Pages: &f.pages})
	if err != nil {
		f.b.Fatal(err)
	}
	if own := result.Course.Layouts.Value; f.theme == nil || own != "" {
		if f.theme, err = result.Theme(); err != nil {
			f.b.Fatal(err)
		}
	}
	tree, err := result.PagesWith(f.theme)
	if err != nil {
		f.b.Fatal(err)
	}
	file, _ := tree.Get(f.open)
	data, err := file.Bytes()
	if err != nil {
		f.b.Fatal(err)
	}
	return data
}

// BenchmarkPreview measures how soon a preview has the bytes of the open page after an edit of
// its lesson, and of what every page hangs on.
func BenchmarkPreview(b *testing.B) {
	for _, n := range lessons(b) {
		b.Run(fmt.Sprint("lessons=", n), func(b *testing.B) {
			defer debug.SetGCPercent(debug.SetGCPercent(cli.PreviewPercent)) // as the command does
			p := newPlace(b, n)
			f := newFollower(b, p)
			shows := func(page []byte, text string) {
				if !bytes.Contains(page, []byte(text)) {
					b.Errorf("the page does not show %q", text)
				}
			}
			b.Run("lesson", func(b *testing.B) {
				var values []float64
				for range max(b.N, 5*leastRounds) {
					p.edit(b, p.lesson, "summary: ", "summary: Edited %d times.")
					var page []byte
					values = append(values, took(func() { page = f.follow(p.lesson) }).Seconds()*1000)
					cli.Tidy() // as the command does when it has nothing else to do
					shows(page, fmt.Sprintf("Edited %d times.", p.edits))
				}
				show(b, row{"preview, lesson", n, values, "ms", "5 (p95)"})
			})
			all := func(what, file, old, with string, seen func() string) {
				b.Run(what, func(b *testing.B) {
					inTurn(b, p, "preview, "+what, "1.5", func() { p.edit(b, file, old, with) }, func() { shows(f.follow(file), seen()) })
				})
			}
			all("range", "content/ranges/meadow.yaml", "  V: {name:", "  V: {name: violet %d, base: violet}", func() string { return fmt.Sprint("violet ", p.edits) })
			all("course", "content/course.yaml", "title: ", "title: A synthetic course %d", func() string { return fmt.Sprint("A synthetic course ", p.edits) })
			p.ownLayout(b)
			f.follow("content/course.yaml", "own")
			all("layout", "own/templates/foot.html", "<footer", "<footer data-edit=\"%d\">", func() string { return fmt.Sprintf("data-edit=\"%d\"", p.edits) })
		})
	}
}
