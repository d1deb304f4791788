package disk

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
)

// ErrSite is returned by [OpenShelf] for a folder that a site is built into, or that the
// course is read from: what is known about learners is never kept there.
var ErrSite = errors.New("results of learners are not kept in a course or in its site: choose a folder of their own")

// Shelf is a folder for results: what is on it is replaced whole or left alone, and
// nothing is ever removed. Only its owner can read what is written there.
type Shelf struct {
	*Folder
	dir     string
	release func()
}

// OpenShelf opens a folder for results and makes it where it is not there. site names
// the folders, from the course's own, that sites are built into. Close it after use.
func OpenShelf(dir, course string, site ...string) (*Shelf, error) {
	if err := apart(dir, course, slices.Concat(inputFolders, site)); err != nil {
		return nil, err
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, failed("make the folder", dir, err)
	}
	release, err := lock(dir)
	if err != nil {
		return nil, err
	}
	folder, err := Open(dir)
	if err != nil {
		release()
		return nil, err
	}
	return &Shelf{Folder: folder, dir: dir, release: release}, nil
}

// apart refuses a folder that is one of the course's own folders, lies in one of them,
// or lies in a site, wherever that was built.
func apart(dir, course string, folders []string) error {
	at, err := place(dir, course, folders)
	if err != nil {
		return err
	}
	inside := func(folder string) bool { return within(at.out, folder) }
	if at.out == at.home || slices.ContainsFunc(at.folders, inside) {
		return fmt.Errorf("cannot write to %s: %w", dir, ErrSite)
	}
	for folder := at.out; ; folder = filepath.Dir(folder) {
		if _, err := os.Lstat(filepath.Join(folder, listFile)); err == nil {
			return fmt.Errorf("cannot write to %s: %w", dir, ErrSite)
		}
		if folder == filepath.Dir(folder) {
			return nil
		}
	}
}

// Read returns a file of the shelf, nil for none. A file of more than limit bytes is
// refused.
func (s *Shelf) Read(name string, limit int64) ([]byte, error) {
	f, err := s.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, limit+1))
	if err == nil && int64(len(data)) > limit {
		err = fmt.Errorf("has more than %d bytes", limit)
	}
	if err != nil {
		return nil, failed("read", filepath.Join(s.dir, name), err)
	}
	return data, nil
}

// Put writes a file of the shelf, whole: at any moment there is the old one or the new
// one. A file that holds the same bytes is left alone.
func (s *Shelf) Put(name string, data []byte) error {
	if s.unchanged(name, data) == nil {
		return nil
	}
	scratch := "." + name + ".new"
	if err := s.writeScratch(scratch, data, 0o600); err != nil {
		return failed("write", filepath.Join(s.dir, name), err)
	}
	if err := s.root.Rename(scratch, name); err != nil {
		_ = s.root.Remove(scratch)
		return failed("write", filepath.Join(s.dir, name), err)
	}
	return nil
}

// Close lets others write to the shelf.
func (s *Shelf) Close() error {
	err := s.Folder.Close()
	s.release()
	return err
}
