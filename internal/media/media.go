// Package media reads how long a film or a sound recording runs, from the headers
// of its file: MP4, MOV and M4A (ISO base media file format), WebM and MKV
// (Matroska), MP3 and WAV. Nothing is decoded, no other program is asked, and only
// headers are read, a few bytes at a time and a bounded number of times.
package media

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"time"
)

// Info is what the headers of a recording say.
type Info struct {
	Length        time.Duration
	Width, Height int // in pixels; 0 for sound alone
}

// Sound reports whether the recording has no picture.
func (i Info) Sound() bool { return i.Width == 0 }

// Errors of [Read].
var (
	// ErrFormat is returned for a file that is none of the formats.
	ErrFormat = errors.New("this is no MP4, MOV, M4A, WebM, MKV, MP3 or WAV")
	// ErrNoLength is returned for a file that does not say how long it runs, as
	// some programs write it while they record.
	ErrNoLength = errors.New("the file does not say how long it runs")
	// ErrBroken is returned for a file whose headers contradict each other or
	// that ends too early.
	ErrBroken = errors.New("the file is damaged")
)

// Read reads the headers of an open file. With ErrNoLength it still returns the
// rest. Files that cannot be read from any place, as those of an archive, fail.
func Read(f fs.File) (Info, error) {
	stat, err := f.Stat()
	if err != nil {
		return Info{}, err
	}
	r, ok := f.(io.ReaderAt)
	if !ok {
		return Info{}, fmt.Errorf("%s cannot be read from any place", stat.Name())
	}
	return read(&file{r: r, size: stat.Size()})
}

func read(f *file) (Info, error) {
	head := f.bytes(0, min(12, f.size))
	var info Info
	var err error
	switch {
	case f.err != nil:
	case len(head) < 12:
		return Info{}, ErrFormat
	case string(head[:4]) == "RIFF" && string(head[8:]) == "WAVE", string(head[:4]) == "RF64":
		info, err = readWAV(f)
	case binary.BigEndian.Uint32(head) == idEBML:
		info, err = readMatroska(f)
	case isBox(string(head[4:8])):
		info, err = readMP4(f)
	case string(head[:3]) == "ID3", isMP3Frame(head):
		info, err = readMP3(f)
	default:
		return Info{}, ErrFormat
	}
	switch {
	case f.err != nil:
		return Info{}, f.err
	case err != nil:
		return Info{}, err
	case info.Length <= 0:
		return info, ErrNoLength
	}
	return info, nil
}

// maxReads is how many pieces of a file are read at most: the frames of a day of
// sound, or the blocks of several hours of film that was never indexed.
const maxReads = 4 << 20

// file hands out small pieces of a file. After the first failure it hands out
// zeros, and err says what went wrong.
type file struct {
	r     io.ReaderAt
	size  int64
	reads int
	err   error
}

// bytes returns n bytes from an offset.
func (f *file) bytes(at, n int64) []byte {
	b := make([]byte, n)
	f.reads++
	switch {
	case f.err != nil:
	case at < 0 || at > f.size-n:
		f.err = fmt.Errorf("%w: it ends too early", ErrBroken)
	case f.reads > maxReads:
		f.err = fmt.Errorf("%w: it is cut into too many pieces", ErrBroken)
	default:
		if _, err := f.r.ReadAt(b, at); err != nil && !errors.Is(err, io.EOF) {
			f.err = err
		}
	}
	if f.err != nil {
		clear(b)
	}
	return b
}

// longest bounds what is taken for a length: no lesson runs for a month.
const longest = 31 * 24 * time.Hour

// length returns ticks of a clock as a time, 0 where the clock stands still or the
// time is beyond all reason.
func length(ticks, perSecond float64) time.Duration {
	seconds := ticks / perSecond
	if !(perSecond > 0) || !(seconds > 0) || seconds > longest.Seconds() {
		return 0
	}
	return time.Duration(math.Round(seconds*1000)) * time.Millisecond
}
