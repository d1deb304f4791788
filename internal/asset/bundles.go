package asset

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"io/fs"
	"slices"
	"sync"
)

// Bundles keeps what was bundled from build to build. A bundle is used again while every
// file that it was made of, as layouts have it now, holds the same. The zero Bundles is
// ready and safe for concurrent use; nil keeps nothing.
type Bundles struct {
	mu    sync.Mutex
	known map[string]Bundled // by entry and global
	fresh bool
}

// Bundled is a bundle as it is kept.
type Bundled struct {
	Key  string // what it was asked for as
	From []Source
	Data []byte
}

// Source is a file that went into a bundle, by its content.
type Source struct {
	Name string
	Sum  [sha256.Size]byte
}

// Load takes what another process of the same program kept.
func (b *Bundles) Load(list []Bundled) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.known = map[string]Bundled{}
	for _, one := range list {
		b.known[one.Key] = one
	}
}

// List returns all that is kept, in one order; fresh says that something was not loaded.
func (b *Bundles) List() (list []Bundled, fresh bool) {
	b.mu.Lock()
	defer b.mu.Unlock()
	for _, one := range b.known {
		list = append(list, one)
	}
	slices.SortFunc(list, func(x, y Bundled) int { return cmp.Compare(x.Key, y.Key) })
	return list, b.fresh
}

// get returns a bundle that is still good, or makes it.
func (b *Bundles) get(layouts fs.FS, entry, global string) ([]byte, error) {
	if b == nil {
		data, _, err := bundle(layouts, entry, global)
		return data, err
	}
	key := entry + " " + global
	b.mu.Lock()
	old, ok := b.known[key]
	b.mu.Unlock()
	if ok && old.holds(layouts) {
		return bytes.Clone(old.Data), nil
	}
	data, from, err := bundle(layouts, entry, global)
	if err != nil {
		return nil, err
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.known == nil {
		b.known = map[string]Bundled{}
	}
	b.known[key], b.fresh = Bundled{key, from, bytes.Clone(data)}, true
	return data, nil
}

// holds reports whether a bundle would be made of the same files again. Which files go in
// is said by the files themselves.
func (b Bundled) holds(layouts fs.FS) bool {
	for _, s := range b.From {
		data, err := fs.ReadFile(layouts, s.Name)
		if err != nil || sha256.Sum256(data) != s.Sum {
			return false
		}
	}
	return len(b.From) > 0
}
