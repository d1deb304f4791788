package build

import (
	"bytes"
	"context"
	"errors"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"plait/internal/artifact"
	"plait/internal/corpus"
	"plait/internal/diag"
	"plait/layouts"
)

// demo is the course of this repository.
func demo() fs.FS { return os.DirFS(filepath.Join("..", "..")) }

// pages builds a course in memory and expects it to have no errors.
func pages(t testing.TB, files fs.FS, workers int) *artifact.Tree {
	t.Helper()
	result, err := Read(context.Background(), Options{Files: files, Layouts: layouts.FS, Workers: workers})
	if err != nil {
		t.Fatal(err)
	}
	if diag.HasErrors(result.Diagnostics) {
		var b strings.Builder
		_ = diag.WriteText(&b, result.Diagnostics, diag.TextOptions{})
		t.Fatal(b.String())
	}
	tree, err := result.Pages()
	if err != nil {
		t.Fatal(err)
	}
	return tree
}

func expectSameTree(t *testing.T, got, want *artifact.Tree) {
	t.Helper()
	a, b := got.Files(), want.Files()
	if len(a) != len(b) {
		t.Fatalf("%d files, want %d", len(a), len(b))
	}
	for i := range a {
		if a[i].Path != b[i].Path || a[i].Stage != b[i].Stage || a[i].Input != b[i].Input || !bytes.Equal(a[i].Data, b[i].Data) {
			t.Errorf("%s differs from %s", a[i].Path, b[i].Path)
		}
	}
}

func TestDemoBuildsTheSameEveryTime(t *testing.T) {
	one := pages(t, demo(), 1)
	if one.Len() < 10 {
		t.Fatalf("only %d files", one.Len())
	}
	expectSameTree(t, pages(t, demo(), 8), one)
	expectSameTree(t, pages(t, demo(), 1), one)
	expectSameTree(t, pages(t, demo(), 8), one)
}

func TestCorpusBuildsTheSameEveryTime(t *testing.T) {
	course := corpus.Course(30, 1)
	one := pages(t, course, 1)
	expectSameTree(t, pages(t, course, 8), one)
	expectSameTree(t, pages(t, corpus.Course(30, 1), 8), one)
}

// Findings come in one order, whatever the number of workers.
func TestDiagnosticsAreInOrder(t *testing.T) {
	course := corpus.Course(40, 1)
	for name, file := range course {
		if strings.HasSuffix(name, ".md") {
			file.Data = bytes.Replace(file.Data, []byte("6 vol"), []byte("20 vol"), 2)
		}
	}
	var first string
	for _, workers := range []int{1, 8, 3} {
		result, err := Read(context.Background(), Options{Files: course, Layouts: layouts.FS, Workers: workers})
		if err != nil {
			t.Fatal(err)
		}
		var b strings.Builder
		_ = diag.WriteText(&b, result.Diagnostics, diag.TextOptions{})
		if first == "" {
			first = b.String()
		}
		if b.String() != first || !diag.HasErrors(result.Diagnostics) {
			t.Errorf("%d workers find something else", workers)
		}
		if _, err := result.Pages(); err != ErrCourse {
			t.Errorf("pages of a course with errors: %v", err)
		}
	}
}

func TestReadStopsWhenItIsTold(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	course := corpus.Course(50, 1)
	_, err := Read(ctx, Options{Files: course, Layouts: layouts.FS, Workers: 2, Progress: func(n, of int) {
		if of != 50 {
			t.Errorf("%d lessons, want 50", of)
		}
		cancel()
	}})
	if err != context.Canceled {
		t.Errorf("got %v", err)
	}
}

// A course's own templates stand in place of plait's.
func TestOwnLayouts(t *testing.T) {
	course := corpus.Course(2, 1)
	settings := course["content/course.yaml"]
	settings.Data = append(settings.Data, "layouts: own\n"...)
	foot, err := fs.ReadFile(layouts.FS, "templates/foot.html")
	if err != nil {
		t.Fatal(err)
	}
	course["own/templates/foot.html"] = &fstest.MapFile{Data: bytes.Replace(foot, []byte("<footer"), []byte("<p>of our own</p><footer"), 1)}
	home, _ := pages(t, course, 1).Get("index.html")
	if !bytes.Contains(home.Data, []byte("<p>of our own</p>")) {
		t.Error("the course's own template is not used")
	}
}

// What was found in a bowl is read on its card, and so is what its lesson lets stand:
// the pages get the findings of the same build.
func TestFindingsReachTheCard(t *testing.T) {
	drifting := func(header string) fstest.MapFS {
		files := corpus.Course(1, 1)
		for name, f := range files {
			if path.Base(name) != "lesson.md" {
				continue
			}
			text := amountLine.ReplaceAllString(string(f.Data), "amount: 0.25 g colour")
			f.Data = []byte(strings.Replace(text, "---\n", "---\n"+header, 1))
		}
		return files
	}
	card := func(files fstest.MapFS) string {
		page, ok := pages(t, files, 1).Get("lessons/lesson-1.html")
		if !ok {
			t.Fatal("the lesson has no page")
		}
		return string(page.Data)
	}
	found := card(drifting(""))
	if !strings.Contains(found, "Look again.") || !strings.Contains(found, "On a scale of 0.1 g this bowl weighs") {
		t.Error("a warning does not reach the card")
	}
	kept := card(drifting("accept: [{rule: formula/drift, because: a strand needs no more}]\n"))
	if strings.Contains(kept, "On a scale of 0.1 g") || !strings.Contains(kept, "A strand needs no more.") {
		t.Error("what the lesson lets stand is not told with its reason")
	}
}

// amountLine is the size of a bowl of the corpus.
var amountLine = regexp.MustCompile(`(?m)^amount: .*$`)

func BenchmarkDemo(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		pages(b, demo(), 0)
	}
}

// A course that is only judged is judged as one that becomes pages, and becomes none.
func TestFacts(t *testing.T) {
	files := corpus.Course(3, 1)
	files["lessons/0002-lesson-2/lesson.md"].Data = append(files["lessons/0002-lesson-2/lesson.md"].Data, "\n[nowhere](gone.md) ![](left.svg) `{mixed of bowl-9}`\n"...)
	for _, files := range []fs.FS{demo(), files} {
		var results [2]*Result
		for i := range results {
			var err error
			if results[i], err = Read(context.Background(), Options{Files: files, Layouts: layouts.FS, Facts: i == 1}); err != nil {
				t.Fatal(err)
			}
		}
		var texts [2]strings.Builder
		for i := range texts {
			_ = diag.WriteText(&texts[i], results[i].Diagnostics, diag.TextOptions{})
		}
		if texts[0].String() != texts[1].String() {
			t.Errorf("with texts:\n%s\nwithout:\n%s", texts[0].String(), texts[1].String())
		}
		if _, err := results[1].Pages(); !errors.Is(err, ErrFacts) {
			t.Errorf("pages of a course without texts: %v", err)
		}
	}
}
