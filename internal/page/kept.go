package page

import (
	"io/fs"
	"slices"
	"sync"

	"plait/internal/asset"
	"plait/internal/source"
)

// Kept is what one build of a process leaves to the next: drawings of head sheets, by
// all that they show, so that a sheet that has not changed costs nothing; and what is
// known of pictures and films, until [Kept.Forget]. The zero Kept is ready; one serves
// one build at a time.
type Kept struct {
	brief     bool // for one build only
	mu        sync.Mutex
	now, last map[string]func() *drawn // of this build and the one before
	pictures  map[string]asset.Picture // by path in the course
	films     map[string]string        // names by content, by path in the course
}

// begin starts a build. What the last one did not ask for of drawings is gone.
func (k *Kept) begin() {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.now, k.last = map[string]func() *drawn{}, k.now
	if k.pictures == nil {
		k.pictures, k.films = map[string]asset.Picture{}, map[string]string{}
	}
}

// Forget drops what is known of files that have changed, come or gone; a folder stands
// for all that lies in it.
func (k *Kept) Forget(changed []string) {
	k.mu.Lock()
	defer k.mu.Unlock()
	forget(k.pictures, changed)
	forget(k.films, changed)
}

func forget[V any](known map[string]V, changed []string) {
	for name := range known {
		if slices.ContainsFunc(changed, func(c string) bool { return source.Related(name, c) }) {
			delete(known, name)
		}
	}
}

// remembered returns what is known of a file, or reads it. A link is read each time: it
// can lead to something else unseen.
func remembered[V any](k *Kept, known map[string]V, files fs.FS, name string, read func(fs.FS, string) (V, error)) (V, error) {
	k.mu.Lock()
	v, ok := known[name]
	k.mu.Unlock()
	if ok {
		return v, nil
	}
	v, err := read(files, name)
	if err != nil || k.brief || source.Linked(files, name) {
		return v, err
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	known[name] = v
	return v, nil
}

// get returns what was drawn for a key, in this build or the one before, or draws it.
func (k *Kept) get(key string, make func() *drawn) *drawn {
	k.mu.Lock()
	once, ok := k.now[key]
	if !ok {
		once, ok = k.last[key]
	}
	if !ok {
		once = sync.OnceValue(make)
	}
	k.now[key] = once
	k.mu.Unlock()
	return once()
}
