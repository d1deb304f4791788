package check

import (
	"fmt"

	"plait/internal/caption"
	"plait/internal/diag"
	"plait/internal/lesson"
)

// captionGuides names where the usual limits of captions come from. They differ;
// the wider limit is a warning and the narrower a note.
const captionGuides = "published guides for captions: lines of at most 37 or 42 characters, two lines, 1.5 to 7 seconds, at most 15 or 20 characters a second; Captioning Key of the Described and Captioned Media Program"

// shownCues returns what a lesson's page shows as captions. A timed transcript is
// text beside the film and no caption.
func shownCues(l *lesson.Lesson) []caption.Cue {
	if l.Captions == nil || l.Captions.Format == caption.FormatTranscript {
		return nil
	}
	return l.Captions.Clean()
}

// reportWorst reports, of all captions above a limit, the one furthest beyond it and
// how many there are: a list of hundreds would be read by nobody. Beyond warn the
// finding is a warning, beyond note a note. Words say what is measured.
func (p *Pass) reportWorst(cues []caption.Cue, measure func(caption.Cue) float64, note, warn float64, help string, words func(c caption.Cue, n float64) string) {
	var worst caption.Cue
	most, severity, count := note, diag.Note, 0
	for _, c := range cues {
		n := measure(c)
		if n <= note {
			continue
		}
		count++
		if n > most {
			most, worst = n, c
		}
		if n > warn {
			severity = diag.Warning
		}
	}
	switch {
	case count == 1:
		p.report(severity, worst.Span, help, "%s", words(worst, most))
	case count > 1:
		p.report(severity, worst.Span, help, "%s; with it, %d of %d captions are beyond the usual", words(worst, most), count, len(cues))
	}
}

// reportFirst reports the first caption that follows the one before it badly, and
// how many more do.
func (p *Pass) reportFirst(cues []caption.Cue, bad func(before, c caption.Cue) bool, help string, words func(before, c caption.Cue) string) {
	first, more := 0, 0
	for i := 1; i < len(cues); i++ {
		switch {
		case !bad(cues[i-1], cues[i]):
		case first == 0:
			first = i
		default:
			more++
		}
	}
	if first == 0 {
		return
	}
	before, c := cues[first-1], cues[first]
	d := p.report(p.rule.Severity, c.Span, help, "%s", words(before, c))
	if more > 0 {
		d.Message += fmt.Sprintf("; with it, %d of %d captions do", more+1, len(cues))
	}
	*d = d.WithNote(before.Span, "the caption before")
}
