// Package artifact is the finished output of a build before it touches a disk: a
// tree of files by slash-separated path.
//
// Most files are bytes made by plait, or pages that are made when they are asked for
// ([File.Make]). Pictures, film and sound can be large and are only named
// ([File.Input]); whoever writes or serves the tree copies them from the course. A Tree
// is filled by one goroutine and then only read.
package artifact

import (
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strings"
)

// Stage orders the writing of files, so that no page ever links to what is not
// there yet.
type Stage uint8

// The stages in the order they are written.
const (
	Asset Stage = iota // style sheets, scripts, pictures, film
	Page               // what links to assets and other pages
)

// File is one output file: Data, or what Make makes where that is set, or where Input
// is set the course's own file of that path, byte for byte.
type File struct {
	Path  string
	Stage Stage
	Data  []byte
	Make  func(to []byte) ([]byte, error) // appends the same bytes each time; safe for concurrent use
	Input string
}

// Bytes returns what plait makes of the file; none of one that is only named.
func (f File) Bytes() ([]byte, error) { return f.Using(nil) }

// Using is Bytes in memory that the caller lends: what a page is made in, from its length
// on. The caller changes neither while the bytes are used.
func (f File) Using(memory []byte) ([]byte, error) {
	if f.Make != nil {
		return f.Make(memory)
	}
	return f.Data, nil
}

// Tree is a set of output files with unique paths.
type Tree struct {
	files map[string]File
	base  *Tree // whose files are of the tree too; may be nil
}

// New returns an empty tree.
func New() *Tree { return Over(nil, 0) }

// Over returns a tree that has all files of another, which is not added to any more, and room
// for a number of its own.
func Over(base *Tree, files int) *Tree { return &Tree{files: make(map[string]File, files), base: base} }

// Add puts a file into the tree. It fails where the path is not a clean relative
// path or is taken, also by a name that differs only in case, which some disks
// cannot tell apart.
func (t *Tree) Add(f File) error {
	if !fs.ValidPath(f.Path) || f.Path == "." {
		return fmt.Errorf("output path %q is not a clean relative path", f.Path)
	}
	key := strings.ToLower(f.Path)
	if old, taken := t.find(key); taken {
		return fmt.Errorf("two output files want the path %q and %q", old.Path, f.Path)
	}
	t.files[key] = f
	return nil
}

// find returns the file of a path in small letters.
func (t *Tree) find(key string) (File, bool) {
	for ; t != nil; t = t.base {
		if f, ok := t.files[key]; ok {
			return f, true
		}
	}
	return File{}, false
}

// Get returns the file of a path.
func (t *Tree) Get(path string) (File, bool) {
	f, ok := t.find(strings.ToLower(path))
	return f, ok && f.Path == path
}

// Len returns the number of files.
func (t *Tree) Len() int {
	n := 0
	for ; t != nil; t = t.base {
		n += len(t.files)
	}
	return n
}

// Files returns all files by stage and, within a stage, by path.
func (t *Tree) Files() []File {
	list := make([]File, 0, t.Len())
	for ; t != nil; t = t.base {
		list = slices.AppendSeq(list, maps.Values(t.files))
	}
	slices.SortFunc(list, func(a, b File) int {
		if a.Stage != b.Stage {
			return int(a.Stage) - int(b.Stage)
		}
		return strings.Compare(a.Path, b.Path)
	})
	return list
}
