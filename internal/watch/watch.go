// Package watch tells when files of a course's folder change.
//
// A [Watcher] follows a folder and all folders in it. What the system reports is
// only a hint where to look: one save can come as ten events, a folder that is
// copied in comes as one, and a full queue as none. So events mark places as
// dirty, and when they have been quiet for a moment these places are read again
// and compared with what was known. Only a difference is passed on, as one batch
// of paths: a new size or other bytes, a file or a folder that came or went.
//
// The same bytes saved again are no difference for files of up to 64 KiB, the
// size of lessons and settings, whose sums are kept. Larger ones, pictures and
// film, count as changed when they were written to.
package watch

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"time"

	"github.com/fsnotify/fsnotify"
)

const (
	// quiet is how long nothing may happen before the dirty places are read. The
	// pieces in which a program writes a file follow each other faster.
	quiet = 4 * time.Millisecond
	// pause is the same while a file is gone that held something, or is empty: an editor
	// is about to put another in its place, or to fill it.
	pause = 15 * time.Millisecond
	// patience is how long a stream of events may hold up the reading.
	patience = 100 * time.Millisecond
	// pulse is how often the watched folder itself is looked for.
	pulse = time.Second
	// buffer is how many events wait while places are read.
	buffer = 1024
)

// ErrGone is returned by [Watcher.Run] when the watched folder is no longer there.
var ErrGone = errors.New("the watched folder is gone")

// Watcher follows one folder. Make it with [New], then call [Watcher.Run].
type Watcher struct {
	dir    string // absolute, without symbolic links
	ignore func(path string) bool
	notify *fsnotify.Watcher
	top    *node           // what is known of the folder
	self   fs.FileInfo     // the folder that is watched, whatever stands in its place
	dirty  map[string]bool // places to read again; true where bytes were written
	found  map[string]bool // changed paths that were not passed on yet
	missed map[string]bool // places that were seen gone or empty since the last reading
}

// New begins to follow the folder dir. What changes from now on is reported by
// Run, so a build that is started after New misses nothing.
//
// Paths are relative to dir and separated by slashes. Those for which ignore
// returns true are not looked at, nor is what lies in them; it is asked for each
// folder before it is entered, and may be nil. Files that editors and version
// stores make for themselves are always left out. Symbolic links are not followed:
// a link counts as changed when it leads somewhere else.
func New(dir string, ignore func(path string) bool) (*Watcher, error) {
	real, err := filepath.Abs(dir)
	if err == nil {
		real, err = filepath.EvalSymlinks(real)
	}
	if err != nil {
		return nil, fmt.Errorf("cannot watch %s: %w", dir, err)
	}
	notify, err := fsnotify.NewBufferedWatcher(buffer)
	if err != nil {
		return nil, fmt.Errorf("cannot watch %s: %w", dir, explained(err))
	}
	w := &Watcher{dir: real, ignore: ignore, notify: notify, dirty: map[string]bool{}, found: map[string]bool{}, missed: map[string]bool{}}
	w.top, err = w.look(".", nil, false)
	if err == nil && (w.top == nil || !w.top.folder()) {
		err = syscall.ENOTDIR
	}
	if err != nil {
		notify.Close()
		return nil, fmt.Errorf("cannot watch %s: %w", dir, err)
	}
	clear(w.found)
	return w, nil
}

// Run sends batches of changed paths, sorted, until the context is done or the
// folder can no longer be watched; it then releases the Watcher. It returns nil
// for a context that is done, [ErrGone] for a folder that was removed. While the
// receiver is busy changes gather into one batch.
func (w *Watcher) Run(ctx context.Context, batches chan<- []string) error {
	defer w.notify.Close()
	calm := time.NewTimer(quiet)
	calm.Stop()
	look := time.NewTicker(pulse)
	defer look.Stop()
	var first time.Time // of the events since the last reading
	var paused bool     // since the last event
	for {
		var send chan<- []string
		if len(w.found) > 0 {
			send = batches
		}
		select {
		case <-ctx.Done():
			return nil
		case event := <-w.notify.Events:
			if !w.mark(event) {
				continue
			}
		case err := <-w.notify.Errors:
			if !errors.Is(err, fsnotify.ErrEventOverflow) {
				return fmt.Errorf("cannot watch %s any longer: %w", w.dir, err)
			}
			w.dirty["."] = false // anything may have happened
		case <-look.C:
			if !w.replaced() {
				continue
			}
			w.dirty["."] = false
		case <-calm.C:
			left := time.Until(first.Add(patience))
			if !paused && left > 0 && w.halfSaved() {
				paused = true
				calm.Reset(min(pause-quiet, left))
				continue
			}
			first = time.Time{}
			if err := w.settle(); err != nil {
				return fmt.Errorf("cannot watch %s any longer: %w", w.dir, err)
			}
			continue
		case send <- slices.Sorted(maps.Keys(w.found)):
			w.found = map[string]bool{}
			continue
		}
		now := time.Now()
		first, paused = cmp.Or(first, now), false
		calm.Reset(min(quiet, first.Add(patience).Sub(now)))
	}
}

// halfSaved reports whether a dirty file looks like one that is being saved.
func (w *Watcher) halfSaved() bool {
	for name := range w.dirty {
		old := w.top.find(name)
		held := old != nil && !old.folder() && old.size > 0
		info, err := os.Lstat(w.path(name))
		gone := err != nil && held
		emptied := err == nil && info.Mode().IsRegular() && info.Size() == 0 && (old == nil || held)
		if gone || emptied {
			w.missed[name] = true
			return true
		}
	}
	return false
}

// replaced reports whether the watched folder is gone or another one is in its
// place. The system is silent about the removal of a folder that some program, such
// as a build, holds open.
func (w *Watcher) replaced() bool {
	info, err := os.Lstat(w.dir)
	return err != nil || !os.SameFile(info, w.self)
}

// mark notes the place of an event and reports whether it matters.
func (w *Watcher) mark(event fsnotify.Event) bool {
	name, err := filepath.Rel(w.dir, event.Name)
	if err != nil {
		return false
	}
	name = filepath.ToSlash(name)
	if w.ignored(name) {
		return false
	}
	if event.Has(fsnotify.Remove) || event.Has(fsnotify.Rename) {
		w.missed[name] = true
	}
	written := event.Has(fsnotify.Write) || event.Has(fsnotify.Create)
	w.dirty[name] = w.dirty[name] || written
	return true
}

// ignored reports whether a path or a folder on the way to it is left out.
func (w *Watcher) ignored(name string) bool {
	for ; name != "."; name = path.Dir(name) {
		if noise(path.Base(name)) || w.ignore != nil && w.ignore(name) {
			return true
		}
	}
	return false
}

// noise reports whether a name is one that editors, desktops and version stores
// use for files of their own.
func noise(base string) bool {
	switch base {
	case ".git", ".hg", ".svn", ".DS_Store", "Thumbs.db", "desktop.ini", "4913":
		return true
	}
	switch strings.ToLower(path.Ext(base)) {
	case ".swp", ".swo", ".swx":
		return true
	}
	return strings.HasSuffix(base, "~") || strings.HasPrefix(base, ".#") ||
		strings.HasPrefix(base, "#") && strings.HasSuffix(base, "#")
}

// settle reads the dirty places again.
func (w *Watcher) settle() error {
	dirty := slices.Sorted(maps.Keys(w.dirty))
	// A folder that was moved keeps the watches it had under its old name, and the
	// events of its files that name. So the watches of all dirty folders go before
	// any of them is read and watched anew.
	for _, name := range dirty {
		if n := w.top.find(name); n != nil {
			w.forget(name, n)
		}
	}
	for _, name := range dirty {
		if err := w.readAgain(name, w.dirty[name]); err != nil {
			return err
		}
	}
	// Who is told of changes may have looked while a file was gone that is there again as it was.
	for name := range w.missed {
		if n := w.top.find(name); n != nil && !n.folder() {
			w.found[name] = true
		}
	}
	clear(w.dirty)
	clear(w.missed)
	return nil
}

// forget takes the watches off a folder and the folders in it.
func (w *Watcher) forget(name string, n *node) {
	if !n.folder() {
		return
	}
	_ = w.notify.Remove(w.path(name)) // it fails where the system has done so itself
	for child, c := range n.children {
		w.forget(path.Join(name, child), c)
	}
}

func (w *Watcher) readAgain(name string, written bool) error {
	if name == "." {
		top, err := w.look(".", w.top, false)
		if err == nil && (top == nil || !top.folder()) {
			err = ErrGone
		}
		if err == nil {
			w.top = top
		}
		return err
	}
	parent := w.top.find(path.Dir(name))
	if parent == nil || !parent.folder() {
		return nil // its folder is dirty too, or gone
	}
	n, err := w.look(name, parent.children[path.Base(name)], written)
	if err != nil {
		return err
	}
	parent.set(path.Base(name), n)
	return nil
}

// look reads what is at a path, notes how it differs from what was known, and
// returns what is known now: nil where nothing is there.
func (w *Watcher) look(name string, old *node, written bool) (*node, error) {
	info, err := os.Lstat(w.path(name))
	if err != nil {
		w.lose(name, old) // what cannot be looked at is as good as gone
		return nil, nil
	}
	if name == "." {
		w.self = info
	}
	if info.IsDir() {
		return w.lookIn(name, old)
	}
	if old != nil && old.folder() {
		w.lose(name, old)
		old = nil
	}
	n := newFile(w.path(name), info, old, written)
	if old == nil || n.differs(old, written) {
		w.found[name] = true
	}
	return n, nil
}

// lookIn watches a folder, and then reads it: what comes later is an event.
func (w *Watcher) lookIn(name string, old *node) (*node, error) {
	err := w.notify.Add(w.path(name))
	if errors.Is(err, fs.ErrNotExist) {
		w.lose(name, old)
		return nil, nil
	}
	// A folder that may not be read is known as an empty one until it may.
	if err != nil && !errors.Is(err, fs.ErrPermission) {
		return nil, explained(err)
	}
	if old == nil || !old.folder() {
		w.found[name] = true
		old = newFolder()
	}
	entries, err := os.ReadDir(w.path(name))
	if err != nil && !errors.Is(err, fs.ErrNotExist) && !errors.Is(err, fs.ErrPermission) {
		return nil, err
	}
	n := newFolder()
	for _, e := range entries {
		child := path.Join(name, e.Name())
		if w.ignored(child) {
			continue
		}
		c, err := w.look(child, old.children[e.Name()], false)
		if err != nil {
			return nil, err
		}
		n.set(e.Name(), c)
	}
	for base, c := range old.children {
		if n.children[base] == nil {
			w.lose(path.Join(name, base), c)
		}
	}
	return n, nil
}

// lose notes that something, and all that was in it, is no longer there.
func (w *Watcher) lose(name string, old *node) {
	if old == nil {
		return
	}
	w.found[name] = true
	for child, c := range old.children {
		w.lose(path.Join(name, child), c)
	}
}

func (w *Watcher) path(name string) string {
	return filepath.Join(w.dir, filepath.FromSlash(name))
}

// explained adds a way out to the errors of a system that watches no more.
func explained(err error) error {
	switch {
	case errors.Is(err, syscall.ENOSPC):
		return fmt.Errorf("the system allows no more watched folders: raise fs.inotify.max_user_watches, or leave folders out of the course: %w", err)
	case errors.Is(err, syscall.EMFILE):
		return fmt.Errorf("too many programs watch folders already: close some, or raise fs.inotify.max_user_instances: %w", err)
	}
	return err
}
