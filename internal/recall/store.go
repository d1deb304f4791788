package recall

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"os"
	"path/filepath"
	"slices"
)

// Build is a finished build as it is remembered.
type Build struct {
	Program string    // tells one build of plait from another
	Inputs  *Snapshot // of all that it read, from before it began
	Site    *Snapshot // of what it wrote
	Files   int       // how many files the site has
	Found   string    // findings, as they were printed
	Summary string    // what was read and found, in one line
}

// Store is where builds are remembered: files for each course and site in the cache
// folder of the user.
type Store struct{ path string }

// StoreFor returns the store for a course that is built into a folder, both absolute
// paths, below a cache folder.
func StoreFor(cache, course, out string) Store {
	sum := sha256.Sum256([]byte(course + "\x00" + out))
	return Store{filepath.Join(cache, "plait", hex.EncodeToString(sum[:12]))}
}

// The kinds of files, each with the text that it begins with, which changes with its
// format.
const (
	buildEnd, buildHead = ".build", "plait build 1\n"
	workEnd, workHead   = ".work", "plait work 1\n"
)

// Save remembers a build.
func (s Store) Save(b Build) error { return save(s.path+buildEnd, buildHead, b.bytes()) }

// Load returns what is remembered; ok is false where that is nothing, or nothing
// that can be read.
func (s Store) Load() (b Build, ok bool) {
	body, ok := load(s.path+buildEnd, buildHead)
	if !ok {
		return Build{}, false
	}
	return parse(body), true
}

// SaveWork remembers what a program has made for the course that takes long to make.
func (s Store) SaveWork(program string, work []byte) error {
	return save(s.path+workEnd, workHead, append(appendText(nil, program), work...))
}

// LoadWork returns what the same program has made for the course; ok is false for nothing.
func (s Store) LoadWork(program string) (work []byte, ok bool) {
	body, ok := load(s.path+workEnd, workHead)
	if !ok {
		return nil, false
	}
	r := newReader(body)
	by := r.text()
	return r.rest, by == program
}

// save writes a file. It replaces the file at once, so that another plait reads the old
// one or the new one.
func save(path, head string, body []byte) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	part, err := os.CreateTemp(filepath.Dir(path), "part-*")
	if err != nil {
		return err
	}
	_, err = part.Write(sealed(head, body))
	err = errors.Join(err, part.Close())
	if err == nil {
		err = os.Rename(part.Name(), path)
	}
	if err != nil {
		os.Remove(part.Name())
	}
	return err
}

// load returns the body of a file.
func load(path, head string) (body []byte, ok bool) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, false
	}
	return unsealed(head, data)
}

// sealed puts the head and a sum in front of a body.
func sealed(head string, body []byte) []byte {
	sum := sha256.Sum256(body)
	return slices.Concat([]byte(head), sum[:], body)
}

// unsealed returns the body. What has a right sum was written by sealed.
func unsealed(head string, data []byte) (body []byte, ok bool) {
	data, ok = bytes.CutPrefix(data, []byte(head))
	if !ok || len(data) < sha256.Size {
		return nil, false
	}
	body = data[sha256.Size:]
	sum := sha256.Sum256(body)
	return body, bytes.Equal(sum[:], data[:sha256.Size])
}

// bytes writes the parts of a build, each text with its length in front.
func (b Build) bytes() []byte {
	var body []byte
	for _, text := range []string{b.Program, b.Found, b.Summary} {
		body = appendText(body, text)
	}
	body = binary.AppendUvarint(body, uint64(b.Files))
	for _, s := range []*Snapshot{b.Inputs, b.Site} {
		body = binary.AppendUvarint(body, uint64(len(s.folders)))
		for _, f := range s.folders {
			body = appendText(body, f.path)
			body = binary.AppendVarint(body, f.time)
			body = binary.AppendUvarint(body, uint64(len(f.files)))
			for _, in := range f.files {
				body = appendText(body, in.name)
				body = binary.AppendVarint(body, in.size)
				body = binary.AppendVarint(body, in.time)
			}
		}
	}
	return body
}

func appendText(b []byte, s string) []byte {
	return append(binary.AppendUvarint(b, uint64(len(s))), s...)
}

// parse reads a build.
func parse(body []byte) (b Build) {
	r := newReader(body)
	b.Program, b.Found, b.Summary = r.text(), r.text(), r.text()
	b.Files = r.count()
	b.Inputs, b.Site = r.snapshot(), r.snapshot()
	return b
}

// reader takes values off the front of what bytes wrote. Texts are pieces of one string: a
// build has a name for each file.
type reader struct {
	rest []byte
	all  string
}

func newReader(body []byte) reader { return reader{body, string(body)} }

func (r *reader) snapshot() *Snapshot {
	s := &Snapshot{folders: make([]folder, r.count())}
	for i := range s.folders {
		f := &s.folders[i]
		f.path, f.time = r.text(), r.number()
		f.files = make([]file, r.count())
		for j := range f.files {
			f.files[j] = file{r.text(), r.number(), r.number()}
		}
	}
	return s
}

func (r *reader) text() string {
	n := r.count()
	at := len(r.all) - len(r.rest)
	r.rest = r.rest[n:]
	return r.all[at : at+n]
}

func (r *reader) count() int {
	n, width := binary.Uvarint(r.rest)
	r.rest = r.rest[width:]
	return int(n)
}

func (r *reader) number() int64 {
	n, width := binary.Varint(r.rest)
	r.rest = r.rest[width:]
	return n
}
