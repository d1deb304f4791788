package check

import (
	"time"

	"plait/internal/lesson"
	"plait/internal/measure"
)

// endSlack is how far a time may lie beyond the end of the recording: headings and
// stated lengths are written in whole seconds.
const endSlack = time.Second

var recordingBeyond = Rule{
	ID:    "recording/beyond",
	Title: "steps and captions lie within the recording",
	Why: "A step beyond the end of the film leads nowhere. Most often the film was cut again after the lesson was written, and then all " +
		"times behind the cut are wrong, not only the last.",
	Source: "arithmetic",
	Of:     Lesson,
	Before: filmed("2:00", "## 0:42 Mix the gloss", "## 2:20 Rinse"),
	After:  filmed("2:00", "## 0:42 Mix the gloss", "## 1:20 Rinse"),
	Since:  "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		length, at, ok := l.RecordingLength()
		if !ok {
			return
		}
		const help = "mend the time; if the film was cut again, look at all times behind the cut"
		for _, s := range l.Steps {
			switch {
			case !s.Time.Set():
			case s.Time.From >= length:
				d := p.Reportf(s.Time.Span, help, "this step begins at %s, but the recording ends at %s", measure.Clock(s.Time.From), measure.Clock(length))
				*d = d.WithNote(at, "its length is known from here")
			case s.Time.Until > length+endSlack:
				d := p.Reportf(s.Time.Span, help, "this step runs to %s, but the recording ends at %s", measure.Clock(s.Time.Until), measure.Clock(length))
				*d = d.WithNote(at, "its length is known from here")
			}
		}
		if l.Captions == nil {
			return
		}
		for _, c := range l.Captions.Clean() {
			if c.Until > length+endSlack {
				d := p.Reportf(c.Span, "these may be the captions of another cut; give those of this film",
					"this caption stands until %s, but the recording ends at %s", measure.Clock(c.Until), measure.Clock(length))
				*d = d.WithNote(at, "its length is known from here")
				return
			}
		}
	},
}
