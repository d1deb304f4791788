package disk

import (
	"io"
	"io/fs"
	"os"
	"path"
	"strings"
	"sync"
)

// files is what [Write] does to an output folder, all of it: names are relative
// to the folder and separated by slashes. Tests put a failing one in its place.
type files interface {
	Lstat(name string) (fs.FileInfo, error)
	ReadDir(name string) ([]fs.DirEntry, error)
	Open(name string) (io.ReadCloser, error)
	Create(name string) (file, error) // fails where there is one
	MkdirAll(name string) error
	Rename(from, to string) error // replaces a file at once
	Remove(name string) error     // a file or an empty folder
}

// file is a file that is being written.
type file interface {
	io.Writer
	Sync() error
	Close() error
}

// rooted is files on a real folder. An os.Root keeps symbolic links that lie in
// the folder from leading a write out of it.
//
// An os.Root opens every folder on the way to a file anew, which takes most of the time
// of writing a small file. So the folders in it are opened once and kept.
type rooted struct {
	root *os.Root

	mu      sync.Mutex
	folders map[string]*opened // nil for one that is not there
}

// opened is a folder that is kept open.
type opened struct {
	root *os.Root
	dir  *os.File // the same, to rename into and out of
}

func newRooted(root *os.Root) *rooted { return &rooted{root: root, folders: map[string]*opened{}} }

// Close closes all folders but the one that all lie in.
func (r *rooted) Close() { r.forget(".") }

// folder returns the folder that a file lies in, opened. It is nil where it cannot be
// opened and for a file that lies at the top; missing says that it is not there.
func (r *rooted) folder(name string) (folder *opened, missing bool) {
	dir := path.Dir(name)
	if dir == "." {
		return nil, false
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	folder, known := r.folders[dir]
	if known {
		return folder, folder == nil
	}
	root, err := r.root.OpenRoot(dir)
	if os.IsNotExist(err) {
		r.folders[dir] = nil
		return nil, true
	}
	if err != nil {
		return nil, false // what is wrong is said by who goes there all the way
	}
	itself, err := root.Open(".")
	if err != nil {
		root.Close()
		return nil, false
	}
	r.folders[dir] = &opened{root, itself}
	return r.folders[dir], false
}

// at returns where to do something to a file, and the file's name there.
func (r *rooted) at(name string) (*os.Root, string) {
	if folder, _ := r.folder(name); folder != nil {
		return folder.root, path.Base(name)
	}
	return r.root, name
}

// forget lets go of a folder and of all that lie in it.
func (r *rooted) forget(dir string) {
	r.mu.Lock()
	defer r.mu.Unlock()
	for name, folder := range r.folders {
		if folder != nil && (dir == "." || name == dir || strings.HasPrefix(name, dir+"/")) {
			folder.dir.Close()
			folder.root.Close()
			delete(r.folders, name)
		}
	}
}

func (r *rooted) Lstat(name string) (fs.FileInfo, error) {
	folder, missing := r.folder(name)
	switch {
	case missing:
		return nil, &fs.PathError{Op: "lstat", Path: name, Err: fs.ErrNotExist}
	case folder != nil:
		return folder.root.Lstat(path.Base(name))
	}
	return r.root.Lstat(name)
}

func (r *rooted) ReadDir(name string) ([]fs.DirEntry, error) { return fs.ReadDir(r.root.FS(), name) }

func (r *rooted) Open(name string) (io.ReadCloser, error) {
	root, base := r.at(name)
	return root.Open(base)
}

func (r *rooted) MkdirAll(name string) error {
	err := r.root.MkdirAll(name, 0o777)
	r.mu.Lock()
	defer r.mu.Unlock()
	for dir, folder := range r.folders {
		if folder == nil {
			delete(r.folders, dir)
		}
	}
	return err
}

func (r *rooted) Create(name string) (file, error) {
	root, base := r.at(name)
	return root.OpenFile(base, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
}

func (r *rooted) Rename(from, to string) error {
	old, _ := r.folder(from)
	folder, _ := r.folder(to)
	if old == nil || folder == nil {
		return r.root.Rename(from, to)
	}
	return rename(r.root, old.dir, folder.dir, from, to)
}

func (r *rooted) Remove(name string) error {
	r.forget(name)
	root, base := r.at(name)
	return root.Remove(base)
}
