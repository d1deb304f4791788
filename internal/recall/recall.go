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
	"path/filepath"
	"slices"
	"strings"
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

// state is what is seen of a file or a folder.
type state struct {
	folder bool
	size   int64
	time   int64
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
	at, err := open(dir)
	if errors.Is(err, fs.ErrNotExist) {
		s.folders = append(s.folders, folder{path: dir})
		return nil
	}
	if err != nil {
		return err
	}
	defer at.close()
	return filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		seen, err := at.look(cmp.Or(strings.TrimPrefix(path[len(dir):], string(filepath.Separator)), "."))
		switch {
		case err != nil:
			return err
		case entry.IsDir():
			s.folders = append(s.folders, folder{path: path, time: seen.time})
			return nil
		case seen.folder:
			return errDoubt
		}
		// Its own folder is not always the last: the folders in that come before it.
		in := s.folderOf(filepath.Dir(path))
		in.files = append(in.files, file{entry.Name(), seen.size, seen.time})
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
	for rest := s.folders; len(rest) > 0; {
		n := 1
		for n < len(rest) && strings.HasPrefix(rest[n].path, rest[0].path+string(filepath.Separator)) {
			n++
		}
		if !hold(rest[:n]) {
			return false
		}
		rest = rest[n:]
	}
	return true
}

// hold is [Snapshot.Holds] of a folder and all folders in it.
func hold(folders []folder) bool {
	root := folders[0].path
	at, err := open(root)
	if err != nil {
		return errors.Is(err, fs.ErrNotExist) && folders[0].time == 0 && len(folders) == 1
	}
	defer at.close()
	err = parallel.Each(0, len(folders), func(_, i int) error {
		below := strings.TrimPrefix(folders[i].path[len(root):], string(filepath.Separator))
		return folders[i].holds(at, below)
	})
	return err == nil
}

// holds looks at a folder that lies at a path below an open one, "" for that one itself,
// and at its files.
func (f folder) holds(at place, below string) error {
	s, err := at.look(cmp.Or(below, "."))
	if err != nil || !s.folder || s.time != f.time {
		return cmp.Or(err, errDoubt)
	}
	if below != "" {
		below += string(filepath.Separator)
	}
	for _, in := range f.files {
		s, err := at.look(below + in.name)
		if err != nil || s.folder || s.size != in.size || s.time != in.time {
			return cmp.Or(err, errDoubt)
		}
	}
	return nil
}
