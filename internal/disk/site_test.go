package disk

import (
	"crypto/sha256"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"plait/internal/artifact"
)

// A sample site goes through generations. From one to the next pages come, go and
// change, assets change their names, a picture changes under its name, and a
// file's name becomes a folder's. Each file ends with a sum of what stands before
// it, so that half a file can be told from a whole one.

func sealed(text string) []byte {
	return fmt.Appendf(nil, "%s\nsum %x\n", text, sha256.Sum256([]byte(text)))
}

func isSealed(data []byte) bool {
	text, _, found := strings.Cut(string(data), "\nsum ")
	return found && string(sealed(text)) == string(data)
}

// picture is larger than the memory for copying, so that it is copied in parts.
func picture(what string) *fstest.MapFile {
	return &fstest.MapFile{Data: sealed(strings.Repeat(what+" ", (70<<10)/len(what)))}
}

var (
	bowl  = picture("bowl")
	roots = []*fstest.MapFile{picture("roots before"), picture("roots after")}
)

// course is the folder that the pictures of a generation are copied from.
func course(generation int) fstest.MapFS {
	return fstest.MapFS{
		"lessons/01-gloss/bowl.png":  bowl,
		"lessons/01-gloss/roots.png": roots[generation%2],
	}
}

func site(t testing.TB, generation, pages int) *artifact.Tree {
	t.Helper()
	tree := artifact.New()
	add := func(f artifact.File) {
		t.Helper()
		if err := tree.Add(f); err != nil {
			t.Fatal(err)
		}
	}
	style := fmt.Sprintf("assets/plait-%d.css", generation/2)
	add(artifact.File{Path: style, Data: sealed("body{}")})
	add(artifact.File{Path: "media/bowl.png", Input: "lessons/01-gloss/bowl.png"})
	add(artifact.File{Path: "media/roots.png", Input: "lessons/01-gloss/roots.png"})
	swap := "notes"
	if generation%2 == 1 {
		swap = "notes/plain.txt"
	}
	add(artifact.File{Path: swap, Data: sealed("a name that is a file now and a folder then")})

	var names []string
	for i := range pages {
		if (i+generation)%4 != 0 {
			names = append(names, fmt.Sprintf("lessons/%d.html", i))
		}
	}
	for i, name := range names {
		links := []string{style, "media/bowl.png", "media/roots.png", names[(i+1)%len(names)]}
		if i%2 == 0 {
			links = append(links, names...)
		}
		add(page(name, links...))
	}
	add(page(home, append([]string{style, names[0]}, names...)...))
	return tree
}

// page makes a page with links to other files of the site.
func page(name string, links ...string) artifact.File {
	var b strings.Builder
	fmt.Fprintf(&b, "<title>%s</title>\n%s", name, strings.Repeat("<p>Two parts of 8N hold the level.</p>\n", 20))
	for _, link := range links {
		fmt.Fprintf(&b, "<a href=%q>\n", strings.Repeat("../", strings.Count(name, "/"))+link)
	}
	return artifact.File{Path: name, Stage: artifact.Page, Data: sealed(b.String())}
}

var href = regexp.MustCompile(`<a href="([^"]*)">`)

// expectSound checks what holds of an output folder at any moment: every file is
// whole, and every page that can be reached from the home page has what it links
// to.
func expectSound(t *testing.T, dir string) {
	t.Helper()
	have := contents(t, dir)
	for name, data := range have {
		if !isSealed(data) {
			t.Errorf("%s is not whole", name)
		}
	}
	seen := map[string]bool{}
	var visit func(name string)
	visit = func(name string) {
		if seen[name] {
			return
		}
		seen[name] = true
		for _, m := range href.FindAllStringSubmatch(string(have[name]), -1) {
			target := path.Join(path.Dir(name), m[1])
			if _, ok := have[target]; !ok {
				t.Errorf("%s links to %s, which is not there", name, target)
			}
			visit(target)
		}
	}
	visit(home)
}

// expectExactly checks that the folder holds the site, nothing else but a git
// file, and no sign of an earlier run.
func expectExactly(t *testing.T, dir string, tree *artifact.Tree, inputs fs.FS) {
	t.Helper()
	have := contents(t, dir)
	for _, f := range tree.Files() {
		want := f.Data
		if f.Input != "" {
			want, _ = fs.ReadFile(inputs, f.Input)
		}
		if string(have[f.Path]) != string(want) {
			t.Errorf("%s has other bytes", f.Path)
		}
		delete(have, f.Path)
	}
	for name := range have {
		t.Errorf("%s should not be there", name)
	}
	if _, err := os.Lstat(filepath.Join(dir, scratchFolder)); err == nil {
		t.Errorf("%s is still there", scratchFolder)
	}
	l, _, err := readList(openRooted(t, dir))
	if err != nil || len(l) != tree.Len() {
		t.Errorf("the list has %d of %d files: %v", len(l), tree.Len(), err)
	}
	for _, f := range tree.Files() {
		if l[f.Path] != (f.Stage == artifact.Page) {
			t.Errorf("the list has %s as live: %v", f.Path, l[f.Path])
		}
	}
	for _, name := range emptyFolders(t, dir) {
		t.Errorf("%s is left empty", name)
	}
}

// contents reads all files of a folder but plait's own and git's.
func contents(t *testing.T, dir string) map[string][]byte {
	t.Helper()
	have := map[string][]byte{}
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && d.Name() == scratchFolder {
			return fs.SkipDir
		}
		if d.IsDir() || name == ignoreFile || name == listFile {
			return nil
		}
		have[name], err = os.ReadFile(filepath.Join(dir, name))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return have
}

func emptyFolders(t *testing.T, dir string) []string {
	t.Helper()
	var empty []string
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || !d.IsDir() {
			return err
		}
		entries, err := os.ReadDir(filepath.Join(dir, name))
		if len(entries) == 0 {
			empty = append(empty, name)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return slices.Compact(empty)
}

func openRooted(t testing.TB, dir string) files {
	t.Helper()
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { root.Close() })
	return newRooted(root)
}

// put writes files by hand.
func put(t *testing.T, dir string, files map[string]string) {
	t.Helper()
	for name, text := range files {
		file := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
}
