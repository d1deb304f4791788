package disk

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strconv"
	"strings"
)

// What plait keeps in an output folder beside the site; all of it has names that
// begin alike. The scratch folder holds files that are being written, and is there
// only while a Write runs or after one was killed.
const (
	ownPrefix     = ".plait"
	listFile      = ownPrefix
	scratchFolder = ownPrefix + "-part"
	ignoreFile    = ".gitignore" // the one other file an own folder may begin with
)

// The list of an output folder is a text file: a first line, the path of each file
// as a Go string on a line of its own, a last line. The last line proves that the
// list is complete.
const (
	listHead  = "# plait 1: a build may replace and delete these files and no others"
	listEnd   = "# end"
	listLimit = 64 << 20 // bytes; a course of 100,000 files needs a tenth of it
)

var errDamaged = errors.New("is damaged")

// ErrForeign is returned by [Write] for a folder with files that plait did not
// write.
var ErrForeign = errors.New("not written by plait")

// readList returns the paths that earlier Writes have put into the folder, sorted,
// and whether there is a list.
func readList(out files) (paths []string, found bool, err error) {
	f, err := out.Open(listFile)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, false, nil
	}
	if err != nil {
		return nil, false, failed("read", listFile, err)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, listLimit+1))
	if err != nil {
		return nil, false, failed("read", listFile, err)
	}
	paths, err = parseList(string(data))
	return paths, true, err
}

func parseList(text string) ([]string, error) {
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	last := len(lines) - 1
	if last < 1 || len(text) > listLimit || lines[0] != listHead || lines[last] != listEnd {
		return nil, errDamaged
	}
	var paths []string
	for _, line := range lines[1:last] {
		name, err := strconv.Unquote(line)
		if err != nil || !writable(name) {
			return nil, errDamaged
		}
		paths = append(paths, name)
	}
	slices.Sort(paths)
	return slices.Compact(paths), nil
}

func formatList(paths []string) []byte {
	var b strings.Builder
	b.WriteString(listHead + "\n")
	for _, name := range paths {
		b.WriteString(strconv.Quote(name) + "\n")
	}
	b.WriteString(listEnd + "\n")
	return []byte(b.String())
}

// writable reports whether a tree may hold a file of this path: a clean path that
// is not one of those with which plait and git do their work.
func writable(name string) bool {
	top, _, _ := strings.Cut(strings.ToLower(name), "/")
	if strings.HasPrefix(top, ownPrefix) || top == ignoreFile || top == ".git" {
		return false
	}
	return fs.ValidPath(name) && name != "."
}

// owned returns the list of a folder that a Write may work in: one with a list, or
// one with nothing in it that could be lost.
func owned(out files, dir string) ([]string, error) {
	list, found, err := readList(out)
	if errors.Is(err, errDamaged) {
		return nil, fmt.Errorf("%s %w, so plait cannot tell which files in %s it wrote: delete that folder and build again",
			path.Join(dir, listFile), errDamaged, dir)
	}
	if found || err != nil {
		return list, err
	}
	entries, err := out.ReadDir(".")
	if err != nil {
		return nil, failed("read", dir, err)
	}
	for _, e := range entries {
		if e.Name() != ignoreFile && !strings.HasPrefix(e.Name(), ownPrefix) {
			return nil, fmt.Errorf("%s holds files %w, such as %s: choose an empty or a new folder for the site",
				dir, ErrForeign, e.Name())
		}
	}
	return nil, nil
}
