package disk

import (
	"errors"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"strings"
	"sync/atomic"
	"syscall"
	"testing"
)

// mode says what happens after the operation that fails.
type mode int

const (
	once mode = iota // later operations work again
	full             // nothing can be written or made any more
	dead             // nothing works any more, as after a kill
)

// faulty is a folder, and the inputs, of which the n-th operation fails.
type faulty struct {
	files
	inputs fs.FS
	mode   mode
	left   *atomic.Int64 // operations until the one that fails
	hit    *atomic.Bool
}

var errInjected = &fs.PathError{Op: "test", Path: "x", Err: syscall.ENOSPC}

// fail counts an operation and tells whether it fails. Adding says that it takes
// room on the disk.
func (f faulty) fail(adding bool) error {
	left := f.left.Add(-1)
	if left == 0 || left < 0 && (f.mode == dead || f.mode == full && adding) {
		f.hit.Store(true)
		return errInjected
	}
	return nil
}

func (f faulty) Lstat(name string) (fs.FileInfo, error) {
	if err := f.fail(false); err != nil {
		return nil, err
	}
	return f.files.Lstat(name)
}

func (f faulty) ReadDir(name string) ([]fs.DirEntry, error) {
	if err := f.fail(false); err != nil {
		return nil, err
	}
	return f.files.ReadDir(name)
}

func (f faulty) MkdirAll(name string) error {
	if err := f.fail(true); err != nil {
		return err
	}
	return f.files.MkdirAll(name)
}

func (f faulty) Rename(from, to string) error {
	if err := f.fail(true); err != nil {
		return err
	}
	return f.files.Rename(from, to)
}

func (f faulty) Remove(name string) error {
	if err := f.fail(false); err != nil {
		return err
	}
	return f.files.Remove(name)
}

func (f faulty) Open(name string) (io.ReadCloser, error) {
	if err := f.fail(false); err != nil {
		return nil, err
	}
	r, err := f.files.Open(name)
	return faultyReader{r, f}, err
}

func (f faulty) Create(name string) (file, error) {
	if err := f.fail(true); err != nil {
		return nil, err
	}
	w, err := f.files.Create(name)
	return faultyWriter{w, f}, err
}

type faultyReader struct {
	io.ReadCloser
	f faulty
}

func (r faultyReader) Read(p []byte) (int, error) {
	if err := r.f.fail(false); err != nil {
		return 0, err
	}
	return r.ReadCloser.Read(p)
}

// faultyWriter writes half of what it is given when it fails, as a full disk does.
type faultyWriter struct {
	file
	f faulty
}

func (w faultyWriter) Write(p []byte) (int, error) {
	if err := w.f.fail(true); err != nil {
		n, _ := w.file.Write(p[:len(p)/2])
		return n, err
	}
	return w.file.Write(p)
}

func (w faultyWriter) Sync() error {
	return w.f.fail(true) // thousands of real ones would take minutes
}

func (w faultyWriter) Close() error {
	err := w.f.fail(true)
	return errors.Join(err, w.file.Close())
}

// faultyInputs is the course, read through the same count.
type faultyInputs struct{ f faulty }

func (in faultyInputs) Open(name string) (fs.File, error) {
	if err := in.f.fail(false); err != nil {
		return nil, err
	}
	file, err := in.f.inputs.Open(name)
	return faultyInput{file, in.f}, err
}

type faultyInput struct {
	fs.File
	f faulty
}

func (in faultyInput) Read(p []byte) (int, error) {
	if err := in.f.fail(false); err != nil {
		return 0, err
	}
	return in.File.Read(p)
}

// never is an operation that no Write comes to.
const never = 1 << 40

// writeFaulty writes a generation with its n-th operation failing.
func writeFaulty(t *testing.T, public string, generation, n, workers int, m mode) (hit bool, err error) {
	t.Helper()
	root, err := os.OpenRoot(public)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	f := faulty{files: newRooted(root), inputs: course(generation), mode: m, left: new(atomic.Int64), hit: new(atomic.Bool)}
	f.left.Store(int64(n))
	_, err = newWriter(f, faultyInputs{f}, public, workers).write(site(t, generation, 8))
	return f.hit.Load(), err
}

// writeWell writes a generation without a fault.
func writeWell(t *testing.T, public string, generation int) {
	t.Helper()
	if _, err := writeFaulty(t, public, generation, never, 1, once); err != nil {
		t.Error(err)
	}
}

// Each operation of a Write fails in its turn until none is left to fail. What is
// in the folder after the failure is whole, and the next Write finishes.
func TestEveryOperationFails(t *testing.T) {
	for _, c := range []struct {
		name          string
		before, after int // generations
		workers       int
	}{
		{"first site", -1, 2, 1},
		{"another site", 2, 3, 1},
		{"another style", 3, 4, 3},
	} {
		for m, name := range []string{"one failure", "disk full", "killed"} {
			t.Run(c.name+", "+name, func(t *testing.T) {
				t.Parallel()
				n := 1
				for expectFault(t, c.before, c.after, n, c.workers, mode(m)) {
					n++
				}
				t.Logf("%d operations failed in turn", n-1)
				if n < 60 {
					t.Error("those are too few to be all")
				}
			})
		}
	}
}

// expectFault fails the n-th operation of the way from one generation to another.
// It returns false where the way has no such operation or the test has failed.
func expectFault(t *testing.T, before, after, n, workers int, m mode) bool {
	t.Helper()
	_, public := newCourse(t)
	if before >= 0 {
		writeWell(t, public, before)
	}
	hit, err := writeFaulty(t, public, after, n, workers, m)
	switch {
	case !hit && err != nil:
		t.Errorf("failed without a fault: %v", err)
	case !hit:
		return false
	case err == nil:
		t.Errorf("operation %d failed and nobody said so", n)
	case !errors.Is(err, syscall.ENOSPC) || !strings.Contains(err.Error(), "make room on the disk"):
		t.Errorf("operation %d: no way out in %q", n, err)
	}
	expectSound(t, public)
	writeWell(t, public, after)
	expectExactly(t, public, site(t, after, 8), course(after))
	return !t.Failed()
}

// After a failure the next build may be of another course: a third site follows
// as well, and nothing of the second stays.
func TestAnotherSiteAfterAFailure(t *testing.T) {
	for n := 1; ; n += 3 {
		_, public := newCourse(t)
		writeWell(t, public, 2)
		if hit, _ := writeFaulty(t, public, 3, n, 1, dead); !hit {
			return
		}
		writeWell(t, public, 4)
		expectExactly(t, public, site(t, 4, 8), course(4))
	}
}

// Builds of many courses are killed one after the other, none of them coming to
// its end. At no moment does a reader meet a link that leads nowhere.
func TestManyFailuresInARow(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for range 60 {
		_, public := newCourse(t)
		generation := 0
		for range 15 {
			generation += random.IntN(6)
			n := 1 + random.IntN(120)
			if _, err := writeFaulty(t, public, generation, n, 1, dead); err == nil {
				expectExactly(t, public, site(t, generation, 8), course(generation))
			}
			expectSound(t, public)
			if t.Failed() {
				t.Fatalf("generation %d stopped at operation %d", generation, n)
			}
		}
		writeWell(t, public, 2)
		expectExactly(t, public, site(t, 2, 8), course(2))
	}
}
