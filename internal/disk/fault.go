package disk

import (
	"errors"
	"io/fs"
	"syscall"
)

// fault is a failure of the machine: what was tried, on which path, what the
// system said, and what a person can do about it.
type fault struct {
	doing string
	path  string
	err   error
}

// failed wraps an error of the system.
func failed(doing, path string, err error) error {
	var inner *fs.PathError
	if errors.As(err, &inner) {
		err = inner.Err
	}
	return &fault{doing: doing, path: path, err: err}
}

// Error says everything on one line.
func (f *fault) Error() string {
	text := "cannot " + f.doing + " " + f.path + ": " + f.err.Error()
	if way := wayOut(f.err); way != "" {
		text += ": " + way
	}
	return text
}

// Unwrap gives the error of the system.
func (f *fault) Unwrap() error { return f.err }

func wayOut(err error) string {
	switch {
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT):
		return "make room on the disk and try again; what is written so far is whole"
	case errors.Is(err, syscall.EROFS):
		return "this disk can only be read: choose a folder on another one"
	case errors.Is(err, fs.ErrPermission):
		return "you may not do that there: change the rights of the folder or choose another"
	case errors.Is(err, fs.ErrNotExist):
		return "look whether it was moved or deleted"
	case errors.Is(err, syscall.ENAMETOOLONG):
		return "choose a shorter name"
	case errors.Is(err, syscall.EMFILE), errors.Is(err, syscall.ENFILE):
		return "close other programs, which hold too many files open, and try again"
	}
	return ""
}
