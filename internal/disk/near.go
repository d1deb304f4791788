package disk

import (
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"
	"syscall"

	"plait/internal/source"
)

// Near returns the folder for someone who reads several files of one folder in it, and
// what ends that. A path is walked part by part, so that no link leads out of the course,
// which costs more than reading a small file; of files near by, only the last part is
// left to walk.
func (f *Folder) Near(folder string) (near fs.FS, end func()) {
	if !fs.ValidPath(folder) {
		return f, func() {}
	}
	inner, err := f.root.OpenRoot(folder)
	if err != nil {
		return f, func() {} // whoever opens a file is told why
	}
	return nearFolder{f, folder, inner}, func() { _ = inner.Close() }
}

// nearFolder is a folder, one part of which is open. Whatever does not go well from there,
// such as a link that leads out of the part and not out of the whole, is done anew from
// the whole, so that the answer and its error are those of the folder.
type nearFolder struct {
	*Folder
	part  string
	inner *os.Root
}

// in returns the name of a file in the part that is open.
func (n nearFolder) in(name string) (base string, ok bool) {
	return path.Base(name), path.Dir(name) == n.part && fs.ValidPath(name)
}

// Open is [Folder.Open].
func (n nearFolder) Open(name string) (fs.File, error) {
	if base, ok := n.in(name); ok {
		if file, err := openIn(n.inner, base); err == nil {
			return file, nil
		}
	}
	return n.Folder.Open(name)
}

// Stat is [Folder.Stat].
func (n nearFolder) Stat(name string) (fs.FileInfo, error) {
	if base, ok := n.in(name); ok {
		if info, err := n.inner.Stat(base); err == nil {
			return info, nil
		}
	}
	return n.Folder.Stat(name)
}

// Files is for [source.Files]. The system is asked for names alone: to list a folder with
// what its files are is to look at each of them.
func (n nearFolder) Files(folder, ending string) ([]string, error) {
	if folder == n.part {
		if names, err := n.files(ending); err == nil {
			return names, nil
		}
	}
	return source.Files(n.Folder, folder, ending)
}

func (n nearFolder) files(ending string) ([]string, error) {
	file, err := n.inner.Open(".")
	if err != nil {
		return nil, err
	}
	defer file.Close()
	all, err := file.Readdirnames(-1)
	var names []string
	for _, name := range all {
		if !strings.HasSuffix(name, ending) {
			continue
		}
		if info, err := n.inner.Lstat(name); err == nil && !info.IsDir() {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names, err
}

// known is a file with what it was when it was opened. Whoever reads it asks for its size,
// and the system need not be asked once more.
type known struct {
	*os.File
	info fs.FileInfo
}

// Stat implements [fs.File].
func (f known) Stat() (fs.FileInfo, error) { return f.info, nil }

// openIn opens a file for reading, or says that it is none.
func openIn(root *os.Root, name string) (fs.File, error) {
	// Without O_NONBLOCK the opening of a pipe waits for its other end.
	file, err := root.OpenFile(name, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if err != nil {
		return nil, err
	}
	info, err := file.Stat()
	if err == nil && !info.Mode().IsRegular() && !info.IsDir() {
		err = ErrNotRegular
	}
	if err != nil {
		file.Close()
		return nil, err
	}
	return known{file, info}, nil
}
