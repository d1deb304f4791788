// Package recall remembers a finished build, so that the next one can tell in a
// moment that nothing has changed, without reading a lesson.
//
// What a build read and wrote is remembered by path, size and time of change. A
// folder's own time changes when a file is added, renamed or removed, so looking
// again at known paths is enough and nothing has to be walked. Where anything is
// in doubt the build is not remembered, or what is remembered does not hold, and
// the course is built in full: a memory saves time and never decides what is right.
package recall

import (
	"cmp"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"time"

	"plait/internal/parallel"
)

// settled is how old a file must be for its time to be trusted. A file that is
// changed twice within one tick of the disk's clock can keep its time; the coarsest
// clock in use ticks every two seconds (FAT).
const settled = 2 * time.Second

// errDoubt is why a build is not remembered.
var errDoubt = errors.New("cannot be told apart from a later state")

// Snapshot is the state of all files below some folders.
type Snapshot struct{ folders []folder }

// folder is a folder with the files in it. Folders in it have entries of their own.
type folder struct {
	path  string // absolute
	time  int64  // of its last change, in nanoseconds of Unix time
	files []file
}

type file struct {
	name string
	size int64
	time int64
}

// Look takes the state of the folders, which are absolute paths; one that is not
// there counts as a state too. A build takes it of what it reads before it begins to
// read. It fails where a link leads to a folder, whose files it would not see.
func Look(folders ...string) (*Snapshot, error) {
	s := &Snapshot{}
	for _, dir := range folders {
		if err := s.add(dir); err != nil {
			return nil, err
		}
	}
	return s, nil
}

func (s *Snapshot) add(dir string) error {
	return filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		if errors.Is(err, fs.ErrNotExist) && path == dir {
			s.folders = append(s.folders, folder{path: dir})
			return nil
		}
		if err != nil {
			return err
		}
		info, err := os.Stat(path)
		switch {
		case err != nil:
			return err
		case entry.IsDir():
			s.folders = append(s.folders, folder{path: path, time: info.ModTime().UnixNano()})
			return nil
		case info.IsDir():
			return errDoubt
		}
		// Its own folder is not always the last: the folders in that come before it.
		in := s.folderOf(filepath.Dir(path))
		in.files = append(in.files, file{entry.Name(), info.Size(), info.ModTime().UnixNano()})
		return nil
	})
}

// folderOf returns the entry of a folder that is being walked.
func (s *Snapshot) folderOf(path string) *folder {
	for i := len(s.folders) - 1; ; i-- {
		if s.folders[i].path == path {
			return &s.folders[i]
		}
	}
}

// With returns a snapshot of what is in either.
func (s *Snapshot) With(other *Snapshot) *Snapshot {
	return &Snapshot{slices.Concat(s.folders, other.folders)}
}

// Settled reports whether everything in the snapshot had been left alone for a while
// at a moment. A time in the future, which a clock set back can leave, has not.
func (s *Snapshot) Settled(at time.Time) bool {
	latest := at.Add(-settled).UnixNano()
	for _, f := range s.folders {
		if f.time > latest {
			return false
		}
		for _, in := range f.files {
			if in.time > latest {
				return false
			}
		}
	}
	return true
}

// Holds reports whether all files and folders still are as they were.
func (s *Snapshot) Holds() bool {
	err := parallel.Each(0, len(s.folders), func(_, i int) error { return s.folders[i].holds() })
	return err == nil
}

func (f folder) holds() error {
	info, err := os.Stat(f.path)
	if errors.Is(err, fs.ErrNotExist) && f.time == 0 {
		return nil
	}
	if err != nil || !info.IsDir() || info.ModTime().UnixNano() != f.time {
		return cmp.Or(err, errDoubt)
	}
	for _, in := range f.files {
		info, err := os.Stat(filepath.Join(f.path, in.name))
		if err != nil || info.IsDir() || info.Size() != in.size || info.ModTime().UnixNano() != in.time {
			return cmp.Or(err, errDoubt)
		}
	}
	return nil
}
