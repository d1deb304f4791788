package derive

import (
	"plait/internal/diag"
	"plait/internal/lesson"
	"plait/internal/measure"
	"plait/internal/parallel"
	"plait/internal/scalp"
	"plait/internal/sheet"
	"plait/internal/silhouette"
)

// Sheet is a head sheet with everything that follows from it.
type Sheet struct {
	*sheet.Sheet
	Lesson   *lesson.Lesson
	OK       bool           // it could be worked out; else that was reported
	Area     float64        // of the scalp, in cm²
	Sections []SheetSection // by the index of the plan's sections
	Warnings []*scalp.Problem
	Cut      *Cut // nil where nothing is cut
}

// SheetSection is a section of a head sheet.
type SheetSection struct {
	scalp.Section
	Number  int          // in the order of work, from 1; 0 where it has none
	Percent string       // of the scalp, "14.6 %"; all add up to 100 %
	Product measure.Mass // that it would take by the sheet's `product`, in whole grams; zero without one
	Bowls   []*Formula   // that go on it, in the order of the lesson
	Cut     *sheet.Cut   // nil where it is not cut

	Replaced []*sheet.Cut // cuts of the section before that one, which count no more
}

// Plan returns the parted head. It is kept for as long as it is likely to be asked
// for again, and worked out anew otherwise.
func (s *Sheet) Plan() *scalp.Plan { return s.worked().parted() }

// Fallen returns the haircut as it falls, nil where nothing is cut. It is kept as a
// plan is.
func (s *Sheet) Fallen() *silhouette.Fallen { return s.worked().fell() }

func (s *Sheet) worked() *worked {
	return memory.get(s.File.Text(), func() *worked { return newWorked(s.Sheet) })
}

// Section returns the section of a name.
func (s *Sheet) Section(name string) (*SheetSection, bool) {
	for i := range s.Sections {
		if s.Sections[i].Name == name {
			return &s.Sections[i], true
		}
	}
	return nil, false
}

// Names returns the names of all sections, in the order of the plan.
func (s *Sheet) Names() []string {
	names := make([]string, len(s.Sections))
	for i, section := range s.Sections {
		names[i] = section.Name
	}
	return names
}

// Sheets returns the head sheets of a lesson.
func (d *Derived) Sheets(l *lesson.Lesson) []*Sheet { return d.partOf(l).sheets }

// SheetOf returns what was computed for a head sheet of a lesson.
func (d *Derived) SheetOf(l *lesson.Lesson, of *sheet.Sheet) (*Sheet, bool) {
	for _, s := range d.partOf(l).sheets {
		if s.Sheet == of {
			return s, true
		}
	}
	return nil, false
}

// newPart returns a lesson with its head sheets and nothing computed.
func newPart(l *lesson.Lesson) *part {
	p := &part{}
	for _, s := range l.Sheets {
		p.sheets = append(p.sheets, &Sheet{Sheet: s, Lesson: l})
	}
	return p
}

// workSheets works out the head sheets of some of the lessons, several at a time.
func workSheets(parts []*part, todo []int) {
	var all []*Sheet
	for _, i := range todo {
		all = append(all, parts[i].sheets...)
	}
	faults := make([][]diag.Diagnostic, len(all))
	parallel.All(0, len(all), func(i int) {
		faults[i] = all[i].work()
	})
	for _, i := range todo {
		for range parts[i].sheets {
			parts[i].faults = append(parts[i].faults, faults[0]...)
			faults = faults[1:]
		}
	}
}

// work works one sheet out.
func (s *Sheet) work() []diag.Diagnostic {
	if s.Broken {
		return nil
	}
	facts := s.worked().facts()
	if facts.fault != nil {
		return []diag.Diagnostic{s.Explain(facts.fault)}
	}
	s.OK, s.Area, s.Warnings, s.Cut = true, facts.area, facts.warnings, facts.cut
	shares := scalp.Shares(facts.sections)
	for i, section := range facts.sections {
		s.Sections = append(s.Sections, SheetSection{Section: section, Percent: shares[i]})
	}
	found := s.number()
	found = append(found, s.names()...)
	found = append(found, s.cuts()...)
	for i, mass := range products(s.Sheet.Product, s.Sections, s.Cut) {
		s.Sections[i].Product = mass
	}
	return found
}
