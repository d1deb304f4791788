package source

import (
	"strings"
	"testing"
	"unicode/utf8"
)

func expectStart(t *testing.T, f *File, needle string, line, column, byteOffset int) {
	t.Helper()
	i := strings.Index(f.Text(), needle)
	if i < 0 {
		t.Fatalf("%q is not in the file", needle)
	}
	got := f.Span(i, i+len(needle)).Start()
	if want := (Position{line, column, byteOffset}); got != want {
		t.Errorf("%q stands at %+v, want %+v", needle, got, want)
	}
}

func TestPositions(t *testing.T) {
	f := NewFile("a.md", []byte("\xef\xbb\xbftítulo: one\r\n\tcafé two\r\nend"))
	expectStart(t, f, "título", 1, 1, 3)
	expectStart(t, f, "one", 1, 9, 12) // í is one character and two bytes
	expectStart(t, f, "two", 2, 7, 24) // a tab is one character
	expectStart(t, f, "end", 3, 1, 29)
}

func TestEncodeKeepsTheByteOrderMark(t *testing.T) {
	for _, text := range []string{"", "café\r\n", "\xef\xbb\xbf", "\xef\xbb\xbfcafé\n"} {
		f := NewFile("a.md", []byte(text))
		if got := string(f.Encode(f.Text())); got != text {
			t.Errorf("got %q, want %q", got, text)
		}
	}
}

func TestLine(t *testing.T) {
	f := NewFile("a.md", []byte("first\r\nsecond line\r\n"))
	text, offset := f.Span(14, 18).Line()
	if text != "second line" || offset != 7 {
		t.Errorf("got %q, %d", text, offset)
	}
}

func TestInvalid(t *testing.T) {
	if s, bad := NewFile("a", []byte("caf\xe9 au lait")).Invalid(); !bad || s.Start().Column != 4 {
		t.Errorf("got %v %v", s.Start(), bad)
	}
	if _, bad := NewFile("a", []byte("café \ufffd")).Invalid(); bad {
		t.Error("a replacement character that was typed is valid text")
	}
}

func TestFragmentKnowsWhereItsLinesStood(t *testing.T) {
	f := NewFile("a.md", []byte("- x\n  ratio: 1:2\n  time: 15\n"))
	g := NewFragment(f.Span(2, 3), f.Span(6, 17), f.Span(19, 28))
	if g.Text() != "ratio: 1:2\ntime: 15\n" {
		t.Fatalf("got %q", g.Text())
	}
	i := strings.Index(g.Text(), "15")
	if p := g.Span(i, i+2).Start(); p.Line != 3 || p.Column != 9 {
		t.Errorf("15 stands at %+v", p)
	}
	if s := NewFragment(f.Span(2, 3)).Span(0, 5); s.Text() != "x" {
		t.Errorf("an empty fragment points at %q", s.Text())
	}
}

// Whatever the bytes, a span stays inside its file and its position counts what
// stands before it.
func FuzzSpan(f *testing.F) {
	f.Add([]byte("a\r\n\xef\xbb\xbfé\n"), 2, 5)
	f.Add([]byte("\xef\xbb\xbf"), -1, 9)
	f.Fuzz(func(t *testing.T, data []byte, a, b int) {
		file := NewFile("x", data)
		s := file.Span(a, b)
		from, to := s.Offsets()
		if from < 0 || from > to || to > len(file.Text()) {
			t.Fatalf("span %d..%d of %d bytes", from, to, len(file.Text()))
		}
		before := file.Text()[:from]
		p := s.Start()
		if p.Line != strings.Count(before, "\n")+1 {
			t.Fatalf("line %d", p.Line)
		}
		tail := before[strings.LastIndexByte(before, '\n')+1:]
		if p.Column != utf8.RuneCountInString(tail)+1 {
			t.Fatalf("column %d", p.Column)
		}
	})
}
