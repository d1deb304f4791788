package disk

import (
	"io"
	"io/fs"
	"os"
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
type rooted struct{ root *os.Root }

func (r rooted) Lstat(name string) (fs.FileInfo, error)     { return r.root.Lstat(name) }
func (r rooted) ReadDir(name string) ([]fs.DirEntry, error) { return fs.ReadDir(r.root.FS(), name) }
func (r rooted) Open(name string) (io.ReadCloser, error)    { return r.root.Open(name) }
func (r rooted) MkdirAll(name string) error                 { return r.root.MkdirAll(name, 0o777) }
func (r rooted) Rename(from, to string) error               { return r.root.Rename(from, to) }
func (r rooted) Remove(name string) error                   { return r.root.Remove(name) }

func (r rooted) Create(name string) (file, error) {
	return r.root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
}
