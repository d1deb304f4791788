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
}

// New returns an empty tree.
func New() *Tree { return NewFor(0) }

// NewFor returns an empty tree with room for a number of files.
func NewFor(files int) *Tree { return &Tree{files: make(map[string]File, files)} }

// Add puts a file into the tree. It fails where the path is not a clean relative
// path or is taken, also by a name that differs only in case, which some disks
// cannot tell apart.
func (t *Tree) Add(f File) error {
	if !fs.ValidPath(f.Path) || f.Path == "." {
		return fmt.Errorf("output path %q is not a clean relative path", f.Path)
	}
	key := strings.ToLower(f.Path)
	if old, taken := t.files[key]; taken {
		return fmt.Errorf("two output files want the path %q and %q", old.Path, f.Path)
	}
	t.files[key] = f
	return nil
}

// Get returns the file of a path.
func (t *Tree) Get(path string) (File, bool) {
	f, ok := t.files[strings.ToLower(path)]
	return f, ok && f.Path == path
}

// Len returns the number of files.
func (t *Tree) Len() int { return len(t.files) }

// Files returns all files by stage and, within a stage, by path.
func (t *Tree) Files() []File {
	return slices.SortedFunc(maps.Values(t.files), func(a, b File) int {
		if a.Stage != b.Stage {
			return int(a.Stage) - int(b.Stage)
		}
		return strings.Compare(a.Path, b.Path)
	})
}
