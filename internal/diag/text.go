package diag

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/width"

	"plait/internal/source"
)

// TextOptions say how diagnostics are printed for people.
type TextOptions struct {
	Colour bool // use terminal colours
}

// WriteText prints each diagnostic as
//
//	path:line:column: severity: message [family/rule]
//	  12 | the line it stands on
//	     |      ^^^^ the stretch it blames
//	  path:line:column: a related place
//	  the way out
//
// in the order given.
func WriteText(w io.Writer, list []Diagnostic, opts TextOptions) error {
	var b strings.Builder
	p := painter(opts.Colour)
	for _, d := range list {
		writeOne(&b, d, p)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func writeOne(b *strings.Builder, d Diagnostic, p painter) {
	fmt.Fprintf(b, "%s%s: %s [%s]\n", p.bold(place(d.Span)), p.severity(d.Severity), d.Message, d.Rule)
	writeQuote(b, d.Span, p)
	for _, n := range d.Notes {
		fmt.Fprintf(b, "  %s%s\n", p.bold(place(n.Span)), n.Message)
	}
	if d.Help != "" {
		fmt.Fprintf(b, "  %s\n", strings.ReplaceAll(d.Help, "\n", "\n  "))
	}
}

func place(s source.Span) string {
	if !s.Valid() {
		return ""
	}
	at := s.Start()
	return fmt.Sprintf("%s:%d:%d: ", s.File().Name(), at.Line, at.Column)
}

// quoteWidth is the number of characters of a quoted line that are shown; longer
// lines are cut to a window around the caret.
const quoteWidth = 140

func writeQuote(b *strings.Builder, s source.Span, p painter) {
	before, marked, after := Quote(s)
	if strings.TrimSpace(before+marked+after) == "" {
		return
	}
	number := fmt.Sprint(s.Start().Line)
	gutter := strings.Repeat(" ", len(number))
	fmt.Fprintf(b, "  %s | %s\n", number, before+marked+after)
	fmt.Fprintf(b, "  %s | %s%s\n", gutter, blank(before), p.caret(strings.Repeat("^", max(displayWidth(marked), 1))))
}

// Quote returns the line on which a span begins, in three parts: before the span,
// what the span marks, and behind it. A long line is cut to a window around the
// mark, with an ellipsis at the cuts, and control characters are replaced.
func Quote(s source.Span) (before, marked, after string) {
	line, offset := s.Line()
	offset = min(offset, len(line))
	before, marked = line[:offset], line[offset:min(offset+s.Len(), len(line))]
	after = line[offset+len(marked):]
	if utf8.RuneCountInString(before) > quoteWidth/2 {
		before = "…" + lastRunes(before, quoteWidth/2)
	}
	if utf8.RuneCountInString(marked)+utf8.RuneCountInString(after) > quoteWidth/2 {
		if utf8.RuneCountInString(marked) > quoteWidth/2 {
			marked, after = firstRunes(marked, quoteWidth/2), "…"
		} else {
			after = firstRunes(after, quoteWidth/2-utf8.RuneCountInString(marked)) + "…"
		}
	}
	return printable(before), printable(marked), printable(after)
}

// blank returns white space as wide as s on a terminal; tabs stay tabs so that
// the caret stands right whatever a tab is worth.
func blank(s string) string {
	var b strings.Builder
	for _, r := range s {
		if r == '\t' {
			b.WriteByte('\t')
			continue
		}
		b.WriteString(strings.Repeat(" ", runeWidth(r)))
	}
	return b.String()
}

func displayWidth(s string) int {
	n := 0
	for _, r := range s {
		n += runeWidth(r)
	}
	return n
}

func runeWidth(r rune) int {
	switch width.LookupRune(r).Kind() {
	case width.EastAsianWide, width.EastAsianFullwidth:
		return 2
	}
	return 1
}

// printable replaces control characters, so that a line of an untrusted file
// cannot steer the terminal.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if r != '\t' && (r < ' ' || r == 0x7f || (r >= 0x80 && r < 0xa0)) {
			return utf8.RuneError
		}
		return r
	}, s)
}

func firstRunes(s string, n int) string {
	for i := range s {
		if n == 0 {
			return s[:i]
		}
		n--
	}
	return s
}

func lastRunes(s string, n int) string {
	i := len(s)
	for ; n > 0 && i > 0; n-- {
		_, size := utf8.DecodeLastRuneInString(s[:i])
		i -= size
	}
	return s[i:]
}

// painter adds terminal colours, or nothing.
type painter bool

func (p painter) wrap(code, s string) string {
	if !p || s == "" {
		return s
	}
	return "\x1b[" + code + "m" + s + "\x1b[0m"
}

func (p painter) bold(s string) string  { return p.wrap("1", s) }
func (p painter) caret(s string) string { return p.wrap("33", s) }

func (p painter) severity(s Severity) string {
	switch s {
	case Error:
		return p.wrap("1;31", s.String())
	case Warning:
		return p.wrap("1;33", s.String())
	}
	return p.wrap("1;36", s.String())
}
