// Package timing lays a service out in time: when each section is coloured, how long
// the colour stays on it, and by when it must be off.
//
// A time means nothing without its zero. Colour usually counts from the end of
// application, a lightener from the first touch, and the two differ by as long as
// the application takes: 35 minutes from the end of an application of 18 leave the
// first section covered for 53. All times are durations from one moment the caller
// chooses, when the client sits down or midnight; nothing here reads a clock.
package timing

import (
	"errors"
	"fmt"
	"time"

	"plait/internal/measure"
)

// Zero is the moment a processing time counts from.
type Zero uint8

// The moments a processing time can count from.
const (
	LastSection Zero = iota // the last section is covered: the end of application
	FirstTouch              // the first product touches hair
)

// String returns the words for the moment.
func (z Zero) String() string {
	if z == FirstTouch {
		return "from first touch"
	}
	return "from last section"
}

// Bowl is one mixture on its way through a service.
type Bowl struct {
	Name     string
	Start    time.Duration // when work with it begins
	Sections []Section     // in the order of application
	Stays    measure.Span  // how long it stays, counted from From
	From     Zero
}

// Section is a part of the head that is covered in one go.
type Section struct {
	Name  string
	Wait  time.Duration // before it, the hands rest: roots that wait for the lengths
	Takes time.Duration // to apply
}

// Timeline is a bowl laid out in time.
type Timeline struct {
	Name     string
	Sections []Applied    // in the order of application, at least one
	Rinse    measure.Span // the moments between which the bowl comes off
}

// Applied is a section with the moments its application begins and ends.
type Applied struct {
	Name       string
	Start, End time.Duration
}

// Errors of [Bowl.Timeline].
var (
	ErrNoSection = errors.New("a bowl needs a section to go on")
	ErrNoTime    = errors.New("a bowl needs a time to stay")
	ErrNegative  = errors.New("a time cannot be less than nothing")
)

// Timeline lays the bowl out. The latest rinse is rounded down to a second, and the
// earliest up, so that a time read off a page is never past the maker's.
func (b Bowl) Timeline() (Timeline, error) {
	if err := b.validate(); err != nil {
		return Timeline{}, err
	}
	t := Timeline{Name: b.Name, Sections: make([]Applied, len(b.Sections))}
	now := b.Start
	for i, s := range b.Sections {
		start := now + s.Wait
		now = start + s.Takes
		t.Sections[i] = Applied{Name: s.Name, Start: start, End: now}
	}
	zero := t.ApplicationEnd()
	if b.From == FirstTouch {
		zero = t.FirstTouch()
	}
	latest := (zero + b.Stays.Max).Truncate(time.Second)
	earliest := (zero + b.Stays.Min + time.Second - 1).Truncate(time.Second)
	t.Rinse = measure.Span{Min: min(earliest, latest), Max: latest}
	return t, nil
}

func (b Bowl) validate() error {
	switch {
	case len(b.Sections) == 0:
		return ErrNoSection
	case b.Start < 0 || b.Stays.Min < 0:
		return ErrNegative
	case b.Stays.Max <= 0:
		return ErrNoTime
	case b.Stays.Max < b.Stays.Min:
		return fmt.Errorf("%s ends before it begins", b.Stays)
	}
	for _, s := range b.Sections {
		if s.Wait < 0 || s.Takes < 0 {
			return ErrNegative
		}
	}
	return nil
}

// FirstTouch returns the moment the first product touches hair.
func (t Timeline) FirstTouch() time.Duration { return t.Sections[0].Start }

// ApplicationEnd returns the moment the last section is covered.
func (t Timeline) ApplicationEnd() time.Duration { return t.Sections[len(t.Sections)-1].End }

// Exposure returns how long the bowl has been on a section when it is rinsed: on the
// hair covered last in it, and on the hair covered first. The longest exposure of a
// head is Max of its first section and the shortest Min of its last.
func (t Timeline) Exposure(section int, rinsed time.Duration) measure.Span {
	s := t.Sections[section]
	return measure.Span{Min: rinsed - s.End, Max: rinsed - s.Start}
}

// Within returns the moments at which every section has had the colour for a span of
// time by itself: on for its least where it was covered last, and for no more than its
// most where it was covered first. ok is false where no moment does both, because the
// application is longer than the span is wide.
func (t Timeline) Within(span measure.Span) (rinse measure.Span, ok bool) {
	rinse = measure.Span{Min: t.ApplicationEnd() + span.Min, Max: t.FirstTouch() + span.Max}
	return rinse, rinse.Min <= rinse.Max
}

// Overrun returns by how much the application is longer than the time allows: the
// bowl would have to come off before the last section is covered. It is zero where
// the time counts from the end of application.
func (t Timeline) Overrun() time.Duration {
	return max(t.ApplicationEnd()-t.Rinse.Max, 0)
}
