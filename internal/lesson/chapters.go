package lesson

import (
	"time"
)

// ShortestChapter is how long a chapter takes at least, for a list of chapters
// under a film to be taken. Common practice of places that host films, no source.
const ShortestChapter = 10 * time.Second

// Chapter is a step with its stretch of the recording.
type Chapter struct {
	*Step
	From, Until time.Duration

	// Listed says that the chapter takes at least ShortestChapter from the listed
	// one before it, or from the beginning of the recording, and before the end.
	Listed bool
}

// Chapters returns the steps that have a time. One without an end of its own lasts
// until the next begins, and the last until the recording ends.
func (l *Lesson) Chapters() []Chapter {
	var list []Chapter
	for _, s := range l.Steps {
		if s.Time.Set() {
			list = append(list, Chapter{Step: s, From: s.Time.From, Until: s.Time.Until})
		}
	}
	end := l.end()
	listed := time.Duration(0)
	for i := range list {
		c := &list[i]
		next := end
		if i+1 < len(list) {
			next = list[i+1].From
		}
		if c.Until <= c.From {
			c.Until = max(next, c.From)
		}
		first := i == 0 && c.From < ShortestChapter // it begins the list
		c.Listed = (first || c.From-listed >= ShortestChapter) && end-c.From >= ShortestChapter
		if c.Listed && !first {
			listed = c.From
		}
	}
	return list
}

// end returns where the recording ends: by its length, or where that is not known
// late enough for the last step and the last caption.
func (l *Lesson) end() time.Duration {
	if length, _, ok := l.RecordingLength(); ok {
		return length
	}
	end := time.Duration(0)
	for _, s := range l.Steps {
		end = max(end, s.Time.From+ShortestChapter, s.Time.Until)
	}
	if l.Captions != nil {
		for _, c := range l.Captions.Clean() {
			end = max(end, c.Until)
		}
	}
	return end
}
