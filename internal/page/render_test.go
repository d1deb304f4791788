package page

import (
	"bytes"
	"io/fs"
	"os"
	"path"
	"regexp"
	"strings"
	"sync"
	"testing"

	"plait/internal/artifact"
	"plait/internal/check"
	"plait/internal/course"
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/lesson"
	"plait/layouts"
)

// demo reads the course of this repository, once for all tests: a course is never
// changed once made.
func demo(t testing.TB) (fs.FS, *course.Course, *derive.Derived) {
	t.Helper()
	files := os.DirFS("../..")
	demoOnce.Do(func() { demoCourse, demoDerived = readCourse(t, files) })
	if demoCourse == nil {
		t.Fatal("the demo course could not be read")
	}
	return files, demoCourse, demoDerived
}

var (
	demoOnce    sync.Once
	demoCourse  *course.Course
	demoDerived *derive.Derived
)

// readCourse reads a course without an error.
func readCourse(t testing.TB, files fs.FS) (*course.Course, *derive.Derived) {
	t.Helper()
	var found []diag.Diagnostic
	keep := func(list []diag.Diagnostic) { found = append(found, list...) }
	names := func(list []string, err error) []string {
		if err != nil {
			t.Fatal(err)
		}
		return list
	}
	var parts course.Parts
	var faults []diag.Diagnostic
	parts.Settings, faults = course.ReadSettings(files)
	keep(faults)
	parts.Words, faults = course.ReadWords(files)
	keep(faults)
	for _, name := range names(course.RangeFiles(files)) {
		r, faults := course.ReadRange(files, name)
		parts.Ranges = append(parts.Ranges, r)
		keep(faults)
	}
	for _, name := range names(course.PageFiles(files)) {
		p, faults := course.ReadPage(files, name)
		parts.Pages = append(parts.Pages, p)
		keep(faults)
	}
	for _, folder := range names(course.LessonFolders(files)) {
		l, faults := lesson.Read(files, folder)
		parts.Lessons = append(parts.Lessons, l)
		keep(faults)
	}
	c, faults := course.Link(parts)
	keep(faults)
	d, faults := derive.Run(c)
	keep(faults)
	for _, f := range found {
		if f.Severity == diag.Error {
			t.Errorf("%s: %s", f.Span.File().Name(), f.Message)
		}
	}
	return c, d
}

func theme(t testing.TB) *Theme {
	t.Helper()
	theme, err := NewTheme(layouts.FS, nil)
	if err != nil {
		t.Fatal(err)
	}
	return theme
}

// rendered makes all pages of the demo course, once for all tests that only look at
// them.
func rendered(t testing.TB) *artifact.Tree {
	t.Helper()
	treeOnce.Do(func() { demoTree = render(t, 0) })
	if demoTree == nil {
		t.Fatal("the demo course could not be rendered")
	}
	return demoTree
}

var (
	treeOnce sync.Once
	demoTree *artifact.Tree
)

func render(t testing.TB, workers int) *artifact.Tree {
	t.Helper()
	files, c, d := demo(t)
	found, accepted := check.Run(c, d)
	tree, err := Render(c, d, Options{Theme: theme(t), Files: files, Workers: workers, Found: diag.Sorted(found), Accepted: accepted})
	if err != nil {
		t.Fatal(err)
	}
	return tree
}

func TestRenderMakesEveryPage(t *testing.T) {
	_, c, _ := demo(t)
	tree := rendered(t)
	want := []string{"index.html", "words.html", "find.html", "404.html", "rules.html", "order.html", "course.json", "safety.html", "about.html", "handbook.html"}
	for _, m := range c.Modules {
		want = append(want, modulePath(m))
	}
	for _, l := range c.Lessons {
		want = append(want, lessonPath(l))
	}
	for _, name := range want {
		if _, ok := tree.Get(name); !ok {
			t.Errorf("no page %s", name)
		}
	}
}

func TestRenderGivesTheSameBytes(t *testing.T) {
	a, b := render(t, 1).Files(), render(t, 8).Files()
	if len(a) != len(b) {
		t.Fatalf("%d files, then %d", len(a), len(b))
	}
	for i := range a {
		if a[i].Path != b[i].Path || a[i].Input != b[i].Input || !bytes.Equal(a[i].Data, b[i].Data) {
			t.Errorf("%s differs with the number of workers", a[i].Path)
		}
	}
}

// Every link of every page leads to a file of the tree and to an id that is there.
func TestRenderedLinksResolve(t *testing.T) {
	tree := rendered(t)
	address := regexp.MustCompile(`(?:href|src)="([^"]*)"`)
	for _, f := range tree.Files() {
		if f.Stage != artifact.Page {
			continue
		}
		for _, m := range address.FindAllStringSubmatch(string(f.Data), -1) {
			if strings.Contains(m[1], ":") {
				continue
			}
			file, fragment, _ := strings.Cut(m[1], "#")
			target := f
			if file != "" {
				var ok bool
				if target, ok = tree.Get(path.Join(path.Dir(f.Path), file)); !ok {
					t.Errorf("%s links to %s, which is not there", f.Path, m[1])
					continue
				}
			}
			if target.Input != "" && strings.HasPrefix(fragment, "t=") {
				continue // a moment of a film
			}
			if fragment != "" && !bytes.Contains(target.Data, []byte(`id="`+fragment+`"`)) {
				t.Errorf("%s links to %s, which has no such place", f.Path, m[1])
			}
		}
	}
}

// The weights are worked out by hand from the lesson: 30 g of colour in the parts
// 2 and 1, and twice as much developer; 1.8 % × 60 ÷ 90 is 1.2 %.
func TestBrassyGlossPage(t *testing.T) {
	file, _ := rendered(t).Get("lessons/brassy-gloss.html")
	page := strings.ReplaceAll(string(file.Data), "\u00a0", " ")
	for _, want := range []string{
		"<td>20 g</td>", "<td>10 g</td>", "<td>60 g</td>", "<td>90 g</td>", "<b>1.2 %</b>",
		"Allergy alert test", "Local codes and licensed practice rule",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %s", want)
		}
	}
}

// drawingTag finds a drawing within a page: the bar of a bowl, a swatch, a pattern.
var drawingTag = regexp.MustCompile(`(?s)<svg.*?</svg>`)

// talk is what is said in a film, as a list and as captions.
var talk = regexp.MustCompile(`(?s)<ol class="bare lines">.*?</ol>|data:text/vtt[^"]*`)

// A lesson's page without its pictures and drawings, and without what is said in its
// film, stays small enough for a poor line.
func TestLessonPagesAreLight(t *testing.T) {
	const most = 60 << 10
	tree := rendered(t)
	shared := 0
	for _, f := range tree.Files() {
		if strings.HasPrefix(f.Path, "assets/plait-lesson-") {
			shared += len(f.Data)
		}
	}
	for _, f := range tree.Files() {
		if !strings.HasPrefix(f.Path, "lessons/") {
			continue
		}
		if size := len(talk.ReplaceAll(drawingTag.ReplaceAll(f.Data, nil), nil)) + shared; size > most {
			t.Errorf("%s is %d bytes with its style sheet and script, more than %d", f.Path, size, most)
		}
	}
}

func BenchmarkRenderDemo(b *testing.B) {
	files, c, d := demo(b)
	o := Options{Theme: theme(b), Files: files}
	for b.Loop() {
		if _, err := Render(c, d, o); err != nil {
			b.Fatal(err)
		}
	}
}
