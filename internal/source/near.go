package source

import (
	"io/fs"
	"strings"
)

// Near returns a file system as it is, made ready for someone who reads several files of
// one folder, and what ends that. Names stay what they were, and files elsewhere can be
// read too. It is the same file system where that has no method of this name.
func Near(fsys fs.FS, folder string) (near fs.FS, end func()) {
	if f, ok := fsys.(interface{ Near(string) (fs.FS, func()) }); ok {
		return f.Near(folder)
	}
	return fsys, func() {}
}

// Files returns the names in a folder that have an ending and are no folders, in order.
// The file system can have a way of its own to find them, a method of this name.
func Files(fsys fs.FS, folder, ending string) ([]string, error) {
	if f, ok := fsys.(interface {
		Files(folder, ending string) ([]string, error)
	}); ok {
		return f.Files(folder, ending)
	}
	entries, err := fs.ReadDir(fsys, folder)
	var names []string
	for _, e := range entries {
		if strings.HasSuffix(e.Name(), ending) && !e.IsDir() {
			names = append(names, e.Name())
		}
	}
	return names, err
}
