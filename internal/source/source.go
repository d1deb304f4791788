// Package source keeps what an author wrote together with the place it stands.
//
// A [File] holds the bytes of one input file. A [Span] is a stretch of bytes in
// it, two integers wide, carried along from the first read; line and column are
// worked out only when a message is printed ([Span.Start], [Span.End]). Columns
// count characters, as an author counts them, and bytes are kept beside them for
// tools. A [Text] is an authored value with its span, and a [Fragment] is a run
// of lines taken out of a file with their indent removed, which still knows where
// each of its bytes came from.
package source

import (
	"bytes"
	"cmp"
	"sort"
	"strings"
	"sync"
	"unicode/utf8"
)

var byteOrderMark = []byte("\xef\xbb\xbf")

// File is one input file, read whole. It is safe for concurrent use.
type File struct {
	name string
	text string // without the byte order mark
	mark int    // length of the byte order mark that was taken off

	once  sync.Once
	lines []int // byte offset of each line's first byte
}

// NewFile wraps the bytes of a file. Name is its slash-separated path as messages
// show it. A byte order mark at the start is taken off; offsets count from behind
// it.
func NewFile(name string, data []byte) *File {
	body := bytes.TrimPrefix(data, byteOrderMark)
	return &File{name: name, text: string(body), mark: len(data) - len(body)}
}

// Name returns the path that messages show.
func (f *File) Name() string { return f.name }

// Text returns the file's text without a byte order mark.
func (f *File) Text() string { return f.text }

// Encode returns the bytes of a new text for the file: with a byte order mark where
// the file began with one.
func (f *File) Encode(text string) []byte {
	if f.mark == 0 {
		return []byte(text)
	}
	return append(bytes.Clone(byteOrderMark), text...)
}

// Span returns the bytes from start up to end, held inside the file.
func (f *File) Span(start, end int) Span {
	start = min(max(start, 0), len(f.text))
	end = min(max(end, start), len(f.text))
	return Span{file: f, from: int32(start), to: int32(end)}
}

// Whole returns the span of the whole file.
func (f *File) Whole() Span { return f.Span(0, len(f.text)) }

// Invalid returns the span of the first byte that is not UTF-8.
func (f *File) Invalid() (Span, bool) {
	if utf8.ValidString(f.text) {
		return Span{}, false
	}
	for i := 0; i < len(f.text); {
		r, size := utf8.DecodeRuneInString(f.text[i:])
		if r == utf8.RuneError && size == 1 {
			return f.Span(i, i+1), true
		}
		i += size
	}
	return Span{}, false
}

// lineStart returns the number of the line that holds a byte offset, from 0, and
// the offset of that line's first byte.
func (f *File) lineStart(offset int) (line, start int) {
	f.once.Do(func() {
		f.lines = append(f.lines, 0)
		for i := 0; i < len(f.text); i++ {
			if f.text[i] == '\n' {
				f.lines = append(f.lines, i+1)
			}
		}
	})
	line = sort.SearchInts(f.lines, offset+1) - 1
	return line, f.lines[line]
}

// Span is a stretch of bytes in a file. The zero Span is no place at all.
type Span struct {
	file     *File
	from, to int32 // a course has hundreds of thousands of spans, and no file nears this
}

// File returns the file the span lies in, nil for the zero span.
func (s Span) File() *File { return s.file }

// Valid reports whether the span names a place.
func (s Span) Valid() bool { return s.file != nil }

// Offsets returns the byte offsets of the span, from the file's first byte
// behind a byte order mark.
func (s Span) Offsets() (from, to int) { return int(s.from), int(s.to) }

// Len returns the number of bytes in the span.
func (s Span) Len() int { return int(s.to - s.from) }

// Text returns the bytes of the span.
func (s Span) Text() string {
	if s.file == nil {
		return ""
	}
	return s.file.text[s.from:s.to]
}

// Sub returns the stretch from start up to end counted from the span's own first
// byte, held inside the file.
func (s Span) Sub(start, end int) Span {
	if s.file == nil {
		return s
	}
	return s.file.Span(int(s.from)+start, int(s.from)+end)
}

// To returns the span from the start of s to the end of other, which lies in the
// same file.
func (s Span) To(other Span) Span {
	if s.file == nil || s.file != other.file {
		return s
	}
	return Span{file: s.file, from: s.from, to: max(s.to, other.to)}
}

// Contains reports whether other lies within s.
func (s Span) Contains(other Span) bool {
	return s.file == other.file && s.from <= other.from && other.to <= s.to
}

// Position is a place as people and tools name it.
type Position struct {
	Line   int // from 1
	Column int // in characters (code points), from 1
	Byte   int // bytes before this place in the file, byte order mark included
}

// Start returns where the span begins.
func (s Span) Start() Position { return s.position(int(s.from)) }

// End returns the place just behind the span.
func (s Span) End() Position { return s.position(int(s.to)) }

func (s Span) position(offset int) Position {
	if s.file == nil {
		return Position{}
	}
	line, start := s.file.lineStart(offset)
	return Position{
		Line:   line + 1,
		Column: utf8.RuneCountInString(s.file.text[start:offset]) + 1,
		Byte:   offset + s.file.mark,
	}
}

// Line returns the whole line the span begins on, without its line end, and the
// offset of the span's first byte in it.
func (s Span) Line() (text string, offset int) {
	if s.file == nil {
		return "", 0
	}
	_, start := s.file.lineStart(int(s.from))
	rest := s.file.text[start:]
	if i := strings.IndexByte(rest, '\n'); i >= 0 {
		rest = rest[:i]
	}
	return strings.TrimSuffix(rest, "\r"), int(s.from) - start
}

// Compare orders spans by file name, then start, then end; it returns −1, 0 or +1.
func (s Span) Compare(other Span) int {
	a, b := "", ""
	if s.file != nil {
		a = s.file.name
	}
	if other.file != nil {
		b = other.file.name
	}
	if c := strings.Compare(a, b); c != 0 {
		return c
	}
	return cmp.Or(cmp.Compare(s.from, other.from), cmp.Compare(s.to, other.to))
}

// Text is an authored value and the place it stands.
type Text struct {
	Value string
	Span  Span
}

// Trim returns the text without white space around it, its span narrowed alike.
func (t Text) Trim() Text {
	left, right := 0, len(t.Value)
	for left < right && isBlank(t.Value[left]) {
		left++
	}
	for left < right && isBlank(t.Value[right-1]) {
		right--
	}
	return t.Slice(left, right)
}

// isBlank reports whether a byte may stand around a value without being part of it.
func isBlank(c byte) bool { return c == ' ' || c == '\t' || c == '\r' || c == '\n' }

// Slice returns the part of the text from byte start up to end, its span narrowed
// alike. Where the value is not what stands in the file letter for letter (a
// quoted scalar with escapes), the whole span is kept.
func (t Text) Slice(start, end int) Text {
	part := Text{Value: t.Value[start:end], Span: t.Span}
	if t.Span.Len() == len(t.Value) {
		part.Span = t.Span.Sub(start, end)
	}
	return part
}

// Split cuts the text at every separator and trims the parts.
func (t Text) Split(sep string) []Text {
	var parts []Text
	start := 0
	for {
		i := strings.Index(t.Value[start:], sep)
		if i < 0 {
			return append(parts, t.Slice(start, len(t.Value)).Trim())
		}
		parts = append(parts, t.Slice(start, start+i).Trim())
		start += i + len(sep)
	}
}

// Cut cuts the text at the first separator and trims both parts; found is false,
// and before the whole text, where there is none.
func (t Text) Cut(sep string) (before, after Text, found bool) {
	i := strings.Index(t.Value, sep)
	if i < 0 {
		return t.Trim(), t.Slice(len(t.Value), len(t.Value)), false
	}
	return t.Slice(0, i).Trim(), t.Slice(i+len(sep), len(t.Value)).Trim(), true
}
