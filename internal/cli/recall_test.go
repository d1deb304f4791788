package cli

import (
	"bytes"
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"plait/internal/starter"
)

// settledCourse puts the starter into a folder and lets it be years old.
func settledCourse(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, starter.Files()); err != nil {
		t.Fatal(err)
	}
	settle(t, dir)
	return dir
}

func settle(t *testing.T, dir string) {
	t.Helper()
	old := time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)
	err := filepath.WalkDir(dir, func(path string, _ fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		return os.Chtimes(path, old, old)
	})
	if err != nil {
		t.Fatal(err)
	}
}

// built builds a course and returns what was said.
func built(t *testing.T, dir string) string {
	t.Helper()
	var out, errs bytes.Buffer
	if got := run(context.Background(), []string{"build", "--course", dir}, console{out: &out, err: &errs}); got != exitFine {
		t.Fatalf("exit %d: %s", got, errs.String())
	}
	return errs.String() + out.String()
}

// remembered reports whether the last build is remembered and still holds.
func remembered(dir string) bool {
	_, ok := recallBuild(dir, filepath.Join(dir, "public"), console{}).known()
	return ok
}

// A build of a course in which nothing has changed says the same as a full one, and a
// change of anything makes the next build a full one.
func TestBuildRemembers(t *testing.T) {
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	t.Setenv("HOME", t.TempDir()) // where other systems keep their caches
	dir := settledCourse(t)
	built(t, dir)
	if !remembered(dir) {
		t.Fatal("the build is not remembered")
	}
	short := built(t, dir)
	if !strings.Contains(short, "0 files written") {
		t.Errorf("nothing changed, and yet: %s", short)
	}
	if err := os.RemoveAll(os.Getenv("XDG_CACHE_HOME")); err != nil {
		t.Fatal(err)
	}
	if full := built(t, dir); untimed(full) != untimed(short) {
		t.Errorf("a full build says %q, one from memory %q", full, short)
	}
	for name, change := range map[string]func() error{
		"a page of the site": func() error { return os.WriteFile(filepath.Join(dir, "public", "index.html"), nil, 0o666) },
		"a page gone":        func() error { return os.Remove(filepath.Join(dir, "public", "index.html")) },
		"the site gone":      func() error { return os.RemoveAll(filepath.Join(dir, "public")) },
		"the word list": func() error {
			return os.WriteFile(filepath.Join(dir, "content", "words.yaml"), []byte("- {term: bowl, meaning: What is mixed.}\n"), 0o666)
		},
	} {
		settle(t, dir)
		built(t, dir)
		if !remembered(dir) {
			t.Fatalf("%s: the build before is not remembered", name)
		}
		if err := change(); err != nil {
			t.Fatal(err)
		}
		if remembered(dir) {
			t.Errorf("%s: the change is not seen", name)
		}
		built(t, dir)
	}
}

// untimed drops the time that a build took.
func untimed(said string) string {
	head, rest, _ := strings.Cut(said, " removed; ")
	_, tail, _ := strings.Cut(rest, "\n")
	return head + tail
}

// What was changed a moment ago may change again within the same tick.
func TestAFreshChangeIsNotRemembered(t *testing.T) {
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	t.Setenv("HOME", t.TempDir())
	dir := settledCourse(t)
	lesson := filepath.Join(dir, "content", "course.yaml")
	if err := os.Chtimes(lesson, time.Now(), time.Now()); err != nil {
		t.Fatal(err)
	}
	built(t, dir)
	if remembered(dir) {
		t.Error("it is remembered")
	}
}
