package disk

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"syscall"

	"plait/internal/artifact"
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
//  3. Write assets, then new pages, then changed pages. Each is written under
//     another name and renamed, which replaces the old file at once.
//  4. Remove the files that are listed and no longer wanted, and then write the
//     list of what is left.
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
	return newWriter(rooted{root}, inputs, dir, opts.Workers).write(tree)
}

// writer writes to one folder.
type writer struct {
	out     files
	inputs  fs.FS
	dir     string // as messages show it
	workers int
	scratch []buffers // one for each worker
}

func newWriter(out files, inputs fs.FS, dir string, workers int) *writer {
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	return &writer{out: out, inputs: inputs, dir: dir, workers: workers, scratch: make([]buffers, workers)}
}

// name is the path of an output file as messages show it.
func (w *writer) name(file string) string {
	return filepath.Join(w.dir, filepath.FromSlash(file))
}

func (w *writer) write(tree *artifact.Tree) (Report, error) {
	listed, err := owned(w.out, w.dir)
	if err != nil {
		return Report{}, err
	}
	if err := w.sweep(); err != nil {
		return Report{}, err
	}
	p, err := w.makePlan(tree, listed)
	if err != nil {
		return Report{}, err
	}
	if p.idle() {
		return Report{Unchanged: len(p.files)}, nil
	}
	report, err := w.carryOut(p)
	// After a failure the sweep is a courtesy; the next Write begins with one.
	return report, errors.Join(err, w.sweep())
}

func (w *writer) carryOut(p *plan) (Report, error) {
	var report Report
	if err := w.makeFolder(scratchFolder); err != nil {
		return report, err
	}
	union := p.union()
	if err := w.writeList(p.before, union); err != nil {
		return report, err
	}
	n, err := w.remove(p.inWay)
	if err != nil {
		return report, err
	}
	report.Removed += n
	for _, files := range p.rounds() {
		if err := w.putAll(files); err != nil {
			return report, err
		}
		report.Written += len(files)
	}
	report.Unchanged = len(p.files) - report.Written
	n, err = w.remove(p.stale)
	if err != nil {
		return report, err
	}
	report.Removed += n
	return report, w.writeList(union, p.after)
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

func (w *writer) writeList(old, list []string) error {
	if slices.Equal(old, list) {
		return nil
	}
	scratch := path.Join(scratchFolder, "list")
	f, err := w.out.Create(scratch)
	if err != nil {
		return failed("write", w.name(listFile), err)
	}
	_, err = f.Write(formatList(list))
	if err == nil {
		err = f.Sync()
	}
	if err := w.finish(f, err, scratch, listFile); err != nil {
		return failed("write", w.name(listFile), err)
	}
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
	return each(w.workers, len(files), func(worker, i int) error {
		return w.put(files[i], worker)
	})
}

// put writes one file. A worker writes one file at a time, so its number is a
// name that no other worker uses.
func (w *writer) put(f artifact.File, worker int) error {
	source, _, err := w.source(f)
	if err != nil {
		return err
	}
	defer source.Close()
	scratch := path.Join(scratchFolder, strconv.Itoa(worker))
	to, err := w.out.Create(scratch)
	if err != nil {
		return failed("write", w.name(f.Path), err)
	}
	_, err = io.CopyBuffer(justWriter{to}, justReader{source}, w.scratch[worker][0][:])
	if err := w.finish(to, err, scratch, f.Path); err != nil {
		return failed("write", w.name(f.Path), err)
	}
	return nil
}

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

// remove takes away listed files and the folders that are empty without them. It
// counts the files that were there.
func (w *writer) remove(list []string) (removed int, err error) {
	folders := map[string]bool{}
	for _, name := range list {
		err := w.out.Remove(name)
		if err == nil {
			removed++
		} else if !gone(err) {
			return removed, failed("remove", w.name(name), err)
		}
		for dir := path.Dir(name); dir != "."; dir = path.Dir(dir) {
			folders[dir] = true
		}
	}
	for _, dir := range innermostFirst(folders) {
		if err := w.removeFolder(dir); err != nil && !gone(err) {
			return removed, failed("remove", w.name(dir), err)
		}
	}
	return removed, nil
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
	list := make([]string, 0, len(folders))
	for dir := range folders {
		list = append(list, dir)
	}
	slices.Sort(list)
	slices.Reverse(list)
	return list
}
