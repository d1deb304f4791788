//go:build !windows

package disk

import (
	"errors"
	"os"
	"syscall"
)

// lock locks the folder itself, so that no lock file lies in the site.
func lock(dir string) (release func(), err error) {
	f, err := os.Open(dir)
	if err != nil {
		return nil, failed("open", dir, err)
	}
	for {
		err = syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
		if err != syscall.EINTR {
			break
		}
	}
	if errors.Is(err, syscall.EWOULDBLOCK) {
		f.Close()
		return nil, failed("write to", dir, ErrBusy)
	}
	return func() { f.Close() }, nil
}
