package derive

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"plait/internal/diag"
	"plait/internal/source"
)

// place takes the section that a question is answered with: by its name, "nape left", or
// by what it is, "largest section". Either may say of which sheet, "nape left on plan".
// All sections of the sheet are there to choose from.
func (s *solver) place(sol *Solution) {
	what, file, named := s.block.Place.Cut(" on ")
	sheets := s.derived.Sheets(s.lesson)
	sheets = slices.DeleteFunc(slices.Clone(sheets), func(sheet *Sheet) bool {
		return !sheet.OK || named && sheet.Name != strings.TrimSuffix(file.Value, ".head.yaml")
	})
	switch len(sheets) {
	case 0:
		s.noSheet(file, named)
	case 1:
		s.placeOn(sol, sheets[0], what)
	default:
		s.fault(rulePlace, s.block.Place.Span, "say on which, as in "+what.Value+" on "+sheets[0].Name, "this lesson has %d head sheets", len(sheets))
	}
}

const rulePlace = "question/place"

func (s *solver) noSheet(file source.Text, named bool) {
	if named {
		s.fault(rulePlace, file.Span, "name a file of the lesson's folder without its ending, as in nape on plan", "this lesson has no head sheet %q", file.Value)
		return
	}
	s.fault(rulePlace, s.block.Place.Span, "put a sheet into the lesson's folder, as in plan.head.yaml", "this lesson has no head sheet to find a place on")
}

func (s *solver) placeOn(sol *Solution, sheet *Sheet, what source.Text) {
	right := what.Value
	bySize := func(a, b SheetSection) int { return cmp.Compare(a.Area, b.Area) }
	switch {
	case len(sheet.Sections) < 2:
		s.fault(rulePlace, what.Span, "part the head of this sheet first", "a sheet with one section leaves nothing to find")
		return
	case right == "largest section":
		right = slices.MaxFunc(sheet.Sections, bySize).Name
	case right == "smallest section":
		right = slices.MinFunc(sheet.Sections, bySize).Name
	}
	if _, ok := sheet.Section(right); !ok {
		help := "the sections are: " + strings.Join(sheet.Names(), ", ") + "; or write largest section, smallest section"
		if near := diag.DidYouMean(right, sheet.Names()); near != "" {
			help = fmt.Sprintf("did you mean %q? %s", near, help)
		}
		s.fault(rulePlace, what.Span, help, "%s has no section %q", sheet.Name, right)
		return
	}
	if right != what.Value && sized(sheet, right) > 1 {
		s.fault(rulePlace, what.Span, "name the section", "two sections of %s are as large as each other", sheet.Name)
		return
	}
	sol.Sheet = sheet
	for _, name := range sheet.Names() {
		sol.Options = append(sol.Options, Option{Text: name, Right: name == right})
	}
}

// sized counts the sections that are as large as a named one, to a hundredth of a square
// centimetre: what mirrors it is.
func sized(sheet *Sheet, name string) int {
	of, _ := sheet.Section(name)
	n := 0
	for _, other := range sheet.Sections {
		if d := other.Area - of.Area; d < 0.01 && d > -0.01 {
			n++
		}
	}
	return n
}
