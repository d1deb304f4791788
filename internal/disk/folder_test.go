package disk

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"plait/internal/source"
)

func open(t *testing.T, dir string) *Folder {
	t.Helper()
	f, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

func symlink(t *testing.T, target, name string) {
	t.Helper()
	if err := os.Symlink(target, name); err != nil {
		t.Skipf("no symbolic links here: %v", err)
	}
}

func TestFolderKeepsPathsInside(t *testing.T) {
	outside, dir := t.TempDir(), t.TempDir()
	put(t, outside, map[string]string{"secret.md": "x"})
	put(t, dir, map[string]string{"lessons/01-gloss/lesson.md": "# Gloss"})
	symlink(t, filepath.Join(outside, "secret.md"), filepath.Join(dir, "absolute.md"))
	symlink(t, "../"+filepath.Base(outside)+"/secret.md", filepath.Join(dir, "relative.md"))
	symlink(t, outside, filepath.Join(dir, "folder"))
	symlink(t, "lessons/01-gloss/lesson.md", filepath.Join(dir, "inside.md"))
	f := open(t, dir)

	for _, c := range []struct {
		name string
		want error
	}{
		{"lessons/01-gloss/lesson.md", nil},
		{"inside.md", nil},
		{"absolute.md", ErrOutside},
		{"relative.md", ErrOutside},
		{"folder/secret.md", ErrOutside},
		{"folder", ErrOutside},
		{"missing.md", fs.ErrNotExist},
		{"../secret.md", fs.ErrInvalid},
		{"/etc/passwd", fs.ErrInvalid},
		{"lessons/../inside.md", fs.ErrInvalid},
	} {
		_, err := fs.ReadFile(f, c.name)
		if !errors.Is(err, c.want) {
			t.Errorf("reading %s: %v, want %v", c.name, err, c.want)
		}
		if _, err := fs.Stat(f, c.name); !errors.Is(err, c.want) {
			t.Errorf("looking at %s: %v, want %v", c.name, err, c.want)
		}
		var named *fs.PathError
		if err != nil && (!errors.As(err, &named) || named.Path != c.name) {
			t.Errorf("the error does not name %s: %v", c.name, err)
		}
	}
	if _, err := fs.ReadDir(f, "folder"); !errors.Is(err, ErrOutside) {
		t.Errorf("reading the folder outside: %v", err)
	}
}

// A walk meets the files of the folder, in order, and never follows a link.
func TestFolderWalk(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, map[string]string{"b/2.md": "", "b/1.md": "", "a.md": ""})
	symlink(t, "..", filepath.Join(dir, "b/up"))
	var names []string
	err := fs.WalkDir(open(t, dir), ".", func(name string, d fs.DirEntry, err error) error {
		names = append(names, name)
		return err
	})
	if got := strings.Join(names, " "); err != nil || got != ". a.md b b/1.md b/2.md b/up" {
		t.Errorf("%s, %v", got, err)
	}
}

func TestFolderDoesNotWaitForPipes(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no named pipes in folders here")
	}
	dir := t.TempDir()
	if err := makePipe(filepath.Join(dir, "lesson.md")); err != nil {
		t.Fatal(err)
	}
	if _, err := open(t, dir).Open("lesson.md"); !errors.Is(err, ErrNotRegular) {
		t.Errorf("got %v", err)
	}
}

// A lesson file of 200 MB is refused without being taken into memory. The file is
// one hole, so it takes no room on the disk.
func TestHugeFile(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, map[string]string{"lesson.md": ""})
	if err := os.Truncate(filepath.Join(dir, "lesson.md"), 200<<20); err != nil {
		t.Fatal(err)
	}
	f := open(t, dir)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, err := source.Read(f, "lesson.md", 1<<20)
	runtime.ReadMemStats(&after)
	if !errors.Is(err, source.ErrTooLarge) {
		t.Errorf("got %v", err)
	}
	if taken := after.TotalAlloc - before.TotalAlloc; taken > 8<<20 {
		t.Errorf("%d bytes were taken", taken)
	}
}

func TestOpenSaysWhatIsWrong(t *testing.T) {
	_, err := Open(filepath.Join(t.TempDir(), "nowhere"))
	if !errors.Is(err, fs.ErrNotExist) || !strings.Contains(err.Error(), "nowhere") {
		t.Errorf("got %v", err)
	}
	dir := t.TempDir()
	put(t, dir, map[string]string{"file": ""})
	if _, err := Open(filepath.Join(dir, "file")); err == nil || !strings.Contains(err.Error(), "not a directory") {
		t.Errorf("got %v", err)
	}
}
