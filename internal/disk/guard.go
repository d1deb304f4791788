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
	out, err := resolve(dir)
	if err != nil {
		return failed("find", dir, err)
	}
	home, err := resolve(course)
	if err != nil {
		return failed("find", course, err)
	}
	if within(home, out) {
		return refused(dir, course)
	}
	for _, name := range inputs {
		input, err := resolve(filepath.Join(home, filepath.FromSlash(name)))
		if err != nil {
			return failed("find", name, err)
		}
		if within(out, input) {
			return refused(dir, name)
		}
	}
	return nil
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
