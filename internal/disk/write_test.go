package disk

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"testing/fstest"
	"time"

	"plait/internal/artifact"
)

// newCourse makes a course's folder with an empty folder for the site, as git
// keeps it, and returns both.
func newCourse(t testing.TB) (home, public string) {
	t.Helper()
	home = t.TempDir()
	for _, name := range []string{"content", "lessons", "layouts", "public"} {
		if err := os.Mkdir(filepath.Join(home, name), 0o777); err != nil {
			t.Fatal(err)
		}
	}
	public = filepath.Join(home, "public")
	if err := os.WriteFile(filepath.Join(public, ignoreFile), []byte("*\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	return home, public
}

func expectWrite(t *testing.T, generation int, home, public string, want Report) {
	t.Helper()
	got, err := Write(site(t, generation, 8), course(generation), public, Options{Course: home})
	if err != nil {
		t.Fatal(err)
	}
	if got != want {
		t.Errorf("generation %d: %+v, want %+v", generation, got, want)
	}
	expectExactly(t, public, site(t, generation, 8), course(generation))
	expectSound(t, public)
}

func TestWriteTakesASiteThroughItsGenerations(t *testing.T) {
	home, public := newCourse(t)
	// Eleven files: a style sheet, two pictures, the note, six pages of eight, home.
	expectWrite(t, 2, home, public, Report{Written: 11})
	expectWrite(t, 2, home, public, Report{Unchanged: 11})
	// Two pages and the note are new; a picture, home and the three pages that link to
	// what has come or gone are changed.
	expectWrite(t, 3, home, public, Report{Written: 8, Unchanged: 3, Removed: 3})
	// The style sheet has a new name, so that every page changes.
	expectWrite(t, 4, home, public, Report{Written: 10, Unchanged: 1, Removed: 4})
	if _, err := os.Stat(filepath.Join(public, ignoreFile)); err != nil {
		t.Errorf("the git file is gone: %v", err)
	}
}

// A file whose bytes are right is not touched.
func TestUnchangedFilesAreLeftAlone(t *testing.T) {
	home, public := newCourse(t)
	expectWrite(t, 2, home, public, Report{Written: 11})
	long := time.Date(2001, 2, 3, 4, 5, 6, 0, time.UTC)
	for name := range contents(t, public) {
		if err := os.Chtimes(filepath.Join(public, name), long, long); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := Write(site(t, 3, 8), course(3), public, Options{Course: home}); err != nil {
		t.Fatal(err)
	}
	kept := 0
	for name := range contents(t, public) {
		if info, err := os.Stat(filepath.Join(public, name)); err == nil && info.ModTime().Equal(long) {
			kept++
		}
	}
	if kept != 3 {
		t.Errorf("%d files are untouched, want 3", kept)
	}
}

func TestWorkersDoNotMatter(t *testing.T) {
	var want map[string][]byte
	for _, workers := range []int{1, 2, 8} {
		home, public := newCourse(t)
		for generation := range 4 {
			if _, err := Write(site(t, generation, 40), course(generation), public, Options{Course: home, Workers: workers}); err != nil {
				t.Fatal(err)
			}
		}
		got := contents(t, public)
		list, err := os.ReadFile(filepath.Join(public, listFile))
		if err != nil {
			t.Fatal(err)
		}
		got[listFile] = list
		if want == nil {
			want = got
		}
		if len(got) != len(want) {
			t.Errorf("%d files with %d workers, %d with one", len(got), workers, len(want))
		}
		for name := range want {
			if !bytes.Equal(got[name], want[name]) {
				t.Errorf("%s differs with %d workers", name, workers)
			}
		}
	}
}

func TestWriteMakesTheFolder(t *testing.T) {
	home, _ := newCourse(t)
	public := filepath.Join(home, "out", "site")
	expectWrite(t, 2, home, public, Report{Written: 11})
}

// expectRefused writes a site where it must not go, and checks that nothing there
// has changed.
func expectRefused(t *testing.T, home, public string, want error) {
	t.Helper()
	before := listing(t, home)
	_, err := Write(site(t, 2, 8), course(2), public, Options{Course: home, Inputs: []string{"design"}})
	if !errors.Is(err, want) {
		t.Errorf("writing to %s: %v, want %v", public, err, want)
	}
	if after := listing(t, home); after != before {
		t.Errorf("writing to %s changed it from\n%sto\n%s", public, before, after)
	}
}

func listing(t *testing.T, dir string) string {
	t.Helper()
	var b strings.Builder
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		info, err := d.Info()
		fmt.Fprintln(&b, name, info.Size(), info.ModTime())
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestInputsAreNotWrittenTo(t *testing.T) {
	home, public := newCourse(t)
	symlink(t, home, filepath.Join(home, "by-link"))
	put(t, home, map[string]string{"lessons/.plait": list{}.String()})
	for _, dir := range []string{
		home,
		filepath.Dir(home),
		home + "/public/..",
		home + "/lessons",
		home + "/lessons/new",
		home + "/content/deep/er",
		home + "/layouts",
		home + "/design/x", // an input by option; neither is there yet
		home + "/by-link/lessons",
	} {
		expectRefused(t, home, dir, ErrInput)
	}
	if err := guard(public, home, inputFolders); err != nil {
		t.Errorf("the usual folder is refused: %v", err)
	}
	if err := guard(home+"/lessons-built", home, inputFolders); err != nil {
		t.Errorf("a name that only begins like an input's is refused: %v", err)
	}
	t.Chdir(home)
	if err := guard("public", ".", inputFolders); err != nil {
		t.Errorf("relative paths: %v", err)
	}
	if err := guard(".", ".", inputFolders); !errors.Is(err, ErrInput) {
		t.Errorf("relative paths: %v", err)
	}
}

func TestFoldersOfOthersAreNotWrittenTo(t *testing.T) {
	home, public := newCourse(t)
	put(t, public, map[string]string{"thesis.txt": "three years of work"})
	expectRefused(t, home, public, ErrForeign)
}

// A file that was put into plait's own folder by hand stays, even when the site
// comes to need its name.
func TestFilesOfOthersAreNotReplaced(t *testing.T) {
	for _, name := range []string{"CNAME", "lessons/4.html"} { // the site has a lesson 4 from generation 1
		home, public := newCourse(t)
		if _, err := Write(site(t, 0, 8), course(0), public, Options{Course: home}); err != nil {
			t.Fatal(err)
		}
		put(t, public, map[string]string{name: "by hand"})
		before := listing(t, public)
		_, err := Write(site(t, 1, 8), course(1), public, Options{Course: home})
		if wanted := name != "CNAME"; wanted != errors.Is(err, ErrForeign) || wanted != (err != nil) {
			t.Errorf("%s: got %v", name, err)
		}
		if err != nil && listing(t, public) != before {
			t.Errorf("%s: the folder was changed", name)
		}
		if data, err := os.ReadFile(filepath.Join(public, name)); string(data) != "by hand" {
			t.Errorf("%s holds %q: %v", name, data, err)
		}
	}
}

func TestDamagedList(t *testing.T) {
	home, public := newCourse(t)
	whole := list{"a.html": true}.String()
	for _, text := range []string{
		"",
		whole[:len(whole)-4],
		strings.Replace(whole, "a.html", "../../lessons/01-gloss/lesson.md", 1),
		strings.Replace(whole, "a.html", "/etc/passwd", 1),
		strings.Replace(whole, "a.html", ".gitignore", 1),
		strings.Replace(whole, `"`, "", 1),
		"<<<<<<< HEAD\n" + whole,
	} {
		put(t, public, map[string]string{listFile: text})
		expectRefused(t, home, public, errDamaged)
	}
}

// Names are given back as they were, whatever they hold.
func FuzzList(f *testing.F) {
	f.Add(list{"a.html": true, "lessons/é.html": false, "b c\n.html": true, "\xff": false}.String())
	f.Add("# plait 1\n# end\n")
	f.Fuzz(func(t *testing.T, text string) {
		l, err := parseList(text)
		if err != nil {
			return
		}
		for name := range l {
			if !writable(name) {
				t.Errorf("%q may not be deleted", name)
			}
		}
		again, err := parseList(l.String())
		if err != nil || !maps.Equal(again, l) {
			t.Errorf("%v came back as %v: %v", l, again, err)
		}
	})
}

func TestReservedPaths(t *testing.T) {
	for _, name := range []string{".plait", ".PLAIT", ".plait-part/1", ".gitignore", ".git/config"} {
		home, public := newCourse(t)
		tree := artifact.New()
		if err := tree.Add(artifact.File{Path: name}); err != nil {
			t.Fatal(err)
		}
		if _, err := Write(tree, nil, public, Options{Course: home}); err == nil {
			t.Errorf("%s was written", name)
		}
	}
}

// A link in the output folder leads no write out of it.
func TestLinksInTheOutputFolder(t *testing.T) {
	home, public := newCourse(t)
	put(t, home, map[string]string{"lessons/1.html": "an author's file"})
	expectWrite(t, 2, home, public, Report{Written: 11})

	// In place of a file: the link is replaced, what it leads to is not.
	if err := os.Remove(filepath.Join(public, "lessons/1.html")); err != nil {
		t.Fatal(err)
	}
	symlink(t, "../../lessons/1.html", filepath.Join(public, "lessons/1.html"))
	expectWrite(t, 2, home, public, Report{Written: 1, Unchanged: 10})

	// In place of a folder: nothing is written.
	if err := os.RemoveAll(filepath.Join(public, "lessons")); err != nil {
		t.Fatal(err)
	}
	symlink(t, "../lessons", filepath.Join(public, "lessons"))
	if _, err := Write(site(t, 2, 8), course(2), public, Options{Course: home}); err == nil {
		t.Error("written through a link")
	}
	if data, _ := os.ReadFile(filepath.Join(home, "lessons/1.html")); string(data) != "an author's file" {
		t.Errorf("the author's file is now %q", data)
	}
}

// A name that comes back in other letters is one file on some disks and two on
// others; the new one is there at the end on both.
func TestNamesThatDifferInCase(t *testing.T) {
	home, public := newCourse(t)
	for _, name := range []string{"Lessons/Gloss.html", "lessons/gloss.html", "lessons/Gloss.html"} {
		tree := artifact.New()
		if err := tree.Add(page(name)); err != nil {
			t.Fatal(err)
		}
		if _, err := Write(tree, nil, public, Options{Course: home}); err != nil {
			t.Fatal(err)
		}
		expectExactly(t, public, tree, nil)
	}
}

func TestTwoWritesAtOnce(t *testing.T) {
	home, public := newCourse(t)
	release, err := lock(public)
	if err != nil {
		t.Fatal(err)
	}
	_, err = Write(site(t, 2, 8), course(2), public, Options{Course: home})
	if !errors.Is(err, ErrBusy) || !strings.Contains(err.Error(), public) {
		t.Errorf("got %v", err)
	}
	release()
	expectWrite(t, 2, home, public, Report{Written: 11})
}

func TestMissingInput(t *testing.T) {
	home, public := newCourse(t)
	inputs := course(2)
	delete(inputs, "lessons/01-gloss/roots.png")
	_, err := Write(site(t, 2, 8), inputs, public, Options{Course: home})
	if !errors.Is(err, fs.ErrNotExist) || !strings.Contains(err.Error(), "lessons/01-gloss/roots.png") {
		t.Errorf("got %v", err)
	}
	expectWrite(t, 2, home, public, Report{Written: 11})
}

// growing is a course whose picture is written to while it is read.
type growing struct{ fstest.MapFS }

func (g growing) Open(name string) (fs.File, error) {
	f, err := g.MapFS.Open(name)
	if picture := g.MapFS[name]; picture != nil {
		g.MapFS[name] = &fstest.MapFile{Data: picture.Data, ModTime: picture.ModTime.Add(time.Second)}
	}
	return f, err
}

// A file that is changed while it is copied is not put into the site.
func TestChangedWhileRead(t *testing.T) {
	home, public := newCourse(t)
	inputs := growing{fstest.MapFS{}}
	for name, f := range course(2) {
		inputs.MapFS[name] = &fstest.MapFile{Data: f.Data}
	}
	_, err := Write(site(t, 2, 8), inputs, public, Options{Course: home, Workers: 1})
	if !errors.Is(err, ErrUnsteady) || !strings.Contains(err.Error(), "build again") {
		t.Errorf("got %v", err)
	}
	expectSound(t, public)
	if _, err := os.Stat(filepath.Join(public, "media", "bowl.png")); err == nil {
		t.Error("it is in the site")
	}
	expectWrite(t, 2, home, public, Report{Written: 10, Unchanged: 1}) // the style sheet came before it
}

func TestFaultsSayWhatToDo(t *testing.T) {
	for err, want := range map[error]string{
		syscall.ENOSPC: "cannot write public/a.html: no space left on device: make room",
		syscall.EACCES: "cannot write public/a.html: permission denied: you may not",
		syscall.EROFS:  "cannot write public/a.html: read-only file system: this disk can only be read",
	} {
		got := failed("write", "public/a.html", &fs.PathError{Op: "openat", Path: ".plait-part/0", Err: err})
		if !strings.HasPrefix(got.Error(), want) || !errors.Is(got, err) {
			t.Errorf("got %v", got)
		}
	}
}
