// Package caption reads and writes what was said in a recording and when: WebVTT,
// SubRip (SRT) and plain timed transcripts.
//
// [Read] takes what people have: files of any usual encoding, with the faults that
// are common in use. It reads WebVTT by the steps of the standard (W3C WebVTT 1,
// section 6), so that it finds the cues a browser finds, and beyond that the ones a
// browser drops for a small fault in their time; each such leniency is reported.
// Nothing is lost in silence. [Track.Clean] brings the cues into order and takes
// out the repeats of rolling captions, and [WebVTT] writes them as the standard
// wants them.
package caption

import (
	"path"
	"slices"
	"strings"
	"time"

	"plait/internal/diag"
	"plait/internal/source"
)

// MaxBytes is the largest captions file that is read: several times what a day of
// speech takes.
const MaxBytes = 4 << 20

// Format is a way of writing captions down.
type Format uint8

// The formats that are read.
const (
	FormatWebVTT Format = iota
	FormatSubRip
	FormatTranscript // a time at the start of a line, then text
)

// String returns the format's name as messages use it.
func (f Format) String() string {
	switch f {
	case FormatWebVTT:
		return "WebVTT"
	case FormatSubRip:
		return "SubRip"
	}
	return "timed transcript"
}

// Track is what a captions file says, in the file's own order.
type Track struct {
	File   *source.File // the decoded text, in which all spans lie
	Format Format
	Cues   []Cue
	clean  []Cue
}

// Cue is a text and the stretch of the recording it belongs to.
type Cue struct {
	ID    string // empty for none
	From  time.Duration
	Until time.Duration // not before From, or the cue was reported
	Text  string        // lines end in \n; without tags, references resolved
	Voice string        // who speaks at the beginning; empty where it is not said
	Turns []Turn        // where another speaker takes over within the cue
	Span  source.Span   // from the identifier or the time to the last line of text
	Body  source.Span   // the lines of text
}

// Turn is a change of speaker.
type Turn struct {
	At    int // byte offset in the cue's text
	Voice string
}

// Lines returns the lines of the cue's text.
func (c Cue) Lines() []string { return strings.Split(c.Text, "\n") }

// Read reads captions. The format is told by the content, and by the name's ending
// where the content does not begin as its format should. It always answers; the
// diagnostics say what could not be read and what was read although a browser
// would not.
func Read(file *source.File) (*Track, []diag.Diagnostic) {
	r := &reader{}
	file = r.decode(file)
	t := &Track{File: file}
	switch {
	case isWebVTT(file.Text()):
		t.Cues = r.webVTT(file)
	case strings.EqualFold(path.Ext(file.Name()), ".vtt"):
		r.reportf(diag.Warning, file.Span(0, 0), "the file does not begin with WEBVTT, so a browser shows none of it").
			edit(file.Span(0, 0), "WEBVTT\n\n").
			help("begin the file with a line WEBVTT and an empty line")
		t.Cues = r.webVTT(file)
	case hasArrow(file):
		t.Format = FormatSubRip
		t.Cues = r.subRip(file)
	default:
		t.Format = FormatTranscript
		t.Cues = r.transcript(file)
	}
	t.Cues = slices.Clone(t.Cues) // a track is kept as long as its course, in the room it needs
	t.clean = clean(t.Cues)
	if len(t.Cues) == 0 && len(r.found) == 0 {
		r.reportf(diag.Error, file.Span(0, 0), "there is no caption in the file").
			help("give a WebVTT or SubRip file, or lines that begin with their time, as in [0:42] Now the gloss")
	}
	return t, r.found
}

// reader collects what is found while a file is read.
type reader struct{ found []diag.Diagnostic }

// finding is a diagnostic of the reader that can still be added to.
type finding struct{ *diag.Diagnostic }

// ruleRead is the rule of everything found in the captions as such.
const ruleRead = "recording/captions"

func (r *reader) reportf(severity diag.Severity, at source.Span, format string, args ...any) finding {
	d := diag.Errorf(ruleRead, at, format, args...)
	d.Severity = severity
	r.found = append(r.found, d)
	return finding{&r.found[len(r.found)-1]}
}

func (f finding) help(format string, args ...any) { *f.Diagnostic = f.WithHelp(format, args...) }

func (f finding) edit(at source.Span, text string) finding {
	*f.Diagnostic = f.WithEdit(at, text)
	return f
}

// backwards reports a cue that ends before it begins.
func (r *reader) backwards(at source.Span, c Cue) {
	if c.Until > c.From {
		return
	}
	r.reportf(diag.Error, at, "the caption ends before it begins").
		help("write the beginning first, then a later end")
}

// unreadable reports the time of a cue that cannot be read, with the text it costs.
func (r *reader) unreadable(at source.Span) {
	r.reportf(diag.Error, at, "the time of this caption cannot be read, so its text is lost").
		help("write both times, as in 00:00:42.000 --> 00:00:45.500")
}

// untimed reports text that belongs to no cue.
func (r *reader) untimed(severity diag.Severity, at source.Span) {
	r.reportf(severity, at, "this text has no time, so no caption shows it").
		help("give it a time, or take out the empty line that cuts it off from its caption")
}
