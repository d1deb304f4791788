package caption

import (
	"fmt"
	"html"
	"regexp"
	"strings"
	"time"

	"plait/internal/diag"
	"plait/internal/source"
)

const signature = "WEBVTT"

// isWebVTT reports whether the text begins as WebVTT does: the word, and behind it
// nothing, a blank or the end of the line.
func isWebVTT(text string) bool {
	rest, ok := strings.CutPrefix(text, signature)
	return ok && (rest == "" || strings.ContainsRune(" \t\r\n", rune(rest[0])))
}

// webVTT reads the blocks of a WebVTT file.
func (r *reader) webVTT(file *source.File) []Cue {
	s := &scanner{file: file}
	if isWebVTT(file.Text()) {
		s.skipHeader()
	}
	var cues []Cue
	for {
		b, ok := s.block()
		if !ok {
			return cues
		}
		if !b.arrow.Valid() {
			r.note(b)
			continue
		}
		if c, ok := r.cue(b); ok {
			cues = append(cues, c)
		}
	}
}

// skipHeader passes the first line and what is written directly under it.
func (s *scanner) skipHeader() {
	s.next()
	for line, ok := s.next(); ok; line, ok = s.next() {
		if line.Len() == 0 {
			return
		}
		if strings.Contains(line.Text(), arrow) {
			s.back(line)
			return
		}
	}
}

// block is a run of lines without an empty one.
type block struct {
	head  source.Span // the line above the time, or the first of a block without one
	arrow source.Span // the line with the time; not valid where there is none
	body  source.Span // what follows it; not valid where nothing does
	whole source.Span
}

// block returns the next block, as the standard collects it: a time stands on the
// block's first or second line, and a line with an arrow further down begins a
// block of its own.
func (s *scanner) block() (block, bool) {
	var b block
	line, ok := s.next()
	for ; ok && line.Len() == 0; line, ok = s.next() {
	}
	for n := 1; ok && line.Len() > 0; n++ {
		switch {
		case strings.Contains(line.Text(), arrow):
			if b.arrow.Valid() || n > 2 {
				s.back(line)
				return b, true
			}
			b.arrow = line
		case b.arrow.Valid():
			b.body = join(b.body, line)
		case n == 1:
			b.head = line
		}
		b.whole = join(b.whole, line)
		line, ok = s.next()
	}
	return b, b.whole.Valid()
}

func join(a, b source.Span) source.Span {
	if !a.Valid() {
		return b
	}
	return a.To(b)
}

// notText are the words that begin the blocks of WebVTT that are no cue.
var notText = []string{"NOTE", "STYLE", "REGION"}

// note passes a block without a time: a comment, a style or a region, or else text
// that no browser would show.
func (r *reader) note(b block) {
	for _, word := range notText {
		rest, ok := strings.CutPrefix(b.head.Text(), word)
		if ok && (rest == "" || rest[0] == ' ' || rest[0] == '\t') {
			return
		}
	}
	r.untimed(diag.Warning, b.whole)
}

// cue reads a block with a time.
func (r *reader) cue(b block) (Cue, bool) {
	t, ok := readTiming(b.arrow.Text())
	if !ok {
		r.unreadable(b.arrow)
		return Cue{}, false
	}
	c := Cue{ID: b.head.Text(), From: t.from, Until: t.until, Span: b.whole, Body: b.body}
	if !b.body.Valid() {
		c.Body = b.arrow.Sub(b.arrow.Len(), b.arrow.Len())
	}
	if !t.strict {
		r.reportf(diag.Note, b.arrow, "a browser does not read this time and drops the caption; it was read as %s %s %s",
			clock(t.from), arrow, clock(t.until)).
			edit(timesOf(b.arrow), clock(t.from)+" "+arrow+" "+clock(t.until)).
			help("write hours, minutes and seconds with two digits and milliseconds behind a dot, as in 00:00:42.000")
	}
	r.backwards(b.arrow, c)
	r.setMarkup(&c, b.body)
	return c, true
}

// timesOf returns the part of the line that holds the two times.
func timesOf(line source.Span) source.Span {
	text := line.Text()
	start := len(text) - len(strings.TrimLeft(text, spaces))
	behind := strings.Index(text, arrow) + len(arrow)
	behind += len(text[behind:]) - len(strings.TrimLeft(text[behind:], spaces))
	_, rest, _ := cutStamp(text[behind:])
	return line.Sub(start, len(text)-len(rest))
}

// clock prints a time as WebVTT wants it.
func clock(d time.Duration) string {
	ms := d.Milliseconds()
	return fmt.Sprintf("%02d:%02d:%02d.%03d", ms/3600000, ms/60000%60, ms/1000%60, ms%1000)
}

// plain gives all line ends one form and stands in for what cannot be text, as the
// standard wants.
func plain(s string) string {
	if !strings.ContainsAny(s, "\r\x00") {
		return s
	}
	return plainly.Replace(s)
}

// Made once: making them takes longer than a line does.
var (
	plainly   = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\x00", "\ufffd")
	oneLine   = strings.NewReplacer("\n", " ", "\t", " ", "\f", " ")
	sameLines = strings.NewReplacer("\n", " ", "\r", " ")
)

// tagForm is what stands between < and > in a tag: a name with classes and a note
// behind it, the end of one, or a time.
var tagForm = regexp.MustCompile(`^(?:/?[A-Za-z]+(?:[. \t\n\f\r][^<]*)?|/|\d[\d:.]*|)$`)

// setMarkup sets a cue's text and speakers from text with WebVTT's tags, of which
// only the voices are kept. A < that begins no tag is kept as text, and reported,
// for a browser hides what follows it.
func (r *reader) setMarkup(c *Cue, body source.Span) {
	var text strings.Builder
	raw := body.Text()
	for at := 0; at < len(raw); {
		data, rest, tagged := strings.Cut(raw[at:], "<")
		text.WriteString(unescape(plain(data)))
		if !tagged {
			break
		}
		open := at + len(data)
		tag, _, closed := strings.Cut(rest, ">")
		if !closed || !tagForm.MatchString(tag) {
			text.WriteByte('<')
			at = open + 1
			r.reportf(diag.Note, body.Sub(open, at), "a browser takes this sign for the beginning of a tag and hides what follows").
				edit(body.Sub(open, at), "&lt;").
				help("write &lt; for the sign itself")
			continue
		}
		if voice, ok := voiceOf(plain(tag)); ok {
			c.speak(text.Len(), voice)
		}
		at = open + len(tag) + len("<>")
	}
	c.Text = text.String()
}

// voiceOf returns the speaker that a tag names: "v Ann" or "v.loud Ann".
func voiceOf(tag string) (string, bool) {
	tag = oneLine.Replace(tag)
	name, voice, ok := strings.Cut(tag, " ")
	if kind, _, _ := strings.Cut(name, "."); kind != "v" || !ok {
		return "", false
	}
	voice = strings.Join(strings.Fields(unescape(voice)), " ")
	return voice, voice != ""
}

func (c *Cue) speak(at int, voice string) {
	if at == 0 {
		c.Voice = voice
		return
	}
	c.Turns = append(c.Turns, Turn{At: at, Voice: voice})
}

// unescape resolves character references. A line end that is written as one becomes
// a blank, for it would end the cue when it is written out.
func unescape(s string) string {
	if !strings.Contains(s, "&") {
		return s
	}
	lines := strings.Split(s, "\n")
	for i, line := range lines {
		lines[i] = sameLines.Replace(html.UnescapeString(line))
	}
	return strings.Join(lines, "\n")
}
