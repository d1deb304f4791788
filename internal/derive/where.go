package derive

import (
	"slices"
	"strings"

	"plait/internal/diag"
	"plait/internal/source"
)

// Where is the sections of one head sheet that a formula goes on.
type Where struct {
	Sheet    *Sheet
	Sections []int // indices, ascending
}

// wholeHead are the words that mean all sections.
var wholeHead = []string{"all", "whole head"}

// sectionsMeant returns the indices of the sections that some names mean, ascending, and
// the names that mean none. No names mean all. A name that is not a section's own
// means every section that has it among its words: "back" is "left back" and "right
// back".
func sectionsMeant(asked []source.Text, names []string) (sections []int, unknown []source.Text) {
	if len(asked) == 0 {
		asked = []source.Text{{Value: wholeHead[0]}}
	}
	for _, t := range asked {
		meant := meantBy(t.Value, names)
		if len(meant) == 0 {
			unknown = append(unknown, t)
		}
		sections = append(sections, meant...)
	}
	slices.Sort(sections)
	return slices.Compact(sections), unknown
}

func meantBy(asked string, names []string) []int {
	if i := slices.Index(names, asked); i >= 0 {
		return []int{i}
	}
	var meant []int
	for i, name := range names {
		if slices.Contains(wholeHead, asked) || strings.Contains(" "+name+" ", " "+asked+" ") {
			meant = append(meant, i)
		}
	}
	return meant
}

// place finds the sections that a formula goes on, in every sheet of its lesson. A
// place without quotes must be a section of one of them.
func (d *Derived) place(f *Formula) []diag.Diagnostic {
	sheets := d.partOf(f.Lesson).sheets
	if len(sheets) == 0 || slices.ContainsFunc(sheets, func(s *Sheet) bool { return !s.OK }) {
		return nil
	}
	known := make([]bool, len(f.Sections))
	for _, s := range sheets {
		where := Where{Sheet: s}
		for i, t := range f.Sections {
			meant := meantBy(t.Value, s.Names())
			known[i] = known[i] || len(meant) > 0
			where.Sections = append(where.Sections, meant...)
		}
		if len(where.Sections) == 0 {
			continue
		}
		slices.Sort(where.Sections)
		where.Sections = slices.Compact(where.Sections)
		for _, k := range where.Sections {
			s.Sections[k].Bowls = append(s.Sections[k].Bowls, f)
		}
		f.Where = append(f.Where, where)
	}
	var found []diag.Diagnostic
	for i, t := range f.Sections {
		if !known[i] {
			fault := unknownSection(t, sheets...)
			fault.Help += "; other words stand in quotes"
			found = append(found, fault)
		}
	}
	return found
}

func (s *Sheet) unknownSection(t source.Text) diag.Diagnostic { return unknownSection(t, s) }

// unknownSection reports a name that no section of some sheets has.
func unknownSection(t source.Text, sheets ...*Sheet) diag.Diagnostic {
	var names []string
	for _, s := range sheets {
		for _, name := range s.Names() {
			if !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	help := "the sections are: " + strings.Join(names, ", ")
	if near := diag.DidYouMean(t.Value, names); near != "" {
		help = "did you mean " + near + "? " + help
	}
	return diag.Errorf("head/unknown-section", t.Span, "no head sheet here has a section %q", t.Value).
		WithHelp("%s", help)
}

// number gives sections their numbers: as the sheet lists them, else in the order
// in which they were parted.
func (s *Sheet) number() []diag.Diagnostic {
	if s.Draw.Number == nil {
		for i := range s.Sections {
			s.Sections[i].Number = i + 1
		}
		return nil
	}
	var found []diag.Diagnostic
	next := 1
	for _, t := range s.Draw.Number {
		meant := meantBy(t.Value, s.Names())
		if len(meant) == 0 {
			found = append(found, s.unknownSection(t))
		}
		for _, k := range meant {
			if s.Sections[k].Number == 0 {
				s.Sections[k].Number = next
				next++
			}
		}
	}
	return found
}

// names reports claims and arrows on sections that the sheet does not have, and
// sections that are called like a formula or a sheet of the lesson, since the text
// speaks of all of them by name.
func (s *Sheet) names() []diag.Diagnostic {
	var found []diag.Diagnostic
	for _, claim := range slices.Concat(s.Areas, s.Shares) {
		if _, ok := s.Section(claim.Of.Value); !ok {
			found = append(found, s.unknownSection(claim.Of))
		}
	}
	for _, a := range s.Draw.Arrows {
		if len(meantBy(a.On.Value, s.Names())) == 0 {
			found = append(found, s.unknownSection(a.On))
		}
	}
	for i := range s.Sections {
		section := &s.Sections[i]
		if f, clash := s.Lesson.Formula(section.Name); clash {
			found = append(found, diag.Errorf("head/name", s.Named(section.Section), "a formula of this lesson is called %q too", section.Name).
				WithNote(f.Name.Span, "the formula is here").WithHelp("give the section another name with gives:, or the formula"))
		}
	}
	return found
}
