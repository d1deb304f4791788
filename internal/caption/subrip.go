package caption

import (
	"regexp"
	"strings"

	"plait/internal/diag"
	"plait/internal/source"
)

// SubRip has no standard; what is read is what players take: times with comma or
// dot, a counter or none, positions behind the time, an empty line within a text.

// subRipTags are the marks that SubRip files carry in their text. Only known ones
// are taken out, for a lone < is text.
var subRipTags = regexp.MustCompile(`(?i)</?(?:b|i|u|s|font|c|v|lang|ruby|rt)(?:[ .][^<>]*)?>|\{\\[^{}]*\}`)

// subRip reads the cues of a SubRip file: everything between one line with a time
// and the next, without the counter of the next.
func (r *reader) subRip(file *source.File) []Cue {
	s := &scanner{file: file}
	var cues []Cue
	time, ok := r.subRipPreamble(s)
	for ok {
		var text []source.Span
		var next source.Span
		text, next, ok = s.untilTiming()
		if c, readable := r.subRipCue(time, text); readable {
			cues = append(cues, c)
		}
		time = next
	}
	return cues
}

// subRipPreamble passes what stands above the first time: its counter at most.
func (r *reader) subRipPreamble(s *scanner) (time source.Span, ok bool) {
	before, time, ok := s.untilTiming()
	if len(before) > 0 {
		r.untimed(diag.Warning, join(before[0], before[len(before)-1]))
	}
	return time, ok
}

// untilTiming returns the lines up to the next time, without the counter above it
// and without empty lines around them; ok is false at the end of the file.
func (s *scanner) untilTiming() (text []source.Span, time source.Span, ok bool) {
	for {
		line, more := s.next()
		if !more {
			return trimBlank(text), source.Span{}, false
		}
		if isTiming(line.Text()) {
			return trimBlank(dropCounter(text)), line, true
		}
		text = append(text, line)
	}
}

// dropCounter takes off the number that stands directly above a time.
func dropCounter(lines []source.Span) []source.Span {
	if n := len(lines); n > 0 && isCounter(lines[n-1].Text()) {
		return lines[:n-1]
	}
	return lines
}

func isCounter(line string) bool {
	digits, rest := cutDigits(strings.TrimSpace(line))
	return digits != "" && rest == ""
}

func trimBlank(lines []source.Span) []source.Span {
	for len(lines) > 0 && isBlank(lines[0]) {
		lines = lines[1:]
	}
	for len(lines) > 0 && isBlank(lines[len(lines)-1]) {
		lines = lines[:len(lines)-1]
	}
	return lines
}

func (r *reader) subRipCue(line source.Span, text []source.Span) (Cue, bool) {
	t, ok := readTiming(line.Text())
	if !ok {
		r.unreadable(line)
		return Cue{}, false
	}
	c := Cue{From: t.from, Until: t.until, Span: line, Body: line.Sub(line.Len(), line.Len())}
	if len(text) > 0 {
		c.Body = text[0].To(text[len(text)-1])
		c.Span = line.To(c.Body)
	}
	r.backwards(line, c)
	c.Text = linesOf(subRipTags.ReplaceAllString(plain(c.Body.Text()), ""))
	return c, true
}

// linesOf trims the lines of a text and drops the empty ones.
func linesOf(text string) string {
	var kept []string
	for line := range strings.SplitSeq(text, "\n") {
		if line = strings.TrimSpace(line); line != "" {
			kept = append(kept, line)
		}
	}
	return strings.Join(kept, "\n")
}
