package archtest

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"testing"
)

// top names all that may lie at the top of the repository. What a newcomer sees
// first is the folder of a course, so tools keep their files elsewhere.
var top = []string{
	"cmd", "content", "layouts", "lessons", "internal", "public",
	"go.mod", "go.sum", "README.md", "DEVELOPERS.md", "LICENSE",
	".ci", ".git", ".gitattributes", ".gitignore",
}

func TestTopLevel(t *testing.T) {
	entries, err := os.ReadDir(root(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if !slices.Contains(top, e.Name()) {
			t.Errorf("%s lies at the top of the repository, where it does not belong", e.Name())
		}
	}
}

// forbidden holds texts that tie the tree to one machine or to one service. They
// are put together here so that this file does not hold them itself.
var forbidden = []struct{ text, why string }{
	{"/" + "work/", "a path of one machine"},
	{"/" + "root/", "a path of one machine"},
	{"/" + "tmp/plait", "a path of one machine"},
	{"npm" + "js.", "a package registry"},
	{"yarn" + "pkg.", "a package registry"},
	{"proxy." + "golang.org", "a package registry"},
	{"sum." + "golang.org", "a package registry"},
	{"py" + "pi.org", "a package registry"},
	{"rubygems" + ".org", "a package registry"},
	{"crates" + ".io", "a package registry"},
	{"deb." + "debian.org", "a package registry"},
}

func TestTreeNamesNoMachineAndNoRegistry(t *testing.T) {
	walk(t, func(name string) {
		data, err := os.ReadFile(filepath.Join(root(t), filepath.FromSlash(name)))
		if err != nil {
			t.Error(err)
			return
		}
		for _, f := range forbidden {
			if at := bytes.Index(data, []byte(f.text)); at >= 0 {
				line := 1 + bytes.Count(data[:at], []byte("\n"))
				t.Errorf("%s:%d: holds %q, %s", name, line, f.text, f.why)
			}
		}
	})
}
