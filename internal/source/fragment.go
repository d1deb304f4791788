package source

import (
	"sort"
	"strings"
)

// Fragment is text gathered from a file piece by piece: the lines of a fence that
// stands in a list, say, without the list's indent. It reads as one string, and
// [Fragment.Span] tells where in the file any part of it stands.
type Fragment struct {
	file   *File
	anchor Span // where messages point when the fragment is empty
	text   string
	pieces []piece
}

// piece says that the fragment's bytes from at on were taken from the file at
// offset.
type piece struct{ at, offset int }

// NewFragment joins spans of one file in the order given. The anchor is the place
// to blame when there is nothing in the fragment to point at.
func NewFragment(anchor Span, spans ...Span) *Fragment {
	f := &Fragment{file: anchor.file, anchor: anchor}
	spans = joined(spans)
	if len(spans) == 1 {
		f.text, f.pieces = spans[0].Text(), []piece{{offset: int(spans[0].from)}}
		return f
	}
	var text strings.Builder
	for _, s := range spans {
		f.pieces = append(f.pieces, piece{at: text.Len(), offset: int(s.from)})
		text.WriteString(s.Text())
	}
	f.text = text.String()
	return f
}

// joined returns the span of all spans if each begins where the one before it ends, as the
// lines of a fence do that is not indented: their text then need not be copied.
func joined(spans []Span) []Span {
	for i := 1; i < len(spans); i++ {
		if spans[i].file != spans[0].file || spans[i].from != spans[i-1].to {
			return spans
		}
	}
	if len(spans) < 2 {
		return spans
	}
	return []Span{spans[0].To(spans[len(spans)-1])}
}

// Fragment returns the whole file as one fragment.
func (f *File) Fragment() *Fragment { return NewFragment(f.Whole(), f.Whole()) }

// Text returns the gathered text.
func (f *Fragment) Text() string { return f.text }

// File returns the file the fragment was taken from.
func (f *Fragment) File() *File { return f.file }

// Anchor returns the place to blame for the fragment as a whole.
func (f *Fragment) Anchor() Span { return f.anchor }

// Span maps the fragment's bytes from start up to end to their place in the file.
func (f *Fragment) Span(start, end int) Span {
	if len(f.pieces) == 0 {
		return f.anchor
	}
	start = min(max(start, 0), len(f.text))
	end = min(max(end, start), len(f.text))
	from := f.offset(start)
	to := from
	if end > start {
		to = f.offset(end-1) + 1
	}
	return f.file.Span(from, to)
}

func (f *Fragment) offset(at int) int {
	i := sort.Search(len(f.pieces), func(i int) bool { return f.pieces[i].at > at }) - 1
	p := f.pieces[max(i, 0)]
	return p.offset + at - p.at
}

// Whole returns the stretch of the file from the fragment's first byte to its
// last, with whatever was left out between them.
func (f *Fragment) Whole() Span { return f.Span(0, len(f.text)) }
