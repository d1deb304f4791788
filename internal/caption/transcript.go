package caption

import (
	"regexp"
	"strings"
	"time"
	"unicode/utf8"

	"plait/internal/diag"
	"plait/internal/source"
)

// A plain transcript has a time at the beginning of a line, in brackets or bare,
// one or two of them, and text behind it or on the lines below.
var timedLine = regexp.MustCompile(`^\s*([\[(]?)\s*(\d[\d:.,]*\d)(?:\s*(?:-|–|—|-->)\s*(\d[\d:.,]*\d))?\s*([\])]?)(?:\s*[-–—:]\s+|\s+|$)`)

// transcriptLine is a line that begins with a time.
type transcriptLine struct {
	from, until time.Duration // until is zero where only the start is given
	bracket     bool
	text        int // offset of the text behind the time
}

func readTranscriptLine(line string) (transcriptLine, bool) {
	m := timedLine.FindStringSubmatchIndex(line)
	if m == nil {
		return transcriptLine{}, false
	}
	part := func(i int) string {
		if m[2*i] < 0 {
			return ""
		}
		return line[m[2*i]:m[2*i+1]]
	}
	from, ok := transcriptTime(part(2))
	if !ok || (part(1) == "") != (part(4) == "") {
		return transcriptLine{}, false
	}
	l := transcriptLine{from: from, bracket: part(1) != "", text: m[1]}
	if part(3) != "" {
		if l.until, ok = transcriptTime(part(3)); !ok {
			return transcriptLine{}, false
		}
	}
	return l, true
}

// transcriptTime reads a whole time of which the seconds have two digits: "1:2" is
// a ratio, "1:02" a time.
func transcriptTime(s string) (time.Duration, bool) {
	t, rest, ok := cutStamp(s)
	if !ok || rest != "" {
		return 0, false
	}
	whole, _, _ := strings.Cut(strings.ReplaceAll(s, ",", "."), ".")
	return t.at, len(whole)-strings.LastIndexByte(whole, ':') == 3
}

// transcript reads a plain timed transcript. The first line with a time decides
// whether times stand in brackets; bare times only go forward, so that a number
// within the talk is not taken for one.
func (r *reader) transcript(file *source.File) []Cue {
	s := &scanner{file: file}
	var cues []Cue
	var bracket bool
	for line, ok := s.next(); ok; line, ok = s.next() {
		l, timed := readTranscriptLine(line.Text())
		if timed && len(cues) > 0 {
			timed = l.bracket == bracket && (bracket || l.from >= cues[len(cues)-1].From)
		}
		switch {
		case timed:
			bracket = l.bracket
			text := line.Sub(l.text, line.Len())
			cues = append(cues, Cue{From: l.from, Until: l.until, Text: linesOf(plain(text.Text())), Span: line, Body: text})
		case isBlank(line):
		case len(cues) == 0:
			r.untimed(diag.Note, line)
		default:
			cues[len(cues)-1].extend(line)
		}
	}
	setEnds(cues)
	for _, c := range cues {
		r.backwards(c.Span, c)
	}
	return cues
}

// extend adds a line of text.
func (c *Cue) extend(line source.Span) {
	c.Text = linesOf(c.Text + "\n" + plain(line.Text()))
	c.Span, c.Body = c.Span.To(line), c.Body.To(line)
}

// setEnds ends every cue without an end where the next one begins, and the last one
// when it can have been read.
func setEnds(cues []Cue) {
	for i := range cues {
		c := &cues[i]
		switch {
		case c.Until != 0:
		case i+1 < len(cues) && cues[i+1].From > c.From:
			c.Until = cues[i+1].From
		default:
			c.Until = c.From + readingTime(c.Text)
		}
	}
}

// readingTime is how long a text takes to read at 15 characters a second, the speed
// above which captions are reported, and no less than 2 seconds.
func readingTime(text string) time.Duration {
	return max(2*time.Second, time.Duration(utf8.RuneCountInString(text))*time.Second/15).Round(time.Millisecond)
}
