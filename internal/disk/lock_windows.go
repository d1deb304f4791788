package disk

import (
	"errors"
	"path/filepath"
	"syscall"
)

const (
	lockFile         = ownPrefix + "-lock"
	sharingViolation = syscall.Errno(32) // ERROR_SHARING_VIOLATION
	deleteOnClose    = 0x04000000        // FILE_FLAG_DELETE_ON_CLOSE
)

// lock opens a file that nobody else may open and that goes with its last handle.
func lock(dir string) (release func(), err error) {
	name, err := syscall.UTF16PtrFromString(filepath.Join(dir, lockFile))
	if err != nil {
		return nil, failed("open", dir, err)
	}
	h, err := syscall.CreateFile(name, syscall.GENERIC_WRITE, 0, nil, syscall.OPEN_ALWAYS, deleteOnClose, 0)
	if errors.Is(err, sharingViolation) {
		return nil, failed("write to", dir, ErrBusy)
	}
	if err != nil {
		return nil, failed("open", dir, err)
	}
	return func() { syscall.CloseHandle(h) }, nil
}
