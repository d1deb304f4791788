package disk

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"testing"
)

func TestReplace(t *testing.T) {
	outside, dir := t.TempDir(), t.TempDir()
	put(t, outside, map[string]string{"secret.md": "old"})
	put(t, dir, map[string]string{"lessons/lesson.md": "old", "lessons/.lesson.md.new": "left by a killed run"})
	symlink(t, filepath.Join(outside, "secret.md"), filepath.Join(dir, "out.md"))
	symlink(t, "lessons/lesson.md", filepath.Join(dir, "in.md"))
	symlink(t, outside, filepath.Join(dir, "folder"))
	f := open(t, dir)
	for _, c := range []struct {
		name, old string
		want      error
	}{
		{"lessons/lesson.md", "other", ErrChanged},
		{"lessons/lesson.md", "old and more", ErrChanged},
		{"lessons/lesson.md", "ol", ErrChanged},
		{"out.md", "old", ErrNotRegular},
		{"in.md", "old", ErrNotRegular},
		{"folder/secret.md", "old", ErrOutside},
		{"lessons", "", ErrNotRegular},
		{"missing.md", "", fs.ErrNotExist},
		{"../secret.md", "old", fs.ErrInvalid},
		{"lessons/lesson.md", "old", nil},
		{"lessons/lesson.md", "old", ErrChanged},
	} {
		if err := f.Replace(c.name, []byte(c.old), []byte("new")); !errors.Is(err, c.want) {
			t.Errorf("replacing %q in %s: %v, want %v", c.old, c.name, err, c.want)
		}
	}
	expectFile(t, filepath.Join(dir, "lessons/lesson.md"), "new")
	expectFile(t, filepath.Join(outside, "secret.md"), "old")
	if entries, err := os.ReadDir(filepath.Join(dir, "lessons")); err != nil || len(entries) != 1 {
		t.Errorf("left behind: %v, %v", entries, err)
	}
}

func expectFile(t *testing.T, name, want string) {
	t.Helper()
	if got, err := os.ReadFile(name); err != nil || string(got) != want {
		t.Errorf("%s holds %q (%v), want %q", name, got, err, want)
	}
}

func TestReplaceKeepsPermissions(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("Windows has no permission bits")
	}
	dir := t.TempDir()
	name := filepath.Join(dir, "lesson.md")
	put(t, dir, map[string]string{"lesson.md": "old"})
	if err := os.Chmod(name, 0o646); err != nil {
		t.Fatal(err)
	}
	if err := open(t, dir).Replace("lesson.md", []byte("old"), []byte("new")); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Stat(name); err != nil || info.Mode().Perm() != 0o646 {
		t.Errorf("got %v, %v", info.Mode(), err)
	}
}
