package recall

import (
	"os"
	"path/filepath"
)

// place is a folder in which files are looked at.
type place struct{ path string }

func open(path string) (place, error) {
	_, err := os.Stat(path)
	return place{path}, err
}

func (place) close() {}

// look returns the state of a file or folder, of what it leads to where it is a link.
func (p place) look(name string) (state, error) {
	info, err := os.Stat(filepath.Join(p.path, name))
	if err != nil {
		return state{}, err
	}
	return state{info.IsDir(), info.Size(), info.ModTime().UnixNano()}, nil
}
