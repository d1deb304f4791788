package disk

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
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
// as a Go string on a line of its own, with a mark behind it where it is live, and
// a last line. The last line proves that the list is complete.
const (
	listHead  = "# plait 1: a build may replace and delete these files and no others"
	listEnd   = "# end"
	liveMark  = " live"
	listLimit = 64 << 20 // bytes; a course of 100,000 files needs a tenth of it
)

var errDamaged = errors.New("is damaged")

// ErrForeign is returned by [Write] for a folder with files that plait did not
// write.
var ErrForeign = errors.New("not written by plait")

// list holds the paths that plait has put into a folder or is about to. A path is
// live when it is that of a page which readers may reach, so that all its links
// must lead somewhere. A page that a killed Write has left behind half linked is
// listed and not live.
type list map[string]bool

// readList returns the list of a folder, and whether there is one.
func readList(out files) (l list, found bool, err error) {
	f, err := out.Open(listFile)
	if errors.Is(err, fs.ErrNotExist) {
		return list{}, false, nil
	}
	if err != nil {
		return nil, false, failed("read", listFile, err)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, listLimit+1))
	if err != nil {
		return nil, false, failed("read", listFile, err)
	}
	l, err = parseList(string(data))
	return l, true, err
}

func parseList(text string) (list, error) {
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	last := len(lines) - 1
	if last < 1 || len(text) > listLimit || lines[0] != listHead || lines[last] != listEnd {
		return nil, errDamaged
	}
	l := list{}
	for _, line := range lines[1:last] {
		quoted, live := strings.CutSuffix(line, liveMark)
		name, err := strconv.Unquote(quoted)
		if err != nil || !writable(name) {
			return nil, errDamaged
		}
		l[name] = live
	}
	return l, nil
}

func (l list) String() string {
	var b strings.Builder
	b.WriteString(listHead + "\n")
	for _, name := range l.paths() {
		b.WriteString(strconv.Quote(name))
		if l[name] {
			b.WriteString(liveMark)
		}
		b.WriteString("\n")
	}
	b.WriteString(listEnd + "\n")
	return b.String()
}

func (l list) paths() []string { return slices.Sorted(maps.Keys(l)) }

// marked returns a list of the paths, live where one of the lists says so.
func marked(paths []string, lists ...list) list {
	l := list{}
	for _, name := range paths {
		l[name] = slices.ContainsFunc(lists, func(m list) bool { return m[name] })
	}
	return l
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
func owned(out files, dir string) (list, error) {
	l, found, err := readList(out)
	if errors.Is(err, errDamaged) {
		return nil, fmt.Errorf("%s %w, so plait cannot tell which files in %s it wrote: delete that folder and build again",
			path.Join(dir, listFile), errDamaged, dir)
	}
	if found || err != nil {
		return l, err
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
	return l, nil
}
