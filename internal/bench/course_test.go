package bench

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/yuin/goldmark"

	"plait/internal/corpus"
	"plait/internal/parallel"
	"plait/layouts"
)

// seed decides what the lessons say.
const seed = 1

// workers is how many threads the floor has. The commands take one per processor.
const workers = 2

// place is a course on a disk with all that belongs to it.
type place struct {
	dir    string // the course
	out    string // its site
	texts  [][]byte
	lesson string // a file of a lesson in the middle
	edits  int
}

// newPlace writes a course of n lessons.
func newPlace(b *testing.B, n int) *place {
	b.Helper()
	root := scratch(b)
	files := corpus.Course(n, seed)
	p := &place{dir: filepath.Join(root, "course"), out: filepath.Join(root, "site")}
	var texts [][]byte
	for _, name := range sorted(files) {
		if strings.HasSuffix(name, "/lesson.md") {
			texts = append(texts, files[name].Data)
		}
	}
	p.texts = outside(b, filepath.Join(root, "texts"), texts)
	p.lesson = fmt.Sprintf("lessons/%04d-lesson-%[1]d/lesson.md", n/2)
	if err := os.CopyFS(p.dir, files); err != nil {
		b.Fatal(err)
	}
	b.Setenv("XDG_CACHE_HOME", filepath.Join(root, "cache"))
	settle(b, p.dir)
	return p
}

// outside returns texts in memory that is not the heap's, by way of a new file. What the
// measuring holds would leave a build less room than it has by itself.
func outside(b *testing.B, path string, texts [][]byte) [][]byte {
	b.Helper()
	whole := bytes.Join(texts, nil)
	if err := os.WriteFile(path, whole, 0o666); err != nil {
		b.Fatal(err)
	}
	file, err := os.Open(path)
	if err != nil {
		b.Fatal(err)
	}
	defer file.Close()
	mapped, err := syscall.Mmap(int(file.Fd()), 0, len(whole), syscall.PROT_READ, syscall.MAP_SHARED)
	if err != nil {
		b.Fatal(err)
	}
	all, moved := mapped, make([][]byte, len(texts))
	b.Cleanup(func() { _ = syscall.Munmap(all) })
	for i, text := range texts {
		moved[i], mapped = mapped[:len(text):len(text)], mapped[len(text):]
	}
	return moved
}

// scratch makes a folder on the memory disk where there is one.
func scratch(b *testing.B) string {
	b.Helper()
	const memory = "/dev/shm"
	dir, err := os.MkdirTemp(memory, "plait-bench-")
	if err != nil {
		return b.TempDir()
	}
	b.Cleanup(func() { os.RemoveAll(dir) })
	return dir
}

// settle dates all files back: those that were written just now are not trusted to be
// told from a later state by their times.
func settle(b *testing.B, dir string) {
	b.Helper()
	at := time.Now().Add(-time.Hour)
	err := filepath.WalkDir(dir, func(path string, _ fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		return os.Chtimes(path, at, at)
	})
	if err != nil {
		b.Fatal(err)
	}
}

// edit replaces a text in a file of the course by itself and a number that it never had.
func (p *place) edit(b *testing.B, name, old, with string) {
	b.Helper()
	p.edits++
	path := filepath.Join(p.dir, filepath.FromSlash(name))
	data, err := os.ReadFile(path)
	if err != nil {
		b.Fatal(err)
	}
	at := bytes.Index(data, []byte(old))
	if at < 0 {
		b.Fatalf("%s does not hold %q", name, old)
	}
	end := at + bytes.IndexByte(data[at:], '\n')
	line := fmt.Sprintf(with, p.edits)
	data = append(append(bytes.Clone(data[:at]), line...), data[end:]...)
	if err := os.WriteFile(path, data, 0o666); err != nil {
		b.Fatal(err)
	}
	at0 := time.Now().Add(-time.Hour + time.Duration(p.edits)*time.Second)
	if err := os.Chtimes(path, at0, at0); err != nil {
		b.Fatal(err)
	}
}

// forget removes the site and what is known of its build, but for the drawings
// and what else takes long to make and hangs on no lesson.
func (p *place) forget(b *testing.B) {
	b.Helper()
	known, err := filepath.Glob(filepath.Join(os.Getenv("XDG_CACHE_HOME"), "plait", "*.build"))
	if err != nil {
		b.Fatal(err)
	}
	for _, path := range append(known, p.out) {
		if err := os.RemoveAll(path); err != nil {
			b.Fatal(err)
		}
	}
}

// bare turns all lessons into HTML with the Markdown library and nothing else.
func (p *place) bare(b *testing.B) {
	_ = parallel.Each(workers, len(p.texts), func(_, i int) error {
		var out bytes.Buffer
		if err := goldmark.Convert(p.texts[i], &out); err != nil {
			b.Error(err)
		}
		return nil
	})
}

// write writes the bytes of the site to new files, in the simplest way there is.
func (p *place) write(b *testing.B, site map[string][]byte, to string) {
	names := sorted(site)
	for _, name := range names {
		if err := os.MkdirAll(filepath.Join(to, filepath.Dir(name)), 0o777); err != nil {
			b.Fatal(err)
		}
	}
	_ = parallel.Each(workers, len(names), func(_, i int) error {
		if err := os.WriteFile(filepath.Join(to, names[i]), site[names[i]], 0o666); err != nil {
			b.Error(err)
		}
		return nil
	})
}

// site reads all files of the site.
func (p *place) site(b *testing.B) map[string][]byte {
	b.Helper()
	files := map[string][]byte{}
	err := filepath.WalkDir(p.out, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		name, err := filepath.Rel(p.out, path)
		if err != nil {
			return err
		}
		files[name], err = os.ReadFile(path)
		return err
	})
	if err != nil {
		b.Fatal(err)
	}
	return files
}

// ownLayout gives the course a foot of pages of its own.
func (p *place) ownLayout(b *testing.B) {
	b.Helper()
	foot, err := fs.ReadFile(layouts.FS, "templates/foot.html")
	if err != nil {
		b.Fatal(err)
	}
	to := filepath.Join(p.dir, "own", "templates")
	if err := os.MkdirAll(to, 0o777); err != nil {
		b.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(to, "foot.html"), foot, 0o666); err != nil {
		b.Fatal(err)
	}
	settings := filepath.Join(p.dir, "content", "course.yaml")
	data, err := os.ReadFile(settings)
	if err != nil {
		b.Fatal(err)
	}
	if !bytes.Contains(data, []byte("layouts: ")) {
		err = os.WriteFile(settings, append(data, "layouts: own\n"...), 0o666)
	}
	if err != nil {
		b.Fatal(err)
	}
	settle(b, p.dir)
}
