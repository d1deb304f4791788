//go:build !windows

package recall

import (
	"os"
	"syscall"

	"golang.org/x/sys/unix"
)

// place is an open folder in which files are looked at. The way to each begins there: most
// of the time of a look by its whole path goes into the way.
type place struct{ dir *os.File }

func open(path string) (place, error) {
	dir, err := os.OpenFile(path, os.O_RDONLY|syscall.O_DIRECTORY, 0)
	return place{dir}, err
}

func (p place) close() { p.dir.Close() }

// look returns the state of a file or folder, of what it leads to where it is a link.
func (p place) look(name string) (state, error) {
	var s unix.Stat_t
	for {
		err := unix.Fstatat(int(p.dir.Fd()), name, &s, 0)
		if err == unix.EINTR {
			continue
		}
		return state{s.Mode&unix.S_IFMT == unix.S_IFDIR, s.Size, s.Mtim.Nano()}, err
	}
}
