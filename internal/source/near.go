package source

import "io/fs"

// Near returns a file system as it is, made ready for someone who reads several files of
// one folder, and what ends that. Names stay what they were, and files elsewhere can be
// read too. It is the same file system where that has no method of this name.
func Near(fsys fs.FS, folder string) (near fs.FS, end func()) {
	if f, ok := fsys.(interface{ Near(string) (fs.FS, func()) }); ok {
		return f.Near(folder)
	}
	return fsys, func() {}
}
