package watch

import (
	"crypto/sha256"
	"io"
	"io/fs"
	"os"
	"path"
	"strings"
	"syscall"
	"time"
)

// sumLimit is the size up to which the bytes of a file are compared.
const sumLimit = 64 << 10

// node is what is known of a file or a folder.
type node struct {
	children map[string]*node // nil for a file

	size     int64
	modified time.Time
	sum      [sha256.Size]byte // of a file's bytes or a link's target
	hasSum   bool
}

func newFolder() *node { return &node{children: map[string]*node{}} }

func (n *node) folder() bool { return n.children != nil }

// set puts a child into a folder, or takes it out.
func (n *node) set(base string, child *node) {
	if child == nil {
		delete(n.children, base)
		return
	}
	n.children[base] = child
}

// find returns the node at a path below n, nil where nothing is known.
func (n *node) find(name string) *node {
	if name == "." {
		return n
	}
	for base := range strings.SplitSeq(path.Clean(name), "/") {
		if n = n.children[base]; n == nil {
			return nil
		}
	}
	return n
}

// newFile describes a file. Its sum is taken over from what was known unless it was
// written to: two saves within the clock's step leave the same time.
func newFile(file string, info fs.FileInfo, old *node, written bool) *node {
	n := &node{size: info.Size(), modified: info.ModTime()}
	if old != nil && !written && n.sameStamp(old) {
		n.sum, n.hasSum = old.sum, old.hasSum
		return n
	}
	switch {
	case info.Mode()&fs.ModeSymlink != 0:
		target, err := os.Readlink(file)
		n.sum, n.hasSum = sha256.Sum256([]byte(target)), err == nil
	case info.Mode().IsRegular() && info.Size() <= sumLimit:
		n.sum, n.hasSum = sumOf(file)
	}
	return n
}

func sumOf(file string) (sum [sha256.Size]byte, ok bool) {
	// Without O_NONBLOCK a pipe that has taken the file's name would hold us up.
	f, err := os.OpenFile(file, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if err != nil {
		return sum, false
	}
	defer f.Close()
	// The file may grow while it is read; the event of that comes later.
	data, err := io.ReadAll(io.LimitReader(f, sumLimit+1))
	return sha256.Sum256(data), err == nil
}

func (n *node) sameStamp(old *node) bool {
	return n.size == old.size && n.modified.Equal(old.modified)
}

// differs reports whether a file is another than it was.
func (n *node) differs(old *node, written bool) bool {
	if n.hasSum && old.hasSum {
		return n.sum != old.sum
	}
	return written || !n.sameStamp(old)
}
