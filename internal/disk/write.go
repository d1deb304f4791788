package disk

import (
	"errors"
	"io"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"syscall"

	"plait/internal/artifact"
	"plait/internal/parallel"
)

// Options say how a tree is written.
type Options struct {
	Course  string   // the course's folder
	Inputs  []string // folders of the course that are read, beside content, lessons and layouts
	Workers int      // files written at once; 0 for one per processor
}

// Report counts the files of a finished Write.
type Report struct {
	Written   int // new or changed
	Unchanged int
	Removed   int
}

// Write brings the folder dir to the state of the tree, making it where it is not
// there. Files that the tree only names are copied from inputs.
//
// It works in this order, which keeps the promises of the package comment:
//
//  1. Refuse a folder that is an input ([ErrInput]), that another program writes
//     to ([ErrBusy]) or that holds files of others ([ErrForeign]). Compare each
//     file with what is there; only files whose bytes differ are touched.
//  2. Write the list of all files that the folder holds or will hold, so that
//     whatever happens next every file in it is known as plait's own. The list is
//     the one file that is forced to the disk, as the one that no build can work
//     out again.
//  3. Write assets and pages that no reader can reach yet. Each file is written
//     under another name and renamed, which replaces the old file at once.
//  4. Note in the list that all pages are live now, and write the home page and
//     the pages that readers may be on: all they link to is there.
//  5. Note in the list that only the pages of the tree are live, remove the files
//     that are no longer wanted, and write the list of what is left.
//
// Without the notes of steps 4 and 5 a page left behind by a killed Write could be
// linked to again before it is written again, while it leads to what is gone. They
// cost nothing where a build neither adds nor removes a page.
//
// A new path that needs the name of an unwanted file for a folder, or the other
// way round, is the one exception: that file goes before step 3.
//
// The result does not depend on the number of workers.
func Write(tree *artifact.Tree, inputs fs.FS, dir string, opts Options) (Report, error) {
	if err := guard(dir, opts.Course, slices.Concat(inputFolders, opts.Inputs)); err != nil {
		return Report{}, err
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return Report{}, failed("make the folder", dir, err)
	}
	release, err := lock(dir)
	if err != nil {
		return Report{}, err
	}
	defer release()
	root, err := os.OpenRoot(dir)
	if err != nil {
		return Report{}, failed("open", dir, err)
	}
	defer root.Close()
	out := newRooted(root)
	defer out.Close()
	return newWriter(out, inputs, dir, opts.Workers).write(tree)
}

// writer writes to one folder.
type writer struct {
	out     files
	inputs  fs.FS
	dir     string // as messages show it
	workers int
	scratch []scratch // one for each worker
	list    list      // as it stands in the folder
	report  Report
}

func newWriter(out files, inputs fs.FS, dir string, workers int) *writer {
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	return &writer{out: out, inputs: inputs, dir: dir, workers: workers, scratch: make([]scratch, workers)}
}

// name is the path of an output file as messages show it.
func (w *writer) name(file string) string {
	return filepath.Join(w.dir, filepath.FromSlash(file))
}

func (w *writer) write(tree *artifact.Tree) (Report, error) {
	before, err := owned(w.out, w.dir)
	if err != nil {
		return Report{}, err
	}
	if err := w.sweep(); err != nil {
		return Report{}, err
	}
	p, err := w.makePlan(tree, before)
	if err != nil {
		return Report{}, err
	}
	if !p.idle() {
		w.list = before
		err = w.carryOut(p)
		// After a failure the sweep is a courtesy; the next Write begins with one.
		err = errors.Join(err, w.sweep())
	}
	w.report.Unchanged = len(p.files) - w.report.Written
	return w.report, err
}

// carryOut does steps 2 to 5.
func (w *writer) carryOut(p *plan) error {
	all := p.paths()
	assets, hidden, front, live := p.rounds()
	for _, step := range []func() error{
		func() error { return w.makeFolder(scratchFolder) },
		func() error { return w.writeList(marked(all, p.before)) },
		func() error { return w.remove(p.inWay) },
		func() error { return w.putAll(assets) },
		func() error { return w.putAll(hidden) },
		func() error { return w.writeList(marked(all, p.before, p.after)) },
		func() error { return w.putAll(front) },
		func() error { return w.putAll(live) },
		func() error { return w.writeList(marked(all, p.after)) },
		func() error { return w.remove(p.stale) },
		func() error { return w.writeList(p.after) },
	} {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// sweep removes the scratch folder and what a killed Write left in it.
func (w *writer) sweep() error {
	entries, err := w.out.ReadDir(scratchFolder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return failed("clear", w.name(scratchFolder), err)
	}
	for _, e := range entries {
		if err := w.out.Remove(path.Join(scratchFolder, e.Name())); err != nil {
			return failed("clear", w.name(scratchFolder), err)
		}
	}
	if err := w.out.Remove(scratchFolder); err != nil {
		return failed("clear", w.name(scratchFolder), err)
	}
	return nil
}

func (w *writer) writeList(l list) error {
	if maps.Equal(l, w.list) {
		return nil
	}
	scratch := path.Join(scratchFolder, "list")
	f, err := w.out.Create(scratch)
	if err != nil {
		return failed("write", w.name(listFile), err)
	}
	_, err = io.WriteString(f, l.String())
	if err == nil {
		err = f.Sync()
	}
	if err := w.finish(f, err, scratch, listFile); err != nil {
		return failed("write", w.name(listFile), err)
	}
	w.list = l
	return nil
}

func (w *writer) makeFolder(name string) error {
	if err := w.out.MkdirAll(name); err != nil {
		return failed("make the folder", w.name(name), err)
	}
	return nil
}

func (w *writer) putAll(files []artifact.File) error {
	made := map[string]bool{".": true}
	for _, f := range files {
		dir := path.Dir(f.Path)
		if made[dir] {
			continue
		}
		if err := w.makeFolder(dir); err != nil {
			return err
		}
		made[dir] = true
	}
	err := parallel.Each(w.workers, len(files), func(worker, i int) error {
		return w.put(files[i], worker)
	})
	if err == nil {
		w.report.Written += len(files)
	}
	return err
}

// put writes one file.
func (w *writer) put(f artifact.File, worker int) error {
	if f.Input != "" {
		return w.putInput(f, worker)
	}
	data, err := w.scratch[worker].bytes(f)
	if err != nil {
		return err
	}
	return w.putAs(f, worker, func(to io.Writer) error {
		_, err := to.Write(data)
		return err
	})
}

// putInput copies one file of the course.
func (w *writer) putInput(f artifact.File, worker int) error {
	before, err := w.look(f)
	if err != nil {
		return err
	}
	source, _, err := w.input(f)
	if err != nil {
		return err
	}
	defer source.Close()
	return w.putAs(f, worker, func(to io.Writer) error {
		_, err := io.CopyBuffer(justWriter{to}, justReader{source}, w.scratch[worker].buffers()[0][:])
		if err == nil {
			err = w.unchanged(f, before)
		}
		return err
	})
}

// putAs writes one file under another name and gives it its own. A worker writes one file
// at a time, so its number is a name that no other worker uses.
func (w *writer) putAs(f artifact.File, worker int, write func(to io.Writer) error) error {
	scratch := path.Join(scratchFolder, strconv.Itoa(worker))
	to, err := w.out.Create(scratch)
	if err != nil {
		return failed("write", w.name(f.Path), err)
	}
	if err := w.finish(to, write(to), scratch, f.Path); err != nil {
		return failed("write", w.name(f.Path), err)
	}
	return nil
}

// look describes an input.
func (w *writer) look(f artifact.File) (fs.FileInfo, error) {
	info, err := fs.Stat(w.inputs, f.Input)
	if err != nil {
		return nil, failed("read", f.Input, err)
	}
	return info, nil
}

// unchanged fails with [ErrUnsteady] where an input is no longer what it was before it was
// copied: the copy may be half of the one and half of the other.
func (w *writer) unchanged(f artifact.File, before fs.FileInfo) error {
	after, err := w.look(f)
	if err != nil {
		return err
	}
	if after.Size() != before.Size() || !after.ModTime().Equal(before.ModTime()) {
		return failed("read", f.Input, ErrUnsteady)
	}
	return nil
}

// ErrUnsteady is returned by [Write] for an input that was changed while it was copied.
var ErrUnsteady = errors.New("it was changed meanwhile: build again when it is whole")

// justWriter and justReader hide other methods of what they hold, so that
// io.CopyBuffer uses the buffer and every write goes through [file].
type (
	justWriter struct{ io.Writer }
	justReader struct{ io.Reader }
)

// finish closes a scratch file that was written with the given outcome and gives
// it its name. A file that did not come to its end is removed, to give back what
// it took of a full disk.
func (w *writer) finish(f file, err error, scratch, name string) error {
	if closing := f.Close(); err == nil {
		err = closing
	}
	if err == nil {
		err = w.out.Rename(scratch, name)
	}
	if err != nil {
		_ = w.out.Remove(scratch) // the next Write sweeps what stays
	}
	return err
}

// remove takes away listed files and the folders that are empty without them.
func (w *writer) remove(paths []string) error {
	folders := map[string]bool{}
	for _, name := range paths {
		err := w.out.Remove(name)
		if err != nil && !gone(err) {
			return failed("remove", w.name(name), err)
		}
		if err == nil {
			w.report.Removed++
		}
		for dir := path.Dir(name); dir != "."; dir = path.Dir(dir) {
			folders[dir] = true
		}
	}
	for _, dir := range innermostFirst(folders) {
		if err := w.removeFolder(dir); err != nil && !gone(err) {
			return failed("remove", w.name(dir), err)
		}
	}
	return nil
}

// removeFolder removes an empty folder. A file that has taken the folder's name
// stays: Remove does not tell the two apart.
func (w *writer) removeFolder(name string) error {
	info, err := w.out.Lstat(name)
	if err != nil || !info.IsDir() {
		return err
	}
	return w.out.Remove(name)
}

// gone reports whether a file could not be removed because it is not there, or
// because what is there by now is a folder with other files in it.
func gone(err error) bool {
	return errors.Is(err, fs.ErrNotExist) || errors.Is(err, fs.ErrExist) || errors.Is(err, syscall.ENOTDIR)
}

func innermostFirst(folders map[string]bool) []string {
	list := slices.Sorted(maps.Keys(folders))
	slices.Reverse(list)
	return list
}
