package disk

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path"
	"slices"
	"strings"
	"syscall"

	"plait/internal/artifact"
	"plait/internal/parallel"
)

// state is how a file of the tree compares with what lies in the folder.
type state uint8

const (
	same state = iota
	missing
	changed
)

// plan is what has to be done to a folder, worked out before anything is done.
type plan struct {
	before list // the list as it was
	after  list // the list as it will be
	files  []artifact.File
	states []state  // of each of files
	inWay  []string // listed files that must go before the tree can be written
	stale  []string // the other listed files that the tree does not have
}

// makePlan compares the tree with the folder. It fails where a file of the tree
// would replace one that plait did not write.
func (w *writer) makePlan(tree *artifact.Tree, before list) (*plan, error) {
	p := &plan{before: before, after: list{}, files: tree.Files()}
	names := newNames(p.files)
	for _, f := range p.files {
		if !writable(f.Path) {
			return nil, fmt.Errorf("the output path %q is kept for plait and git", f.Path)
		}
		p.after[f.Path] = f.Stage == artifact.Page
	}
	alias := map[string]string{}
	for _, name := range before.paths() {
		_, kept := p.after[name]
		switch {
		case kept:
		case names.block(name):
			p.inWay = append(p.inWay, name)
			alias[strings.ToLower(name)] = name
		default:
			p.stale = append(p.stale, name)
		}
	}
	p.states = make([]state, len(p.files))
	err := parallel.Each(w.workers, len(p.files), func(worker, i int) error {
		f := &p.files[i]
		_, ours := before[f.Path]
		s, err := w.compare(f, ours, alias[strings.ToLower(f.Path)], &w.scratch[worker])
		p.states[i] = s
		return err
	})
	return p, err
}

// idle reports whether the folder is already as it should be.
func (p *plan) idle() bool {
	return len(p.inWay)+len(p.stale) == 0 && maps.Equal(p.before, p.after) &&
		!slices.ContainsFunc(p.states, func(s state) bool { return s != same })
}

// paths returns the paths of the lists before and after.
func (p *plan) paths() []string {
	return slices.Concat(p.before.paths(), p.after.paths())
}

// home is the page at which a reader enters the site.
const home = "index.html"

// rounds sorts the files that have to be written: assets, then pages that no
// reader can reach yet, because they are not there or not live, then the home page
// where it is new, and last the pages that readers may be on.
func (p *plan) rounds() (assets, hidden, front, live []artifact.File) {
	for i, f := range p.files {
		switch {
		case p.states[i] == same:
		case f.Stage == artifact.Asset:
			assets = append(assets, f)
		case p.states[i] == missing && f.Path == home:
			front = append(front, f)
		case p.states[i] == missing || !p.before[f.Path]:
			hidden = append(hidden, f)
		default:
			live = append(live, f)
		}
	}
	return assets, hidden, front, live
}

// names are the paths of a tree and of its folders, in lower case: on some disks
// two names that differ only in case are one.
type names struct{ files, folders map[string]bool }

func newNames(files []artifact.File) names {
	n := names{files: map[string]bool{}, folders: map[string]bool{}}
	for _, f := range files {
		name := strings.ToLower(f.Path)
		n.files[name] = true
		for dir := path.Dir(name); dir != "."; dir = path.Dir(dir) {
			n.folders[dir] = true
		}
	}
	return n
}

// block reports whether a stale file must go before the tree can be written.
func (n names) block(stale string) bool {
	name := strings.ToLower(stale)
	if n.folders[name] {
		return true
	}
	for ; name != "."; name = path.Dir(name) {
		if n.files[name] {
			return true
		}
	}
	return false
}

// scratch is memory of one worker: a page that is being made, and two pieces for comparing
// and copying, which most builds have no use for.
type scratch struct {
	page   []byte
	copies *buffers
}

// buffers are two pieces of memory for comparing and copying.
type buffers [2][64 << 10]byte

// mostKept is how much memory is kept from one page to the next, in bytes: only the few
// pages that list a whole course need more.
const mostKept = 1 << 20

func (s *scratch) buffers() *buffers {
	if s.copies == nil {
		s.copies = new(buffers)
	}
	return s.copies
}

// bytes returns what plait makes of a file, to be used before the next is made.
func (s *scratch) bytes(f artifact.File) ([]byte, error) {
	data, err := f.Using(s.page[:0])
	if f.Make != nil && cap(data) <= mostKept {
		s.page = data
	}
	return data, err
}

// compare tells the state of a file. Ours says that its path is on the list, and
// alias is a listed path that differs from it in case alone and goes before it is
// written, "" where there is none. A file that is made when it is asked for is not made
// where there is nothing to compare it with, and one that has changed is kept as made.
func (w *writer) compare(f *artifact.File, ours bool, alias string, mem *scratch) (state, error) {
	var source io.ReadCloser
	var size int64
	if f.Input != "" {
		// Opened whatever the state, so that a missing input stops the work before it
		// begins.
		var err error
		if source, size, err = w.input(*f); err != nil {
			return 0, err
		}
		defer source.Close()
	}
	info, err := w.out.Lstat(f.Path)
	if errors.Is(err, fs.ErrNotExist) || errors.Is(err, syscall.ENOTDIR) {
		return missing, nil
	}
	if err != nil {
		return 0, failed("look at", w.name(f.Path), err)
	}
	if info.IsDir() {
		return missing, nil // clearing the way takes it off, or renaming fails
	}
	if !ours {
		return missing, w.checkOwner(f.Path, alias, info)
	}
	if alias != "" {
		return missing, nil // on some disks it goes with its alias
	}
	if !info.Mode().IsRegular() {
		return changed, nil
	}
	if f.Input != "" {
		return w.compareBytes(f.Path, info, source, size, mem.buffers())
	}
	data, err := mem.bytes(*f)
	if err != nil {
		return 0, err
	}
	s, err := w.compareBytes(f.Path, info, bytes.NewReader(data), int64(len(data)), mem.buffers())
	if s == changed && f.Make != nil {
		f.Data, f.Make = bytes.Clone(data), nil
	}
	return s, err
}

// compareBytes tells whether the file of a path holds the bytes of a source.
func (w *writer) compareBytes(name string, info fs.FileInfo, source io.Reader, size int64, b *buffers) (state, error) {
	if size != info.Size() {
		return changed, nil
	}
	old, err := w.out.Open(name)
	if err != nil {
		return 0, failed("read", w.name(name), err)
	}
	defer old.Close()
	equal, err := equalBytes(old, source, b)
	if err != nil {
		return 0, failed("compare", w.name(name), err)
	}
	if equal {
		return same, nil
	}
	return changed, nil
}

// checkOwner refuses a file that is in the way and not on the list, unless it is
// the listed file with the other name.
func (w *writer) checkOwner(name, alias string, info fs.FileInfo) error {
	if alias != "" {
		if other, err := w.out.Lstat(alias); err == nil && os.SameFile(info, other) {
			return nil
		}
	}
	return fmt.Errorf("%s is in the way and was %w: move it to another folder", w.name(name), ErrForeign)
}

// input opens the file of the course that a file of the tree is to be.
func (w *writer) input(f artifact.File) (io.ReadCloser, int64, error) {
	in, err := w.inputs.Open(f.Input)
	if err != nil {
		return nil, 0, failed("read", f.Input, err)
	}
	info, err := in.Stat()
	if err != nil {
		in.Close()
		return nil, 0, failed("read", f.Input, err)
	}
	return in, info.Size(), nil
}

func equalBytes(a, b io.Reader, mem *buffers) (bool, error) {
	x, y := mem[0][:], mem[1][:]
	for {
		n, errA := io.ReadFull(a, x)
		m, errB := io.ReadFull(b, y)
		for _, err := range []error{errA, errB} {
			if err != nil && err != io.EOF && err != io.ErrUnexpectedEOF {
				return false, err
			}
		}
		if !bytes.Equal(x[:n], y[:m]) {
			return false, nil
		}
		if n < len(x) {
			return true, nil
		}
	}
}
