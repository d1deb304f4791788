package disk

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
)

func TestShelf(t *testing.T) {
	course := t.TempDir()
	dir := filepath.Join(t.TempDir(), "results", "spring")
	s, err := OpenShelf(dir, course, "public")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := OpenShelf(dir, course); !errors.Is(err, ErrBusy) {
		t.Errorf("a second writer: got %v", err)
	}
	if data, err := s.Read("register.json", 10); data != nil || err != nil {
		t.Errorf("nothing there: got %q, %v", data, err)
	}
	for _, text := range []string{"one", "three"} {
		if err := s.Put("register.json", []byte(text)); err != nil {
			t.Fatal(err)
		}
		if data, err := s.Read("register.json", 5); string(data) != text || err != nil {
			t.Errorf("got %q, %v", data, err)
		}
	}
	if _, err := s.Read("register.json", 4); err == nil {
		t.Error("a file beyond the limit was read")
	}
	info, err := os.Stat(filepath.Join(dir, "register.json"))
	if err != nil || info.Mode().Perm()&0o077 != 0 {
		t.Errorf("others can read it: %v, %v", info.Mode(), err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) != 1 {
		t.Errorf("left behind: %v, %v", entries, err)
	}
}

// Results of learners never reach a site, by whatever name it is called.
func TestShelfKeepsApart(t *testing.T) {
	course, elsewhere := t.TempDir(), t.TempDir()
	for _, name := range []string{"public", "content", "lessons"} {
		if err := os.Mkdir(filepath.Join(course, name), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile(filepath.Join(elsewhere, listFile), nil, 0o644); err != nil {
		t.Fatal(err)
	}
	link := filepath.Join(t.TempDir(), "link")
	if err := os.Symlink(filepath.Join(course, "public"), link); err != nil {
		t.Skip(err)
	}
	for _, dir := range []string{
		course, filepath.Join(course, "public"), filepath.Join(course, "public", "new"), filepath.Join(course, "content", "papers"),
		elsewhere, filepath.Join(elsewhere, "papers"), link,
	} {
		if s, err := OpenShelf(dir, course, "public"); !errors.Is(err, ErrSite) {
			t.Errorf("%s: got %v, %v", dir, s, err)
		}
	}
	s, err := OpenShelf(filepath.Join(course, "results"), course, "public")
	if err != nil {
		t.Fatal(err)
	}
	s.Close()
}
