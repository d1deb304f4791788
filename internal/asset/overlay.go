package asset

import (
	"errors"
	"io/fs"
)

// Overlay returns a file system that looks for a file in top first and then in
// base. A course replaces single templates, styles and scripts this way. It opens
// files; it does not list folders.
func Overlay(top, base fs.FS) fs.FS {
	return overlay{top, base}
}

type overlay struct {
	top, base fs.FS
}

// Open implements [fs.FS].
func (o overlay) Open(name string) (fs.File, error) {
	f, err := o.top.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return o.base.Open(name)
	}
	return f, err
}
