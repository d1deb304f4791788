package watch

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/fsnotify/fsnotify"
)

// course is a watched folder with two lessons in it.
type course struct {
	t       testing.TB
	dir     string
	batches chan []string
	result  chan error
	stop    context.CancelFunc
	w       *Watcher
}

func watched(t testing.TB, ignore func(string) bool) *course {
	t.Helper()
	c := &course{t: t, dir: filepath.Join(t.TempDir(), "course"), batches: make(chan []string), result: make(chan error, 1)}
	c.write("lessons/01-gloss/lesson.md", "gloss")
	c.write("lessons/02-roots/lesson.md", "roots")
	c.write("content/course.yaml", "title: x")
	w, err := New(c.dir, ignore)
	if err != nil {
		t.Fatal(err)
	}
	c.w = w
	ctx, stop := context.WithCancel(context.Background())
	c.stop = stop
	t.Cleanup(stop)
	go func() { c.result <- w.Run(ctx, c.batches) }()
	return c
}

func (c *course) path(name string) string { return filepath.Join(c.dir, filepath.FromSlash(name)) }

// must takes the errors of what a test does to the folder.
func (c *course) must(errs ...error) {
	c.t.Helper()
	if err := errors.Join(errs...); err != nil {
		c.t.Fatal(err)
	}
}

func (c *course) write(name, text string) {
	c.t.Helper()
	c.must(
		os.MkdirAll(filepath.Dir(c.path(name)), 0o777),
		os.WriteFile(c.path(name), []byte(text), 0o666),
	)
}

func (c *course) rename(from, to string) {
	c.t.Helper()
	c.must(os.Rename(c.path(from), c.path(to)))
}

// expect waits for batches that hold these paths, between them, and no others.
func (c *course) expect(paths ...string) {
	c.t.Helper()
	slices.Sort(paths)
	got := map[string]bool{}
	late := time.After(5 * time.Second)
	for {
		if have := slices.Sorted(maps.Keys(got)); slices.Equal(have, paths) {
			return
		}
		select {
		case batch := <-c.batches:
			if !slices.IsSorted(batch) {
				c.t.Errorf("the batch %q is not sorted", batch)
			}
			for _, name := range batch {
				got[name] = true
			}
		case err := <-c.result:
			c.t.Fatalf("ended with %v", err)
		case <-late:
			c.t.Fatalf("got %q, want %q", slices.Sorted(maps.Keys(got)), paths)
		}
	}
}

// expectQuiet waits long enough for a batch and gets none.
func (c *course) expectQuiet() {
	c.t.Helper()
	select {
	case batch := <-c.batches:
		c.t.Errorf("got %q for nothing", batch)
	case err := <-c.result:
		c.t.Errorf("ended with %v", err)
	case <-time.After(patience + 3*quiet):
	}
}

// drain takes batches until none comes any more.
func (c *course) drain() map[string]bool {
	got := map[string]bool{}
	for {
		select {
		case batch := <-c.batches:
			for _, name := range batch {
				got[name] = true
			}
		case <-time.After(patience + 3*quiet):
			return got
		}
	}
}

const (
	gloss   = "lessons/01-gloss/lesson.md"
	passing = "lessons/01-gloss/.tmp123"
)

// The ways in which editors save, as seen in the events of real ones: from memory.
func TestSaves(t *testing.T) {
	for name, save := range map[string]func(c *course){
		"over the old file": func(c *course) { c.write(gloss, "plain") },
		"by renaming": func(c *course) {
			c.write(passing, "renamed")
			c.rename(passing, gloss)
		},
		"with a backup": func(c *course) {
			c.write("lessons/01-gloss/4913", "")
			c.must(os.Remove(c.path("lessons/01-gloss/4913")))
			c.rename(gloss, gloss+"~")
			c.write(gloss, "with backup")
		},
		"with a swap file": func(c *course) {
			c.write("lessons/01-gloss/.lesson.md.swp", "x")
			c.write("lessons/01-gloss/.#lesson.md", "x")
			c.write("lessons/01-gloss/#lesson.md#", "x")
			c.write(gloss, "with swap file")
		},
		"in pieces": func(c *course) {
			f, err := os.Create(c.path(gloss))
			c.must(err)
			for range 5 {
				_, err := f.WriteString("piece")
				c.must(err)
				time.Sleep(2 * time.Millisecond)
			}
			c.must(f.Close())
		},
	} {
		t.Run(name, func(t *testing.T) {
			c := watched(t, nil)
			save(c)
			got := c.drain()
			delete(got, passing) // on a busy machine it may have been seen
			if !maps.Equal(got, map[string]bool{gloss: true}) {
				t.Errorf("got %q", slices.Sorted(maps.Keys(got)))
			}
		})
	}
}

// A file that is empty or was moved away is waited for a little.
func TestHalfSaved(t *testing.T) {
	c := watched(t, nil)
	c.stop()
	if err := <-c.result; err != nil {
		t.Fatal(err)
	}
	expect := func(want bool, name string) {
		t.Helper()
		c.w.dirty = map[string]bool{name: true}
		if got := c.w.halfSaved(); got != want {
			t.Errorf("%s is half saved: %v", name, got)
		}
	}
	expect(false, gloss)
	c.write(gloss, "")
	expect(true, gloss)
	c.write(gloss, "filled")
	expect(false, gloss)
	c.rename(gloss, gloss+"~")
	expect(true, gloss)
	c.write("lessons/01-gloss/new.md", "")
	expect(true, "lessons/01-gloss/new.md")
	c.write("lessons/01-gloss/new.md", "new")
	expect(false, "lessons/01-gloss/new.md")
	expect(false, "lessons/01-gloss/passing.md")
	expect(false, "lessons")
}

// A file that was gone for a moment is told of, though it is there again as it was: who is told
// may have looked in between.
func TestBackAsItWas(t *testing.T) {
	c := watched(t, nil)
	text, err := os.ReadFile(c.path(gloss))
	c.must(err, os.Remove(c.path(gloss)))
	c.write(gloss, string(text))
	c.expect(gloss)
}

func TestNothingChanged(t *testing.T) {
	c := watched(t, func(name string) bool { return name == "public" })
	c.write(".git/new", "gloss") // the same bytes
	c.rename(".git/new", gloss)
	now := time.Now()
	c.must(os.Chtimes(c.path(gloss), now, now))
	c.must(os.Chmod(c.path(gloss), 0o600))
	c.write("public/lessons/gloss.html", "an output")
	c.write(".git/index", "x")
	c.expectQuiet()
}

// Two saves within the step of a coarse clock leave the same time and size.
func TestSameStamp(t *testing.T) {
	c := watched(t, nil)
	info, err := os.Stat(c.path(gloss))
	c.must(err)
	c.write(gloss, "glass")
	c.must(os.Chtimes(c.path(gloss), info.ModTime(), info.ModTime()))
	c.expect(gloss)
}

func TestPathsComeAndGo(t *testing.T) {
	c := watched(t, nil)
	c.write("lessons/03-new/deep/er/plan.head.yaml", "a")
	c.expect("lessons/03-new", "lessons/03-new/deep", "lessons/03-new/deep/er", "lessons/03-new/deep/er/plan.head.yaml")
	c.write("lessons/03-new/deep/er/plan.head.yaml", "b")
	c.expect("lessons/03-new/deep/er/plan.head.yaml")
	c.must(os.RemoveAll(c.path("lessons/03-new")))
	c.expect("lessons/03-new", "lessons/03-new/deep", "lessons/03-new/deep/er", "lessons/03-new/deep/er/plan.head.yaml")
	c.must(os.Remove(c.path(gloss)), os.Mkdir(c.path(gloss), 0o777))
	c.write(gloss+"/inner", "x")
	c.expect(gloss, gloss+"/inner")
	c.must(os.RemoveAll(c.path(gloss)))
	c.write(gloss, "gloss")
	c.expect(gloss, gloss+"/inner")
}

// A folder that moves keeps being watched, under its new name, with all in it.
func TestFoldersMove(t *testing.T) {
	c := watched(t, nil)
	c.write("lessons/01-gloss/media/bowl.svg", "a")
	c.expect("lessons/01-gloss/media", "lessons/01-gloss/media/bowl.svg")

	c.rename("lessons/01-gloss", "lessons/09-gloss")
	c.write("lessons/09-gloss/lesson.md", "written at once")
	c.expect("lessons/01-gloss", gloss, "lessons/01-gloss/media", "lessons/01-gloss/media/bowl.svg",
		"lessons/09-gloss", "lessons/09-gloss/lesson.md", "lessons/09-gloss/media", "lessons/09-gloss/media/bowl.svg")
	c.write("lessons/09-gloss/media/bowl.svg", "b")
	c.expect("lessons/09-gloss/media/bowl.svg")

	// Two folders change places.
	c.rename("lessons/09-gloss", "lessons/x")
	c.rename("lessons/02-roots", "lessons/09-gloss")
	c.rename("lessons/x", "lessons/02-roots")
	c.expect("lessons/02-roots/lesson.md", "lessons/02-roots/media", "lessons/02-roots/media/bowl.svg",
		"lessons/09-gloss/lesson.md", "lessons/09-gloss/media", "lessons/09-gloss/media/bowl.svg")
	c.write("lessons/02-roots/media/bowl.svg", "c")
	c.expect("lessons/02-roots/media/bowl.svg")
	c.write("lessons/09-gloss/lesson.md", "c")
	c.expect("lessons/09-gloss/lesson.md")
}

func TestLargeFiles(t *testing.T) {
	c := watched(t, nil)
	for _, size := range []int{sumLimit, sumLimit + 1} {
		name := fmt.Sprintf("lessons/01-gloss/%d.png", size)
		c.write(name, strings.Repeat("x", size))
		c.expect(name)
		c.write(name, strings.Repeat("x", size))
		if size <= sumLimit {
			c.expectQuiet()
		} else {
			c.expect(name)
		}
		c.write(name, strings.Repeat("y", size))
		c.expect(name)
	}
}

func TestLinksAreNotFollowed(t *testing.T) {
	c := watched(t, nil)
	if err := os.Symlink("..", c.path("lessons/up")); err != nil {
		t.Skipf("no symbolic links here: %v", err)
	}
	c.expect("lessons/up")
	c.must(os.Remove(c.path("lessons/up")), os.Symlink("01-gloss", c.path("lessons/up")))
	c.expect("lessons/up")
	c.write(gloss, "x")
	c.expect(gloss)
}

// Events that the system dropped are made up for by reading everything again. The
// watches that are taken off stand for the lost events.
func TestOverflow(t *testing.T) {
	c := watched(t, nil)
	c.must(c.w.notify.Remove(c.w.path("lessons/01-gloss")), c.w.notify.Remove(c.w.path("lessons")))
	c.write(gloss, "unseen")
	c.write("lessons/03-new/lesson.md", "unseen")
	c.must(os.RemoveAll(c.path("content")))
	c.expect("content", "content/course.yaml")
	c.w.notify.Errors <- fsnotify.ErrEventOverflow
	c.expect(gloss, "lessons/03-new", "lessons/03-new/lesson.md")
	c.write(gloss, "seen again")
	c.expect(gloss)
}

func TestChangesGatherWhileTheReceiverIsBusy(t *testing.T) {
	c := watched(t, nil)
	for i := range 5 {
		c.write(fmt.Sprintf("lessons/01-gloss/%d.md", i), "x")
		time.Sleep(3 * quiet)
	}
	time.Sleep(patience)
	got := <-c.batches
	if len(got) != 5 {
		t.Errorf("got %q", got)
	}
	c.expectQuiet()
}

// A stream of changes that never pauses is passed on all the same.
func TestNoPause(t *testing.T) {
	c := watched(t, nil)
	done := make(chan bool)
	go func() {
		defer close(done)
		for i := range 200 {
			c.write(gloss, fmt.Sprint(i))
			time.Sleep(quiet / 5)
		}
	}()
	select {
	case <-c.batches:
	case <-done:
		t.Error("nothing came before the changes stopped")
	}
	go func() {
		for range c.batches {
		}
	}()
	<-done
}

// A version store changes thousands of files at once.
func TestStorm(t *testing.T) {
	const folders, files = 100, 50
	c := watched(t, nil)
	want := map[string]bool{}
	go func() {
		for i := range folders {
			for j := range files {
				c.write(fmt.Sprintf("lessons/storm/%d/%d.md", i, j), "x")
			}
		}
	}()
	for i := range folders {
		want[fmt.Sprintf("lessons/storm/%d", i)] = true
		for j := range files {
			want[fmt.Sprintf("lessons/storm/%d/%d.md", i, j)] = true
		}
	}
	want["lessons/storm"] = true
	c.expect(slices.Collect(maps.Keys(want))...)
}

func TestFolderGone(t *testing.T) {
	c := watched(t, nil)
	c.must(os.RemoveAll(c.dir))
	if err := <-c.result; !errors.Is(err, ErrGone) || !strings.Contains(err.Error(), c.w.dir) {
		t.Errorf("ended with %v", err)
	}

	c = watched(t, nil)
	c.must(os.Rename(c.dir, c.dir+"-moved"))
	if err := <-c.result; !errors.Is(err, ErrGone) {
		t.Errorf("ended with %v", err)
	}
}

// A folder that is put back at once, as by a version store, is still watched.
func TestFolderReplaced(t *testing.T) {
	c := watched(t, nil)
	c.write("../next/"+gloss, "other")
	c.must(os.Rename(c.dir, c.dir+"-old"), os.Rename(filepath.Join(c.dir, "../next"), c.dir))
	c.expect(gloss, "content", "content/course.yaml", "lessons/02-roots", "lessons/02-roots/lesson.md")
	c.write(gloss, "again")
	c.expect(gloss)
}

// The system does not tell of a folder that is removed while somebody has it open.
func TestFolderGoneWhileOpen(t *testing.T) {
	c := watched(t, nil)
	held, err := os.Open(c.dir)
	c.must(err)
	defer held.Close()
	go c.drain()
	c.must(os.RemoveAll(c.dir))
	if err := <-c.result; !errors.Is(err, ErrGone) {
		t.Errorf("ended with %v", err)
	}

	c = watched(t, nil)
	held, err = os.Open(c.dir)
	c.must(err)
	defer held.Close()
	c.must(os.RemoveAll(c.dir))
	c.write(gloss, "other")
	c.expect(gloss, "content", "content/course.yaml", "lessons/02-roots", "lessons/02-roots/lesson.md")
	c.write(gloss, "again")
	c.expect(gloss)
}

func TestNothingIsLeftRunning(t *testing.T) {
	before := runtime.NumGoroutine()
	for range 20 {
		c := watched(t, nil)
		c.write(gloss, "a change that nobody takes")
		time.Sleep(quiet)
		c.stop()
		if err := <-c.result; err != nil {
			t.Error(err)
		}
	}
	for range 100 {
		if runtime.NumGoroutine() <= before {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Errorf("%d goroutines before, %d after", before, runtime.NumGoroutine())
}

func TestNewSaysWhatIsWrong(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "file")
	if err := os.WriteFile(file, nil, 0o666); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{filepath.Join(dir, "nowhere"), file} {
		if _, err := New(name, nil); err == nil || !strings.Contains(err.Error(), "cannot watch "+name) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// BenchmarkSave measures from a save to the batch, the quiet time included.
func BenchmarkSave(b *testing.B) {
	c := watched(b, nil)
	i := 0
	for b.Loop() {
		i++
		c.write(gloss, fmt.Sprint(i))
		<-c.batches
	}
}

// BenchmarkNew follows a course of 1,000 lessons.
func BenchmarkNew(b *testing.B) {
	c := watched(b, nil)
	c.stop()
	for i := range 1000 {
		c.write(fmt.Sprintf("lessons/%d/lesson.md", i), strings.Repeat("x", 8<<10))
	}
	for b.Loop() {
		w, err := New(c.dir, nil)
		if err != nil {
			b.Fatal(err)
		}
		b.StopTimer()
		w.notify.Close()
		b.StartTimer()
	}
}
