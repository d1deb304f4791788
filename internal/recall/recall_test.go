package recall

import (
	"os"
	"path/filepath"
	"reflect"
	"testing"
	"time"
)

// long ago is before any build of these tests.
var longAgo = time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)

func write(t *testing.T, path, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
}

func age(t *testing.T, path string, to time.Time) {
	t.Helper()
	if err := os.Chtimes(path, to, to); err != nil {
		t.Fatal(err)
	}
}

func look(t *testing.T, folders ...string) *Snapshot {
	t.Helper()
	s, err := Look(folders...)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// course makes a small course whose files were all left alone for years.
func course(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for _, name := range []string{"content/course.yaml", "lessons/01-a/lesson.md", "lessons/01-a/plan.svg", "lessons/z.txt", "lessons/02-b/lesson.md"} {
		write(t, filepath.Join(dir, name), name)
	}
	for _, name := range []string{
		"content/course.yaml", "content", "lessons/01-a/lesson.md", "lessons/01-a/plan.svg", "lessons/01-a",
		"lessons/02-b/lesson.md", "lessons/02-b", "lessons/z.txt", "lessons",
	} {
		age(t, filepath.Join(dir, name), longAgo)
	}
	return dir
}

func inputs(dir string) []string {
	return []string{filepath.Join(dir, "content"), filepath.Join(dir, "lessons"), filepath.Join(dir, "layouts")}
}

// Whatever happens to a file or a folder, what was remembered no longer holds.
func TestEveryChangeIsSeen(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(t *testing.T, dir string)
	}{
		{"edited", func(t *testing.T, dir string) { write(t, dir+"/lessons/01-a/lesson.md", "longer than it was before") }},
		{"edited to the same size", func(t *testing.T, dir string) { write(t, dir+"/lessons/z.txt", "LESSONS/Z.TXT") }},
		{"edited, with its old time put back", func(t *testing.T, dir string) {
			write(t, dir+"/lessons/z.txt", "more")
			age(t, dir+"/lessons/z.txt", longAgo)
		}},
		{"added", func(t *testing.T, dir string) { write(t, dir+"/lessons/01-a/back.svg", "x") }},
		{"a lesson added", func(t *testing.T, dir string) { write(t, dir+"/lessons/03-c/lesson.md", "x") }},
		{"the layouts added", func(t *testing.T, dir string) { write(t, dir+"/layouts/styles/plait.css", "x") }},
		{"removed", func(t *testing.T, dir string) { os.Remove(dir + "/lessons/01-a/plan.svg") }},
		{"a folder removed", func(t *testing.T, dir string) { os.RemoveAll(dir + "/lessons/02-b") }},
		{"renamed", func(t *testing.T, dir string) {
			os.Rename(dir+"/lessons/01-a/plan.svg", dir+"/lessons/01-a/view.svg")
		}},
		{"a file where a folder was", func(t *testing.T, dir string) {
			os.RemoveAll(dir + "/lessons/02-b")
			write(t, dir+"/lessons/02-b", "x")
		}},
	} {
		dir := course(t)
		s := look(t, inputs(dir)...)
		if !s.Holds() {
			t.Errorf("%s: it does not hold even before", c.name)
		}
		c.change(t, dir)
		if s.Holds() {
			t.Errorf("%s: the change is not seen", c.name)
		}
	}
}

// A file that changed just now could change again within the same tick.
func TestSettled(t *testing.T) {
	dir := course(t)
	now := time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		file string
		at   time.Time
		want bool
	}{
		{"lessons/01-a/lesson.md", longAgo, true},
		{"lessons/01-a/lesson.md", now.Add(-3 * time.Second), true},
		{"lessons/01-a/lesson.md", now.Add(-time.Second), false},
		{"lessons/01-a/lesson.md", now.Add(time.Hour), false}, // the clock was set back
		{"lessons", now.Add(-time.Second), false},
	} {
		age(t, filepath.Join(dir, c.file), c.at)
		if got := look(t, inputs(dir)...).Settled(now); got != c.want {
			t.Errorf("%s changed at %s: settled %t, want %t", c.file, c.at, got, c.want)
		}
		age(t, filepath.Join(dir, c.file), longAgo)
	}
}

// What lies behind a link to a folder would not be seen.
func TestALinkedFolderIsNotRemembered(t *testing.T) {
	dir := course(t)
	if err := os.Symlink(filepath.Join(dir, "content"), filepath.Join(dir, "lessons", "linked")); err != nil {
		t.Skip("no links here:", err)
	}
	if _, err := Look(inputs(dir)...); err == nil {
		t.Error("a linked folder is remembered")
	}
}

func TestSaveAndLoad(t *testing.T) {
	dir, cache := course(t), t.TempDir()
	store := StoreFor(cache, dir, dir+"/public")
	if _, ok := store.Load(); ok {
		t.Error("something is remembered before anything was")
	}
	want := Build{Program: "plait 1", Inputs: look(t, inputs(dir)...), Site: look(t, dir+"/public"), Files: 7, Summary: "2 lessons"}
	for range 2 {
		if err := store.Save(want); err != nil {
			t.Fatal(err)
		}
	}
	got, ok := store.Load()
	if !ok || !reflect.DeepEqual(plain(got), plain(want)) {
		t.Errorf("got %+v, %t, want %+v", got, ok, want)
	}
	if _, ok := StoreFor(cache, dir, dir+"/other").Load(); ok {
		t.Error("another site has the same memory")
	}
}

// plain makes lists of nothing alike.
func plain(b Build) Build {
	for _, s := range []*Snapshot{b.Inputs, b.Site} {
		for i := range s.folders {
			if len(s.folders[i].files) == 0 {
				s.folders[i].files = nil
			}
		}
	}
	return b
}

// Work is only for the program that did it.
func TestWorkIsRemembered(t *testing.T) {
	store := StoreFor(t.TempDir(), "/course", "/site")
	if _, ok := store.LoadWork("plait 1"); ok {
		t.Error("work is there before any were saved")
	}
	if err := store.SaveWork("plait 1", []byte("a head")); err != nil {
		t.Fatal(err)
	}
	if got, ok := store.LoadWork("plait 1"); !ok || string(got) != "a head" {
		t.Errorf("got %q, %t", got, ok)
	}
	if _, ok := store.LoadWork("plait 2"); ok {
		t.Error("another program takes this work for its own")
	}
}

// A damaged memory is none.
func TestDamageIsSeen(t *testing.T) {
	dir := course(t)
	whole := sealed(buildHead, Build{Program: "plait 1", Inputs: look(t, inputs(dir)...), Site: look(t), Found: "x"}.bytes())
	for n := range whole {
		if _, ok := unsealed(buildHead, whole[:n]); ok {
			t.Fatalf("cut to %d bytes it is read", n)
		}
		bad := append([]byte(nil), whole...)
		bad[n] ^= 1
		if _, ok := unsealed(buildHead, bad); ok {
			t.Fatalf("with byte %d changed it is read", n)
		}
	}
}

func BenchmarkHolds(b *testing.B) {
	dir := b.TempDir()
	for i := range 100 {
		lesson := filepath.Join(dir, "lessons", string(rune('a'+i/26))+string(rune('a'+i%26)))
		if err := os.MkdirAll(lesson, 0o777); err != nil {
			b.Fatal(err)
		}
		for _, name := range []string{"lesson.md", "left.svg", "back.svg"} {
			if err := os.WriteFile(filepath.Join(lesson, name), []byte(name), 0o666); err != nil {
				b.Fatal(err)
			}
		}
	}
	s, err := Look(dir)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if !s.Holds() {
			b.Fatal("it does not hold")
		}
	}
}
