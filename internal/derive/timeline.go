package derive

import (
	"cmp"
	"slices"
	"time"

	"plait/internal/diag"
	"plait/internal/lesson"
	"plait/internal/measure"
	"plait/internal/timing"
)

// Timeline is the service of a lesson laid out in time. Its moments count from the
// service's zero, the moment that start: 0 min stands for.
type Timeline struct {
	Rows    []Row          // by the moment the application begins
	LeftOut []*Formula     // bowls that have a time on the hair and do not say when they go on
	Chair   measure.Span   // how long from the first touch to the last rinse
	Clashes []timing.Clash // where two bowls need the same hands; its bowls are rows
}

// Row is one bowl of a timeline.
type Row struct {
	Formula  *Formula
	Applied  measure.Span  // the moments the application begins and ends
	Rinse    measure.Span  // the moments between which the bowl comes off
	First    measure.Span  // how long it is on the hair covered first, over Rinse
	Last     measure.Span  // how long it is on the hair covered last, over Rinse
	Overrun  time.Duration // by how much the application is longer than the time allows
	Sections []Section     // in the order of work; none where the application was not split
	Even     Even
}

// Section is a part of the hair that a bowl covers in one go.
type Section struct {
	Name    string
	Applied measure.Span // the moments its application begins and ends
	On      measure.Span // how long the bowl is on it, over the moments it may come off
}

// Even says when a bowl may come off if every section is to have the maker's time by
// itself, the one that was covered first no longer and the last no shorter.
type Even struct {
	Span  measure.Span // the maker's; none where no span is stated
	Rinse measure.Span
	OK    bool // some moment does it
}

// Stays returns the moments from which all of the hair is covered, and by which the
// bowl must be off.
func (r Row) Stays() measure.Span { return measure.Span{Min: r.Applied.Max, Max: r.Rinse.Max} }

// Timeline returns the timeline of a lesson, nil where no bowl says when it goes on.
func (d *Derived) Timeline(l *lesson.Lesson) *Timeline { return d.partOf(l).timeline }

// Row returns where a formula stands in the timeline of its lesson; ok is false where
// it does not say when it goes on.
func (d *Derived) Row(f *Formula) (row Row, ok bool) {
	t := d.partOf(f.Lesson).timeline
	if t == nil {
		return Row{}, false
	}
	i := slices.IndexFunc(t.Rows, func(r Row) bool { return r.Formula == f })
	if i < 0 {
		return Row{}, false
	}
	return t.Rows[i], true
}

// layOut lays out the bowls of a lesson. One that does not say how long its
// application takes or when it starts is left out: nothing is guessed. Only a bowl
// that stays on the hair alone starts at zero without saying so.
func layOut(formulas []*Formula) (*Timeline, []diag.Diagnostic) {
	s := newStarts(formulas)
	t := &Timeline{}
	lines := map[*Formula]timing.Timeline{}
	for _, f := range formulas {
		start, known := s.of(f)
		if !f.Time.Set() {
			continue
		}
		if f.Broken || !known || !f.Apply.Set() {
			t.LeftOut = append(t.LeftOut, f)
			continue
		}
		line, err := lineOf(f, start)
		if err != nil {
			s.errorf(f.Time.Span, "give the bowl a time that can be kept", "%v", err)
			continue
		}
		lines[f] = line
		t.Rows = append(t.Rows, rowOf(f, line))
	}
	if len(t.Rows) == 0 {
		return nil, s.found
	}
	slices.SortStableFunc(t.Rows, func(a, b Row) int { return cmp.Compare(a.Applied.Min, b.Applied.Min) })
	ordered := make([]timing.Timeline, len(t.Rows))
	for i, r := range t.Rows {
		ordered[i] = lines[r.Formula]
	}
	first := t.Rows[0].Applied.Min
	t.Chair = timing.Chair(ordered, -first)
	t.Clashes = timing.Clashes(ordered)
	return t, s.found
}

// lineOf lays out one bowl, section by section where its application is split. A bowl
// that may come off at once, as "up to" says, still comes off after its application.
func lineOf(f *Formula, start time.Duration) (timing.Timeline, error) {
	line, err := timing.Bowl{
		Name:     f.Name.Value,
		Start:    start,
		Sections: sectionsOf(f),
		Stays:    f.Time.Value,
		From:     f.Time.Zero,
	}.Timeline()
	if err != nil {
		return timing.Timeline{}, err
	}
	line.Rinse.Min = min(max(line.Rinse.Min, line.ApplicationEnd()), line.Rinse.Max)
	return line, nil
}

// sectionsOf returns what a bowl covers, in the order of work: where the application
// is not split, all in one go.
func sectionsOf(f *Formula) []timing.Section {
	if len(f.Apply.Sections) == 0 {
		name := f.Name.Value
		if len(f.On) > 0 {
			name = f.On[0].Value
		}
		return []timing.Section{{Name: name, Takes: f.Apply.Value}}
	}
	sections := make([]timing.Section, len(f.Apply.Sections))
	for i, s := range f.Apply.Sections {
		sections[i] = timing.Section{Name: s.Name.Value, Wait: s.Wait, Takes: s.Takes}
	}
	return sections
}

func rowOf(f *Formula, line timing.Timeline) Row {
	last := len(line.Sections) - 1
	row := Row{
		Formula: f,
		Applied: measure.Span{Min: line.FirstTouch(), Max: line.ApplicationEnd()},
		Rinse:   line.Rinse,
		First:   measure.Span{Min: line.Exposure(0, line.Rinse.Min).Max, Max: line.Exposure(0, line.Rinse.Max).Max},
		Last:    measure.Span{Min: line.Exposure(last, line.Rinse.Min).Min, Max: line.Exposure(last, line.Rinse.Max).Min},
		Overrun: line.Overrun(),
	}
	if len(f.Apply.Sections) == 0 {
		return row
	}
	for i, s := range line.Sections {
		row.Sections = append(row.Sections, Section{
			Name:    s.Name,
			Applied: measure.Span{Min: s.Start, Max: s.End},
			On:      measure.Span{Min: line.Exposure(i, line.Rinse.Min).Min, Max: line.Exposure(i, line.Rinse.Max).Max},
		})
	}
	row.Even.Span = f.Terms.Time
	if !row.Even.Span.IsZero() {
		row.Even.Rinse, row.Even.OK = line.Within(row.Even.Span)
	}
	return row
}
