package derive

import (
	"math"
	"strings"

	"plait/internal/amount"
	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/shade"
)

// Shared is an amount by section: what the whole head would take, by length and
// density of the hair, shared out by the areas of the sections that a bowl goes on.
//
// The areas never decide how much a head takes, since published areas of the scalp
// differ by more than half; they only share it out.
type Shared struct {
	Head  amount.Head
	Whole measure.Mass // for the whole head, of everything mixed
	Scalp exact.Number // area in cm², to a tenth
	Parts []Portion    // in the order of the plan
	Total measure.Mass // what is mixed; the parts add up to it
}

// Portion is what one section takes.
type Portion struct {
	Section string
	Area    exact.Number // cm², to a tenth
	Mixed   measure.Mass // whole grams
}

// Area returns the area of all parts, in cm².
func (s *Shared) Area() exact.Number {
	sum := exact.Zero
	for _, p := range s.Parts {
		sum = sum.Add(p.Area)
	}
	return sum
}

// on returns what a section takes.
func (s *Shared) on(section string) (measure.Mass, bool) {
	if s == nil {
		return measure.Mass{}, false
	}
	for _, p := range s.Parts {
		if p.Section == section {
			return p.Mixed, true
		}
	}
	return measure.Mass{}, false
}

// gram is what portions are rounded to: an estimate is no better.
var gram = measure.Grams(exact.One)

// share works out an amount by section, nil where the bowl has another. Where the
// grams of the shades are typed they decide.
func (f *Formula) share() (*Shared, *diag.Diagnostic) {
	if _, weighed := f.ColourGrams(); !f.Amount.BySection || weighed {
		return nil, nil
	}
	fail := func(help, format string, args ...any) (*Shared, *diag.Diagnostic) {
		d := diag.Errorf("formula/amount", f.Amount.Span, format, args...).WithHelp("%s", help)
		return nil, &d
	}
	if len(f.Where) == 0 {
		return fail("name sections of a head sheet with on:, or say how much to mix, as in amount: 30 g colour",
			"an amount by section needs a head sheet with the sections of this bowl")
	}
	head, ok := f.Lesson.Hair.Head()
	if f.goesOn(speaksOf, rootWords) {
		head.Length, ok = amount.Regrowth, true
	}
	if !ok {
		return fail("add the length to the lesson's header, as in hair: {length: shoulder, density: medium}",
			"an amount by section follows from the length of the hair, and nothing states it")
	}
	head.Lightener = f.Kind.Value == shade.Lightener
	estimate, _ := amount.PerHead(head)
	return shareOut(head, estimate.Middle(), f.Where[0]), nil
}

// shareOut shares the amount for a whole head out over some of its sections, in whole
// grams that add up, by the largest remainder.
func shareOut(head amount.Head, whole measure.Mass, where Where) *Shared {
	s := &Shared{Head: head, Whole: whole, Scalp: tenths(where.Sheet.Area)}
	var masses []measure.Mass
	for _, k := range where.Sections {
		section := &where.Sheet.Sections[k]
		area := tenths(section.Area)
		s.Parts = append(s.Parts, Portion{Section: section.Name, Area: area})
		masses = append(masses, whole.Times(area.Quo(s.Scalp)))
	}
	for i, m := range mix.Split(masses, gram) {
		s.Parts[i].Mixed = m
		s.Total = s.Total.Add(m)
	}
	if s.Total.IsZero() { // less than half a gram is still a gram to mix
		s.Parts[0].Mixed, s.Total = gram, gram
	}
	return s
}

// tenths makes an area exact, so that weights follow from it without rounding.
func tenths(area float64) exact.Number { return exact.Of(int64(math.Round(area*10)), 10) }

// String says what decides how much the head takes: "shoulder, dense".
func (s *Shared) String() string {
	words := []string{string(s.Head.Length)}
	if s.Head.Density != "" {
		words = append(words, string(s.Head.Density))
	}
	if s.Head.Porous {
		words = append(words, "very porous")
	}
	return strings.Join(words, ", ")
}
