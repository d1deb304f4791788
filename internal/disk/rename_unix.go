//go:build !windows

package disk

import (
	"os"
	"path"

	"golang.org/x/sys/unix"
)

// rename gives a file of one open folder its name in another.
func rename(_ *os.Root, old, folder *os.File, from, to string) error {
	for {
		err := unix.Renameat(int(old.Fd()), path.Base(from), int(folder.Fd()), path.Base(to))
		if err == unix.EINTR {
			continue
		}
		if err != nil {
			return &os.LinkError{Op: "rename", Old: from, New: to, Err: err}
		}
		return nil
	}
}
