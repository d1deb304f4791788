package build

import (
	"bytes"
	"context"
	"io/fs"
	"path"
	"strings"
	"sync/atomic"
	"testing"
	"testing/fstest"

	"plait/internal/corpus"
	"plait/internal/diag"
	"plait/internal/page"
	"plait/layouts"
)

// counted is a course that counts the readings of lessons.
type counted struct {
	fstest.MapFS
	lessons atomic.Int64 // several are read at a time
}

func (c *counted) Open(name string) (fs.File, error) {
	if path.Base(name) == "lesson.md" {
		c.lessons.Add(1)
	}
	return c.MapFS.Open(name)
}

// A build that keeps what has not changed gives what a build from nothing gives, and
// reads the lessons again that hang on what has changed, and no others.
func TestKeptBuildIsExact(t *testing.T) {
	course := corpus.Course(6, 1)
	const first, second = "lessons/0001-lesson-1", "lessons/0002-lesson-2"
	edit := func(name, old, with string) func() {
		return func() {
			data := course[name].Data
			if !bytes.Contains(data, []byte(old)) {
				t.Fatalf("%s does not hold %q", name, old)
			}
			course[name] = &fstest.MapFile{Data: bytes.Replace(data, []byte(old), []byte(with), 1)}
		}
	}
	var kept Kept
	var pages page.Kept
	for _, step := range []struct {
		what    string
		do      func()
		changed []string
		read    int
	}{
		{"everything is new", func() {}, nil, 6},
		{"nothing has changed", func() {}, nil, 0},
		{"a title", edit(first+"/lesson.md", "Synthetic lesson 1", "Another"), []string{first + "/lesson.md"}, 1},
		{"a bowl that is wrong", edit(second+"/lesson.md", "6 vol (1.8 %)", "6 vol (3 %)"), []string{second + "/lesson.md"}, 1},
		{"the bowl is right again", edit(second+"/lesson.md", "6 vol (3 %)", "6 vol (1.8 %)"), []string{second + "/lesson.md"}, 1},
		{"a picture", edit(first+"/left.svg", "0 0 40 40", "0 0 80 40"), []string{first + "/left.svg"}, 1},
		{"a picture of another folder", edit(first+"/lesson.md", "](left.svg)", "](../0002-lesson-2/left.svg)"), []string{first + "/lesson.md"}, 1},
		{"its folder has lost it", func() { delete(course, second+"/left.svg") }, []string{second + "/left.svg"}, 2},
		{"and has it again", func() { course[second+"/left.svg"] = course[first+"/left.svg"] }, []string{second}, 2},
		{"the course is called otherwise", edit("content/course.yaml", "A synthetic course", "A course"), []string{"content/course.yaml"}, 0},
		{"a tone has another name", edit("content/ranges/meadow.yaml", "V: {name: violet", "V: {name: mauve"), []string{"content/ranges/meadow.yaml"}, 0},
		{"the maker allows less", edit("content/ranges/meadow.yaml", "demi: {ratio: \"1:2\", time: 10-20 min", "demi: {ratio: \"1:2\", time: 5-10 min"), []string{"content/ranges/meadow.yaml"}, 0},
		{"and more again", edit("content/ranges/meadow.yaml", "time: 5-10 min", "time: 10-20 min"), []string{"content/ranges/meadow.yaml"}, 0},
		{"the scale is coarser", edit("content/course.yaml", "scale: 0.1 g", "scale: 1 g"), []string{"content/course.yaml"}, 0},
		{"the house is stricter", func() {
			f := course["content/course.yaml"]
			course["content/course.yaml"] = &fstest.MapFile{Data: append(bytes.Clone(f.Data), "house: {strongest: 1 %}\n"...)}
		}, []string{"content/course.yaml"}, 0},
		{"and as before", edit("content/course.yaml", "house: {strongest: 1 %}\n", ""), []string{"content/course.yaml"}, 0},
		{"a module has another title", edit("content/course.yaml", "Module 1", "A module"), []string{"content/course.yaml"}, 0},
		{"there are words", func() {
			course["content/words.yaml"] = &fstest.MapFile{Data: []byte("- {term: gloss, meaning: A coat.}\n")}
		}, []string{"content/words.yaml"}, 0},
		{"and others", edit("content/words.yaml", "A coat", "A coat of colour"), []string{"content/words.yaml"}, 0},
		{"there is a paper", func() {
			course["content/papers/first.yaml"] = &fstest.MapFile{Data: []byte("title: First\ntime: 10 min\npass: 50 %\ndraw: [{questions: 1, module: all}]\n")}
		}, []string{"content/papers"}, 0},
		{"and none", func() { delete(course, "content/papers/first.yaml") }, []string{"content/papers/first.yaml"}, 0},
		{"a lesson is not ready", edit(second+"/lesson.md", "kit: ", "ready: no\nkit: "), []string{second + "/lesson.md"}, 1},
		{"and is", edit(second+"/lesson.md", "ready: no\n", ""), []string{second + "/lesson.md"}, 1},
		{"a folder has another name", func() {
			for name, f := range course {
				if rest, ok := strings.CutPrefix(name, second+"/"); ok {
					course["lessons/0009-lesson-2/"+rest] = f
					delete(course, name)
				}
			}
		}, []string{second, "lessons/0009-lesson-2"}, 2},
		{"and its own again", func() {
			for name, f := range course {
				if rest, ok := strings.CutPrefix(name, "lessons/0009-lesson-2/"); ok {
					course[second+"/"+rest] = f
					delete(course, name)
				}
			}
		}, []string{second, "lessons/0009-lesson-2"}, 2},
		{"a heading is added", func() {
			f := course[second+"/lesson.md"]
			course[second+"/lesson.md"] = &fstest.MapFile{Data: append(bytes.Clone(f.Data), "\n## Last look\n\nTurn the head.\n"...)}
		}, []string{second + "/lesson.md"}, 1},
		{"a link to it", edit(first+"/lesson.md", "](../0002-lesson-2/lesson.md)", "](../0002-lesson-2/lesson.md#last-look)"), []string{first + "/lesson.md"}, 1},
		{"it is called otherwise", edit(second+"/lesson.md", "## Last look", "## A last look"), []string{second + "/lesson.md"}, 1},
		{"another edit meanwhile", edit(second+"/lesson.md", "Turn the head.", "Turn the chair."), []string{second + "/lesson.md"}, 1},
		{"and as it was", edit(second+"/lesson.md", "## A last look", "## Last look"), []string{second + "/lesson.md"}, 1},
		{"a formula of a range that is not there", edit(first+"/lesson.md", "kind: demi\n", "kind: demi\nrange: orchard\n"), []string{first + "/lesson.md"}, 1},
		{"which comes", func() {
			course["content/ranges/orchard.yaml"] = course["content/ranges/meadow.yaml"]
		}, []string{"content/ranges"}, 0},
		{"and goes", func() { delete(course, "content/ranges/orchard.yaml") }, []string{"content/ranges/orchard.yaml"}, 0},
		{"and is not asked for", edit(first+"/lesson.md", "range: orchard\n", ""), []string{first + "/lesson.md"}, 1},
		{"a lesson is gone", func() {
			for name := range course {
				if strings.HasPrefix(name, "lessons/0006-lesson-6/") {
					delete(course, name)
				}
			}
		}, []string{"lessons/0006-lesson-6"}, 0},
		{"a lesson by way of a link", func() {
			course["elsewhere.svg"] = course[first+"/left.svg"]
			course[first+"/back.svg"] = &fstest.MapFile{Data: []byte("../../elsewhere.svg"), Mode: fs.ModeSymlink}
		}, []string{first + "/back.svg"}, 1},
		{"what the link leads to", edit("elsewhere.svg", "0 0 80 40", "0 0 20 40"), []string{"elsewhere.svg"}, 1},
	} {
		step.do()
		kept.Forget(step.changed)
		pages.Forget(step.changed)
		files := &counted{MapFS: course}
		got := outcome(t, Options{Files: files, Layouts: layouts.FS, Lazy: true, Kept: &kept, Pages: &pages})
		if want := outcome(t, Options{Files: course, Layouts: layouts.FS}); got != want {
			t.Errorf("%s: the build differs from one that begins with nothing", step.what)
		}
		if got := int(files.lessons.Load()); got != step.read {
			t.Errorf("%s: %d lessons were read, want %d", step.what, got, step.read)
		}
	}
}

// outcome is all that comes of a build, as text.
func outcome(t *testing.T, o Options) string {
	t.Helper()
	result, err := Read(context.Background(), o)
	if err != nil {
		t.Fatal(err)
	}
	var all strings.Builder
	_ = diag.WriteText(&all, result.Diagnostics, diag.TextOptions{})
	if diag.HasErrors(result.Diagnostics) {
		return all.String()
	}
	tree, err := result.Pages()
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range tree.Files() {
		data, err := f.Bytes()
		if err != nil {
			t.Fatal(err)
		}
		all.WriteString(f.Path + " " + f.Input + "\n" + string(data))
	}
	return all.String()
}
