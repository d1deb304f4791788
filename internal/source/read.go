package source

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"sync"
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
	if info, err := f.Stat(); err == nil && info.Size() > limit {
		return nil, tooLarge(name, limit) // and takes no room
	}
	data := lent.Get().(*bytes.Buffer)
	defer lent.Put(data)
	data.Reset()
	if _, err := data.ReadFrom(io.LimitReader(f, limit+1)); err != nil {
		return nil, err
	}
	if int64(data.Len()) > limit {
		return nil, tooLarge(name, limit)
	}
	return NewFile(name, data.Bytes()), nil
}

func tooLarge(name string, limit int64) error {
	return fmt.Errorf("%s: %w: at most %d KiB are read", name, ErrTooLarge, limit>>10)
}

// lent are buffers that have grown to the size of a text already: a file is read at
// once then, and no room is left behind but its text.
var lent = sync.Pool{New: func() any { return new(bytes.Buffer) }}
