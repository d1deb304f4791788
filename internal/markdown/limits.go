package markdown

import (
	"strings"
	"unicode/utf8"

	"plait/internal/diag"
	"plait/internal/source"
)

// Limits that hold time and memory for a hostile text down. Reading is quadratic
// in the markers that open quotes and lists on one line, and in the signs that may
// open emphasis, code and links within one paragraph. A table gets a cell in each
// of its columns however short its rows are.
const (
	maxMarkers = 50
	maxSigns   = 2000   // in a paragraph
	maxCells   = 20_000 // in all tables
)

// refused finds what must not reach the Markdown library.
func refused(body source.Span) (diag.Diagnostic, bool) {
	s := body.Text()
	l := limits{body: body}
	for start := 0; start < len(s); {
		line := s[start:]
		if i := strings.IndexByte(line, '\n'); i >= 0 {
			line = line[:i+1]
		}
		if d, bad := l.line(start, line); bad {
			return d, true
		}
		start += len(line)
	}
	return diag.Diagnostic{}, false
}

// limits counts what is limited, line by line.
type limits struct {
	body      source.Span
	paragraph int // where the paragraph begins
	signs     int // in the paragraph
	columns   int // of the paragraph, if it is a table
	cells     int
}

// line counts a line that begins at start and reports what is too much on it.
func (l *limits) line(start int, line string) (diag.Diagnostic, bool) {
	marks, end := markers(line)
	signs, blank, bad := scan(line)
	if blank {
		l.paragraph, l.signs, l.columns = start+len(line), 0, 0
	}
	l.signs += signs
	l.columns = max(l.columns, delimited(line[end:]))
	l.cells += l.columns
	switch {
	case bad >= 0:
		return badCharacter(l.body, start+bad), true
	case marks > maxMarkers:
		return diag.Errorf(ruleNesting, l.body.Sub(start, start+end), "quotes and lists stand more than %d deep in each other", maxMarkers).
			WithHelp("take some of the > and list marks away"), true
	case l.signs > maxSigns:
		return diag.Errorf(ruleNesting, l.body.Sub(l.paragraph, l.paragraph), "the paragraph has more than %d brackets, stars, underscores and backquotes", maxSigns).
			WithHelp("divide it with blank lines"), true
	case l.cells > maxCells:
		return diag.Errorf(ruleNesting, l.body.Sub(start, start), "the tables of the text have more than %d cells", maxCells).
			WithHelp("take rows or columns away, or divide the text into several"), true
	}
	return diag.Diagnostic{}, false
}

// delimited returns the number of columns if the line divides the head of a table
// from its rows, as |---|:-:| does, else 0.
func delimited(line string) int {
	if line == "" || strings.IndexByte("|-: ", line[0]) < 0 {
		return 0
	}
	pipes := 0
	for i := 0; i < len(line); i++ {
		switch line[i] {
		case '|':
			pipes++
		case '-', ':', ' ', '\t', '\r', '\n':
		default:
			return 0
		}
	}
	if pipes == 0 {
		return 0
	}
	return pipes + 1
}

// What a byte of a text is for scan. A blank is none of them.
const (
	signByte    = 1 << iota
	controlByte // may not stand in a text
	wideByte    // part of a character of several bytes, or no text
	plainByte
)

var byteKinds = func() (kinds [256]uint8) {
	for c := range kinds {
		switch {
		case c >= utf8.RuneSelf:
			kinds[c] = wideByte
		case strings.IndexByte(" \t\r\n", byte(c)) >= 0:
		case strings.IndexByte("[]*_`<", byte(c)) >= 0:
			kinds[c] = signByte
		case isControl(rune(c)):
			kinds[c] = controlByte
		default:
			kinds[c] = plainByte
		}
	}
	return kinds
}()

// scan counts the signs on a line, tells whether the line is blank and finds the
// first character that may not stand in a text, −1 for none. It looks at every byte of
// a course, so it asks nothing of a single one: only where a line turns out to hold what
// has to be looked at is it gone through again.
func scan(line string) (signs int, blank bool, bad int) {
	var found uint8
	for i := range len(line) {
		kind := byteKinds[line[i]]
		found |= kind
		signs += int(kind & signByte)
	}
	if found&(controlByte|wideByte) == 0 {
		return signs, found == 0, -1
	}
	return signs, false, firstBad(line)
}

// firstBad finds the first character of a line that may not stand in a text, −1 for none.
func firstBad(line string) int {
	for i, r := range line {
		if isControl(r) || r == utf8.RuneError && !strings.HasPrefix(line[i:], string(utf8.RuneError)) {
			return i
		}
	}
	return -1
}

func badCharacter(body source.Span, offset int) diag.Diagnostic {
	r, size := utf8.DecodeRuneInString(body.Text()[offset:])
	at := body.Sub(offset, offset+size)
	if r == utf8.RuneError && size == 1 {
		return diag.Errorf(ruleCharacter, at, "the byte %#x is no text", at.Text()[0]).
			WithHelp("save the file as UTF-8")
	}
	return diag.Errorf(ruleCharacter, at, "the invisible character %U cannot stand here", r).
		WithHelp("delete it; it often comes along when text is pasted")
}

// isControl reports the characters that have no place in HTML text: the control
// characters other than tab and line ends, and those that never stand for
// anything. Source: HTML Living Standard, 13.1.4, text and character references.
func isControl(r rune) bool {
	switch {
	case r == '\t', r == '\n', r == '\r':
		return false
	case r < ' ', r >= 0x7f && r < 0xa0:
		return true
	case r >= 0xfdd0 && r <= 0xfdef, r&0xfffe == 0xfffe, r == 0xfeff:
		return true
	}
	return false
}

// markers counts the marks of quotes, list items and definitions at the start of a
// line and returns where they end.
func markers(line string) (n, end int) {
	for i := 0; i < len(line); {
		switch c := line[i]; {
		case c == ' ', c == '\t':
			i++
			continue
		case c == '>':
			i++
		case (c == '-' || c == '*' || c == '+' || c == ':') && blankAt(line, i+1):
			i++
		case c >= '0' && c <= '9':
			digits := len(line[i:]) - len(strings.TrimLeft(line[i:], "0123456789"))
			i += digits
			if i >= len(line) || line[i] != '.' && line[i] != ')' || !blankAt(line, i+1) {
				return n, end
			}
			i++
		default:
			return n, end
		}
		n, end = n+1, i
	}
	return n, end
}

func blankAt(line string, i int) bool {
	return i >= len(line) || strings.IndexByte(" \t\r\n", line[i]) >= 0
}
