// Package disk opens a course's folder for reading and writes a finished site to
// its output folder.
//
// A [Folder] is the course as an fs.FS that nothing can lead out of: neither a
// path with dots nor a symbolic link. Everything above reads through it, so no
// other package opens an input file.
//
// [Write] brings an output folder to the state of an [artifact.Tree] and promises
// that it can be stopped at any moment, by a signal, a full disk or the power:
//
//   - a file in the folder is whole, the old one or the new one;
//   - every link of every page that can be reached from the home page leads to a
//     file that is there;
//   - the next Write finishes the work, and deletes nothing but what an earlier
//     Write has put there.
//
// The comment of Write tells how.
package disk

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
)

// The ways in which a course's folder refuses to open a file.
var (
	ErrOutside    = errors.New("leads out of the course's folder")
	ErrNotRegular = errors.New("is neither a file nor a folder")
)

// Folder is a course's folder. It implements [fs.FS], [fs.StatFS] and
// [fs.ReadDirFS], and is safe for concurrent use.
type Folder struct {
	root   *os.Root
	escape error // what os says of a path that leads out of the root
}

// Open opens the folder at a path of the operating system.
func Open(dir string) (*Folder, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, failed("open the course's folder", dir, err)
	}
	// Package os does not export the error, so it is asked for once.
	_, err = root.Lstat("..")
	var escape *fs.PathError
	if !errors.As(err, &escape) {
		root.Close()
		return nil, fmt.Errorf("open the course's folder %s: cannot keep paths inside: %w", dir, err)
	}
	return &Folder{root: root, escape: escape.Err}, nil
}

// Close releases the folder.
func (f *Folder) Close() error { return f.root.Close() }

// Open implements [fs.FS]. It fails with [ErrOutside] where a symbolic link leads
// out of the folder, and with [ErrNotRegular] for what cannot be read as a file,
// such as a pipe, which would keep a reader waiting for ever.
func (f *Folder) Open(name string) (fs.File, error) {
	if !fs.ValidPath(name) {
		return nil, invalid("open", name)
	}
	file, err := openIn(f.root, name)
	if err != nil {
		return nil, f.named("open", name, err)
	}
	return file, nil
}

// Stat implements [fs.StatFS].
func (f *Folder) Stat(name string) (fs.FileInfo, error) {
	if !fs.ValidPath(name) {
		return nil, invalid("stat", name)
	}
	info, err := f.root.Stat(name)
	if err != nil {
		return nil, f.named("stat", name, err)
	}
	return info, nil
}

// Lstat implements [fs.ReadLinkFS].
func (f *Folder) Lstat(name string) (fs.FileInfo, error) {
	if !fs.ValidPath(name) {
		return nil, invalid("lstat", name)
	}
	info, err := f.root.Lstat(name)
	if err != nil {
		return nil, f.named("lstat", name, err)
	}
	return info, nil
}

// ReadLink implements [fs.ReadLinkFS].
func (f *Folder) ReadLink(name string) (string, error) {
	if !fs.ValidPath(name) {
		return "", invalid("readlink", name)
	}
	to, err := f.root.Readlink(name)
	if err != nil {
		return "", f.named("readlink", name, err)
	}
	return to, nil
}

// ReadDir implements [fs.ReadDirFS]; the entries are sorted by name.
func (f *Folder) ReadDir(name string) ([]fs.DirEntry, error) {
	if !fs.ValidPath(name) {
		return nil, invalid("read", name)
	}
	entries, err := fs.ReadDir(f.root.FS(), name)
	if err != nil {
		return nil, f.named("read", name, err)
	}
	return entries, nil
}

func invalid(op, name string) error {
	return &fs.PathError{Op: op, Path: name, Err: fs.ErrInvalid}
}

// named gives an error the name that the caller used, in place of the names of
// the system calls and of the links on the way.
func (f *Folder) named(op, name string, err error) error {
	var inner *fs.PathError
	if errors.As(err, &inner) {
		err = inner.Err
	}
	if errors.Is(err, f.escape) {
		err = ErrOutside
	}
	return &fs.PathError{Op: op, Path: name, Err: err}
}
