package build

import (
	"io/fs"
	"slices"
	"sync"

	"plait/internal/diag"
	"plait/internal/lesson"
	"plait/internal/source"
)

// Kept is the lessons that one build leaves to the next of the same course in the same
// process, so that only those are read again of which something has changed. Whoever watches the
// course says what that is, by [Kept.Forget]. The zero Kept is ready; one serves one
// build at a time.
type Kept struct {
	mu      sync.Mutex
	lessons map[string]keptLesson // by folder
}

// keptLesson is a lesson that was read, with the files and folders that it was read
// from.
type keptLesson struct {
	lesson *lesson.Lesson
	faults []diag.Diagnostic
	reads  []string
}

// Forget drops what hangs on files or folders that have changed, come or gone.
func (k *Kept) Forget(changed []string) {
	k.mu.Lock()
	defer k.mu.Unlock()
	for folder, l := range k.lessons {
		for _, name := range changed {
			if slices.ContainsFunc(l.reads, func(read string) bool { return source.Related(read, name) }) {
				delete(k.lessons, folder)
			}
		}
	}
}

// read returns a lesson as it was read before, or reads it. A lesson that was read by
// way of a link can change unseen and is read each time.
func (k *Kept) read(files fs.FS, folder string) (*lesson.Lesson, []diag.Diagnostic) {
	if k == nil {
		return lesson.Read(files, folder)
	}
	k.mu.Lock()
	old, ok := k.lessons[folder]
	k.mu.Unlock()
	if ok {
		return old.lesson, old.faults
	}
	from := &reads{FS: files, names: map[string]bool{folder: true}}
	l, faults := lesson.Read(from, folder)
	if !from.linked() {
		k.mu.Lock()
		defer k.mu.Unlock()
		if k.lessons == nil {
			k.lessons = map[string]keptLesson{}
		}
		k.lessons[folder] = keptLesson{l, faults, from.outside(folder)}
	}
	return l, faults
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

// outside returns the names that were read: the folder, and all that lies elsewhere.
func (r *reads) outside(folder string) []string {
	list := []string{folder}
	for name := range r.names {
		if !source.Related(name, folder) {
			list = append(list, name)
		}
	}
	return list
}
