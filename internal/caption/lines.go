package caption

import (
	"strings"

	"plait/internal/source"
)

// scanner goes through a file line by line. LF, CRLF and a lone CR end a line.
type scanner struct {
	file *source.File
	pos  int
}

// next returns the next line without its end; ok is false behind the last.
func (s *scanner) next() (line source.Span, ok bool) {
	text := s.file.Text()
	if s.pos >= len(text) {
		return source.Span{}, false
	}
	start, end := s.pos, len(text)
	s.pos = end
	if i := strings.IndexAny(text[start:], "\r\n"); i >= 0 {
		end = start + i
		s.pos = end + 1
		if strings.HasPrefix(text[end:], "\r\n") {
			s.pos++
		}
	}
	return s.file.Span(start, end), true
}

// back makes line the next one again.
func (s *scanner) back(line source.Span) { s.pos = offset(line) }

// hasArrow reports whether a line of the file looks like the time of a cue.
func hasArrow(file *source.File) bool {
	s := scanner{file: file}
	for line, ok := s.next(); ok; line, ok = s.next() {
		if isTiming(line.Text()) {
			return true
		}
	}
	return false
}

const arrow = "-->"

// isTiming reports whether a line of SubRip is meant as the time of a cue: it
// begins as a time does and has an arrow.
func isTiming(line string) bool {
	digits, rest := cutDigits(strings.TrimLeft(line, " \t"))
	return digits != "" && strings.HasPrefix(rest, ":") && strings.Contains(rest, arrow)
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

func isBlank(line source.Span) bool { return strings.TrimSpace(line.Text()) == "" }
