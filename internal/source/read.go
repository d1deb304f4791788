package source

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
)

// ErrTooLarge is returned by [Read] for a file above its limit.
var ErrTooLarge = errors.New("file is too large")

// Read reads a file of at most limit bytes. A larger one fails with ErrTooLarge
// and is not taken into memory. The file system decides what a name may reach.
func Read(fsys fs.FS, name string, limit int64) (*File, error) {
	f, err := fsys.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, limit+1))
	if err != nil {
		return nil, err
	}
	if int64(len(data)) > limit {
		return nil, fmt.Errorf("%s: %w: at most %d KiB are read", name, ErrTooLarge, limit>>10)
	}
	return NewFile(name, data), nil
}
