package formula

import (
	"strings"
	"time"

	"plait/internal/measure"
	"plait/internal/source"
	"plait/internal/timing"
)

// Zero is the moment a processing time counts from.
type Zero = timing.Zero

// The moments a processing time can count from.
const (
	LastSection = timing.LastSection
	FirstTouch  = timing.FirstTouch
)

// Time is how long the colour stays on.
type Time struct {
	Value      measure.Span
	Zero       Zero
	ZeroStated bool
	Span       source.Span
}

// Set reports whether a time was typed.
func (t Time) Set() bool { return t.Span.Valid() }

// Longest returns the longest time the colour may stay.
func (t Time) Longest() time.Duration { return t.Value.Max }

// Start is when the application of a bowl begins: a time after the service's zero,
// or after another bowl of the lesson.
type Start struct {
	Later time.Duration // after what it counts from
	Bowl  source.Text   // the bowl it counts from; empty for the service's zero
	Ended bool          // it counts from the end of that bowl's application
	Span  source.Span
}

// Set reports whether a start was typed.
func (s *Start) Set() bool { return s != nil }

// start reads "0 min", "with root", "20 min after root" (after its application began)
// or "after root" (when its application ends).
func (r *reader) start(t source.Text) (*Start, bool) {
	s := &Start{Span: t.Span}
	if bowl, ok := afterWord(t, "with"); ok {
		s.Bowl = bowl
		return s, r.anchor(t, bowl)
	}
	if bowl, ok := afterWord(t, "after"); ok {
		s.Bowl, s.Ended = bowl, true
		return s, r.anchor(t, bowl)
	}
	later, bowl, counted := t.Cut(" after ")
	d, ok := r.duration("formula/start", later)
	if !ok {
		r.help("%s", startForms)
		return s, false
	}
	s.Later, s.Bowl = d.Value, bowl
	return s, !counted || r.anchor(t, bowl)
}

const startForms = "write 0 min, with root, after root (when its application ends) or 20 min after root (after it began)"

// afterWord returns what follows a word at the beginning of a text.
func afterWord(t source.Text, word string) (rest source.Text, ok bool) {
	if t.Value != word && !strings.HasPrefix(t.Value, word+" ") {
		return source.Text{}, false
	}
	return t.Slice(len(word), len(t.Value)).Trim(), true
}

// anchor reports a start that names no bowl.
func (r *reader) anchor(t, bowl source.Text) bool {
	if bowl.Value != "" {
		return true
	}
	r.errorf("formula/start", t.Span, "%q names no bowl", t.Value)
	r.help("%s", startForms)
	return false
}

// duration reads one time, no span of it.
func (r *reader) duration(rule string, t source.Text) (source.Stated[time.Duration], bool) {
	span, ok := parsed(r, rule, t, measure.ParseSpan)
	if ok && span.Value.Min != span.Value.Max {
		r.errorf(rule, t.Span, "%s is a span, and one time is wanted", span.Value)
		r.help("write one time, as in %s", measure.Minutes(span.Value.Max))
		ok = false
	}
	return source.Stated[time.Duration]{Value: span.Value.Max, Span: span.Span}, ok
}
