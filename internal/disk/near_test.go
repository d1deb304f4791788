package disk

import (
	"io/fs"
	"path/filepath"
	"slices"
	"testing"

	"plait/internal/source"
)

// A folder answers the same from near by, whatever is asked of it.
func TestNearAnswersTheSame(t *testing.T) {
	outside, dir := t.TempDir(), t.TempDir()
	put(t, outside, map[string]string{"secret.md": "x"})
	put(t, dir, map[string]string{
		"lessons/01-gloss/lesson.md": "# Gloss", "lessons/01-gloss/deep/a.md": "a", "lessons/02-foil/lesson.md": "# Foil", "content/course.yaml": "",
		"lessons/01-gloss/b.head.yaml": "b", "lessons/01-gloss/a.head.yaml": "a", "lessons/01-gloss/folder.head.yaml/c.md": "c",
	})
	part := filepath.Join(dir, "lessons", "01-gloss")
	symlink(t, filepath.Join(outside, "secret.md"), filepath.Join(part, "absolute.md"))
	symlink(t, outside, filepath.Join(part, "folder"))
	symlink(t, "../02-foil/lesson.md", filepath.Join(part, "inside.md"))
	symlink(t, "lesson.md", filepath.Join(part, "same.md"))
	symlink(t, "deep", filepath.Join(part, "linked.head.yaml"))
	symlink(t, outside, filepath.Join(part, "away.head.yaml"))
	symlink(t, "01-gloss", filepath.Join(dir, "lessons", "03-linked"))
	symlink(t, outside, filepath.Join(dir, "lessons", "04-away"))
	whole := open(t, dir)

	same := func(what string, a, b error) {
		t.Helper()
		if (a == nil) != (b == nil) || a != nil && a.Error() != b.Error() {
			t.Errorf("%s: from near by %v, from the whole %v", what, a, b)
		}
	}
	for _, part := range []string{"lessons/01-gloss", "lessons/03-linked", "lessons/04-away", "lessons/05-missing", "lessons", ".", "..", "lessons/01-gloss/lesson.md"} {
		near, end := source.Near(whole, part)
		for _, name := range []string{
			"lesson.md", "deep/a.md", "deep", "absolute.md", "folder", "folder/secret.md", "inside.md", "same.md", "missing.md", "../02-foil/lesson.md", "",
		} {
			for _, name := range []string{part + "/" + name, "lessons/01-gloss/" + name, name} {
				got, nearErr := fs.ReadFile(near, name)
				want, err := fs.ReadFile(whole, name)
				same("reading "+name, nearErr, err)
				if string(got) != string(want) {
					t.Errorf("%s reads %q from near by, %q from the whole", name, got, want)
				}
				a, nearErr := fs.Stat(near, name)
				b, err := fs.Stat(whole, name)
				same("looking at "+name, nearErr, err)
				if err == nil && nearErr == nil && (a.Name() != b.Name() || a.Mode() != b.Mode() || a.Size() != b.Size()) {
					t.Errorf("%s is %v from near by, %v from the whole", name, a, b)
				}
			}
		}
		for _, name := range []string{part, "lessons", "lessons/02-foil", "lessons/01-gloss/deep", "missing"} {
			a, nearErr := fs.ReadDir(near, name)
			b, err := fs.ReadDir(whole, name)
			same("listing "+name, nearErr, err)
			if len(a) != len(b) {
				t.Fatalf("%s has %d entries from near by, %d from the whole", name, len(a), len(b))
			}
			for i := range a {
				if a[i].Name() != b[i].Name() || a[i].Type() != b[i].Type() {
					t.Errorf("%s has %v from near by, %v from the whole", name, a[i], b[i])
				}
			}
		}
		for _, name := range []string{part, "lessons/01-gloss", "lessons", "missing"} {
			a, nearErr := source.Files(near, name, ".head.yaml")
			b, err := source.Files(whole, name, ".head.yaml")
			same("finding in "+name, nearErr, err)
			if !slices.Equal(a, b) {
				t.Errorf("%s has %v from near by, %v from the whole", name, a, b)
			}
			if want := []string{"a.head.yaml", "away.head.yaml", "b.head.yaml", "linked.head.yaml"}; name == "lessons/01-gloss" && !slices.Equal(a, want) {
				t.Errorf("%s has %v, want %v", name, a, want)
			}
		}
		end()
	}
}
