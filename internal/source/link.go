package source

import (
	"io/fs"
	"path"
)

// Linked reports whether a path is a symbolic link or leads over one, so that what it
// stands for can change while nothing at the path does.
func Linked(fsys fs.FS, name string) bool {
	for ; name != "."; name = path.Dir(name) {
		if info, err := fs.Lstat(fsys, name); err == nil && info.Mode()&fs.ModeSymlink != 0 {
			return true
		}
	}
	return false
}

// Related reports whether two paths are one, or one lies in the other.
func Related(a, b string) bool { return a == b || within(a, b) || within(b, a) }

func within(name, folder string) bool {
	return folder == "." || len(name) > len(folder) && name[:len(folder)] == folder && name[len(folder)] == '/'
}
