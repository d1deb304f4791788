package build

import (
	"io/fs"
	"path"
	"slices"
	"strings"
	"sync"

	"plait/internal/check"
	"plait/internal/course"
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/source"
)

// Kept is what one build leaves to the next of the same course in the same process: the parts
// of the course as they were read, so that only those are read again of which something has
// changed, and what follows from each lesson by itself. Whoever watches the course says what
// has changed, by [Kept.Forget]. The zero Kept is ready; one serves one build at a time.
type Kept struct {
	mu      sync.Mutex
	parts   map[string]keptPart // by the file or the folder that a part is read from
	lists   map[string][]string // what lies in a folder, by the folder
	linked  course.Kept
	derived derive.Kept
	judged  check.Kept
}

// keptPart is a part of a course that was read, with the files and folders that it was read
// from.
type keptPart struct {
	part   any
	faults []diag.Diagnostic
	reads  []string
}

// Forget drops what hangs on files or folders that have changed, come or gone.
func (k *Kept) Forget(changed []string) {
	k.mu.Lock()
	defer k.mu.Unlock()
	for name, p := range k.parts {
		for _, c := range changed {
			if slices.ContainsFunc(p.reads, func(read string) bool { return source.Related(read, c) }) {
				delete(k.parts, name)
			}
		}
	}
	for folder, list := range k.lists {
		if slices.ContainsFunc(changed, func(c string) bool { return relists(folder, list, c) }) {
			delete(k.lists, folder)
		}
	}
}

// relists reports whether a change can have changed what lies in a folder: one of the folder, of
// what it lies in, of what lies in it, or of anything within it that was not there before.
func relists(folder string, list []string, changed string) bool {
	inner, within := strings.CutPrefix(changed, folder+"/")
	if !within {
		return source.Related(folder, changed)
	}
	entry, _, deep := strings.Cut(inner, "/")
	return !deep || !slices.Contains(list, path.Join(folder, entry))
}

// list returns what lies in a folder as it was listed before, or lists it. A list that could
// not be had, or was had by way of a link, is made each time.
func (k *Kept) list(files fs.FS, folder string, read func(fs.FS) ([]string, error)) ([]string, error) {
	if k == nil {
		return read(files)
	}
	if list, ok := k.lists[folder]; ok {
		return list, nil
	}
	list, err := read(files)
	if err != nil || source.Linked(files, folder) {
		return list, err
	}
	if k.lists == nil {
		k.lists = map[string][]string{}
	}
	k.lists[folder] = list
	return list, nil
}

// kept returns a part of a course as it was read before, or reads it. One that was read by
// way of a link can change unseen and is read each time.
func kept[P any](k *Kept, files fs.FS, name string, read func(files fs.FS, name string) (P, []diag.Diagnostic)) (P, []diag.Diagnostic) {
	if k == nil {
		return read(files, name)
	}
	k.mu.Lock()
	old, ok := k.parts[name]
	k.mu.Unlock()
	if ok {
		return old.part.(P), old.faults
	}
	from := &reads{FS: files, names: map[string]bool{name: true}}
	part, faults := read(from, name)
	if !from.linked() {
		k.mu.Lock()
		defer k.mu.Unlock()
		if k.parts == nil {
			k.parts = map[string]keptPart{}
		}
		k.parts[name] = keptPart{part, faults, from.outside(name)}
	}
	return part, faults
}

// reads is a file system that notes what is read of it.
type reads struct {
	fs.FS
	names map[string]bool
}

// Open opens a file.
func (r *reads) Open(name string) (fs.File, error) {
	r.names[name] = true
	return r.FS.Open(name)
}

// Stat looks at a file.
func (r *reads) Stat(name string) (fs.FileInfo, error) {
	r.names[name] = true
	return fs.Stat(r.FS, name)
}

// ReadDir lists a folder.
func (r *reads) ReadDir(name string) ([]fs.DirEntry, error) {
	r.names[name] = true
	return fs.ReadDir(r.FS, name)
}

// linked reports whether anything was read by way of a link.
func (r *reads) linked() bool {
	for name := range r.names {
		if source.Linked(r.FS, name) {
			return true
		}
	}
	return false
}

// outside returns the names that were read: the part's own, and all that lies elsewhere.
func (r *reads) outside(own string) []string {
	list := []string{own}
	for name := range r.names {
		if !source.Related(name, own) {
			list = append(list, name)
		}
	}
	return list
}
