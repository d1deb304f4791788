package caption

import (
	"bytes"
	"strings"
)

// WebVTT writes cues as the standard wants them (W3C WebVTT 1, section 4): UTF-8
// without a byte order mark, times with hours and milliseconds, one empty line
// between cues, and nothing in a text that could be taken for a tag. The cues come
// in order of time and have a text, as [Track.Clean] returns them; identifiers are
// plain words, each used once.
func WebVTT(cues []Cue) []byte {
	var b bytes.Buffer
	b.WriteString(signature + "\n")
	for _, c := range cues {
		b.WriteByte('\n')
		if c.ID != "" {
			b.WriteString(c.ID + "\n")
		}
		b.WriteString(clock(c.From) + " " + arrow + " " + clock(c.Until) + "\n")
		b.WriteString(c.markup() + "\n")
	}
	return b.Bytes()
}

var escaper = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;")

// markup returns the text with its speakers as tags.
func (c Cue) markup() string {
	var b strings.Builder
	if c.Voice != "" {
		b.WriteString("<v " + escaper.Replace(c.Voice) + ">")
	}
	start := 0
	for _, t := range c.Turns {
		b.WriteString(escaper.Replace(c.Text[start:t.At]))
		if start > 0 || c.Voice != "" {
			b.WriteString("</v>")
		}
		b.WriteString("<v " + escaper.Replace(t.Voice) + ">")
		start = t.At
	}
	b.WriteString(escaper.Replace(c.Text[start:]))
	if len(c.Turns) > 0 {
		b.WriteString("</v>")
	}
	return b.String()
}
