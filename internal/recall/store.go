package recall

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"os"
	"path/filepath"
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

// Store is where builds are remembered: a file for each course and site in the
// cache folder of the user.
type Store struct{ path string }

// StoreFor returns the store for a course that is built into a folder, both absolute
// paths, below a cache folder.
func StoreFor(cache, course, out string) Store {
	sum := sha256.Sum256([]byte(course + "\x00" + out))
	return Store{filepath.Join(cache, "plait", hex.EncodeToString(sum[:12])+".build")}
}

// head begins every file. It changes with the format.
const head = "plait build 1\n"

// Save remembers a build. It replaces the file at once, so that another plait reads
// the old memory or the new one.
func (s Store) Save(b Build) error {
	if err := os.MkdirAll(filepath.Dir(s.path), 0o700); err != nil {
		return err
	}
	part, err := os.CreateTemp(filepath.Dir(s.path), "part-*")
	if err != nil {
		return err
	}
	_, err = part.Write(b.bytes())
	err = errors.Join(err, part.Close())
	if err == nil {
		err = os.Rename(part.Name(), s.path)
	}
	if err != nil {
		os.Remove(part.Name())
	}
	return err
}

// Load returns what is remembered; ok is false where that is nothing, or nothing
// that can be read.
func (s Store) Load() (b Build, ok bool) {
	data, err := os.ReadFile(s.path)
	if err != nil {
		return Build{}, false
	}
	return parse(data)
}

// bytes writes a build: the head, a sum of what follows, and its parts, each text
// with its length in front.
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
	sum := sha256.Sum256(body)
	return append(append([]byte(head), sum[:]...), body...)
}

func appendText(b []byte, s string) []byte {
	return append(binary.AppendUvarint(b, uint64(len(s))), s...)
}

// parse reads a build. What has a right sum was written by bytes.
func parse(data []byte) (b Build, ok bool) {
	data, ok = bytes.CutPrefix(data, []byte(head))
	if !ok || len(data) < sha256.Size {
		return Build{}, false
	}
	body := data[sha256.Size:]
	if sum := sha256.Sum256(body); !bytes.Equal(sum[:], data[:sha256.Size]) {
		return Build{}, false
	}
	r := reader{body}
	b.Program, b.Found, b.Summary = r.text(), r.text(), r.text()
	b.Files = r.count()
	b.Inputs, b.Site = r.snapshot(), r.snapshot()
	return b, true
}

// reader takes values off the front of what bytes wrote.
type reader struct{ rest []byte }

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
	s := string(r.rest[:n])
	r.rest = r.rest[n:]
	return s
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
