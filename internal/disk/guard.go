package disk

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// ErrInput is returned by [Write] for an output folder that is part of what is
// read, where writing could destroy an author's work.
var ErrInput = errors.New("is read by the build")

// inputFolders are the folders of a course that are always read.
var inputFolders = []string{"content", "lessons", "layouts"}

// InputFolders returns where the folders lie that are always read of a course.
func InputFolders(course string) []string {
	var out []string
	for _, name := range inputFolders {
		out = append(out, filepath.Join(course, name))
	}
	return out
}

// guard refuses an output folder that is the course's folder, holds it, or lies
// in one of its input folders. Folders are compared by identity, so that neither
// a symbolic link nor another spelling of a name gets by.
func guard(dir, course string, inputs []string) error {
	at, err := place(dir, course, inputs)
	if err != nil {
		return err
	}
	if within(at.home, at.out) {
		return refused(dir, course)
	}
	for i, input := range at.folders {
		if within(at.out, input) {
			return refused(dir, inputs[i])
		}
	}
	return nil
}

// places are where folders lie, resolved.
type places struct {
	out, home string   // what is written to, and the course's folder
	folders   []string // of the course
}

// place finds an output folder, a course, and folders in the course.
func place(dir, course string, folders []string) (at places, err error) {
	if at.out, err = resolve(dir); err != nil {
		return at, failed("find", dir, err)
	}
	if at.home, err = resolve(course); err != nil {
		return at, failed("find", course, err)
	}
	for _, name := range folders {
		folder, err := resolve(filepath.Join(at.home, filepath.FromSlash(name)))
		if err != nil {
			return at, failed("find", name, err)
		}
		at.folders = append(at.folders, folder)
	}
	return at, nil
}

func refused(dir, input string) error {
	return fmt.Errorf("cannot write to %s: %s %w: choose another folder for the site, such as public in the course's folder", dir, input, ErrInput)
}

// resolve returns the absolute path without symbolic links. What does not exist
// yet keeps its name.
func resolve(name string) (string, error) {
	abs, err := filepath.Abs(name)
	if err != nil {
		return "", err
	}
	real, err := filepath.EvalSymlinks(abs)
	if !errors.Is(err, fs.ErrNotExist) {
		return real, err
	}
	parent := filepath.Dir(abs)
	if parent == abs {
		return abs, nil
	}
	real, err = resolve(parent)
	return filepath.Join(real, filepath.Base(abs)), err
}

// within reports whether the first resolved path is the second or lies below it.
func within(inner, outer string) bool {
	outerInfo, err := os.Stat(outer)
	if err != nil {
		outerInfo = nil
	}
	for {
		if inner == outer {
			return true
		}
		if info, err := os.Stat(inner); err == nil && outerInfo != nil && os.SameFile(info, outerInfo) {
			return true
		}
		parent := filepath.Dir(inner)
		if parent == inner {
			return false
		}
		inner = parent
	}
}
