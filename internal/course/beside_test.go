package course

import (
	"path"
	"testing"
)

// The way to a file is that of path.Join, for whatever an author writes.
func FuzzBeside(f *testing.F) {
	for _, target := range []string{"a.md", "../b/a.md", "../../a.md", "../../../../a.md", "./a.md", "a//b", "a/../b", "a/", "/a", "..", "../", "", ".", "..a/b", "a/..b"} {
		f.Add("lessons/01-x/lesson.md", target)
		f.Add("content/about.md", target)
	}
	f.Fuzz(func(t *testing.T, name, target string) {
		if name != path.Clean(name) || name[0] == '/' || name[0] == '.' {
			return // files of a course have clean paths
		}
		if got, want := beside(name, target), path.Join(path.Dir(name), target); got != want {
			t.Errorf("%q from %q is %q, want %q", target, name, got, want)
		}
	})
}
