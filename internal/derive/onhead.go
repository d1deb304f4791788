package derive

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"plait/internal/diag"
	"plait/internal/lesson"
	"plait/internal/source"
)

// headQuantities are the words that may stand before "of" and a section, with how
// each is read. ok is false where the section has no such thing.
var headQuantities = []struct {
	word string
	read func(s *Sheet, section int) (string, bool)
}{
	{"area", func(s *Sheet, k int) (string, bool) { return fmt.Sprintf("%.0f cm²", s.Sections[k].Area), true }},
	{"share", func(s *Sheet, k int) (string, bool) { return s.Sections[k].Percent, true }},
	{"number", func(s *Sheet, k int) (string, bool) {
		n := s.Sections[k].Number
		return fmt.Sprint(n), n > 0
	}},
	{"shortest", func(s *Sheet, k int) (string, bool) {
		return centimetres(s.length(k, func(c *Cut) float64 { return c.Lengths[k].Shortest }))
	}},
	{"longest", func(s *Sheet, k int) (string, bool) {
		return centimetres(s.length(k, func(c *Cut) float64 { return c.Lengths[k].Longest }))
	}},
	{"mean", func(s *Sheet, k int) (string, bool) {
		return centimetres(s.length(k, func(c *Cut) float64 { return c.Lengths[k].Mean }))
	}},
}

// sheetQuantities are the words that may stand before "of" and a head sheet.
var sheetQuantities = []struct {
	word string
	read func(s *Sheet) (string, bool)
}{
	{"area", func(s *Sheet) (string, bool) { return fmt.Sprintf("%.0f cm²", s.Area), true }},
	{"shortest", func(s *Sheet) (string, bool) { return s.ofCut(func(c *Cut) float64 { return c.Shortest }) }},
	{"longest", func(s *Sheet) (string, bool) { return s.ofCut(func(c *Cut) float64 { return c.Longest }) }},
	{"mean", func(s *Sheet) (string, bool) { return s.ofCut(func(c *Cut) float64 { return c.Mean }) }},
	{"weight", func(s *Sheet) (string, bool) { return s.weight() }},
}

// length returns a length of a section that is cut.
func (s *Sheet) length(section int, read func(*Cut) float64) (cm float64, ok bool) {
	if s.Cut == nil || s.Sections[section].Cut == nil {
		return 0, false
	}
	cm = read(s.Cut)
	return cm, cm > 0
}

func (s *Sheet) ofCut(read func(*Cut) float64) (string, bool) {
	if s.Cut == nil {
		return "", false
	}
	cm := read(s.Cut)
	return centimetres(cm, cm > 0)
}

// centimetres prints a length to the half centimetre, as it is measured on a strand
// that stretches.
func centimetres(cm float64, ok bool) (string, bool) {
	half := math.Round(2*cm) / 2
	if half == math.Trunc(half) {
		return fmt.Sprintf("%.0f cm", half), ok
	}
	return fmt.Sprintf("%.1f cm", half), ok
}

// weight says where the weight line lies, from the occipital bone.
func (s *Sheet) weight() (string, bool) {
	if s.Cut == nil || !s.Cut.Weighted {
		return "", false
	}
	bone, _ := s.Sheet.Head.New().Landmark("occipital bone")
	off := s.Cut.Weight.Z - bone.P.Z
	distance, _ := centimetres(math.Abs(off), true)
	switch {
	case math.Abs(off) < 0.5:
		return "at the occipital bone", true
	case off > 0:
		return distance + " above the occipital bone", true
	}
	return distance + " below the occipital bone", true
}

// onHead returns a value of a section, which may say its sheet ("nape in plan"), or
// of a sheet; ok is false where the name is neither.
func (d *Derived) onHead(l *lesson.Lesson, what, name source.Text) (value string, fault *diag.Diagnostic, ok bool) {
	sheets := d.partOf(l).sheets
	for _, s := range sheets {
		if s.Name == name.Value {
			value, fault = s.value(what)
			return value, fault, true
		}
	}
	section := name
	if before, in, cut := name.Cut(" in "); cut {
		i := slices.IndexFunc(sheets, func(s *Sheet) bool { return s.Name == in.Value })
		if i < 0 {
			return "", nil, false
		}
		sheets, section = sheets[i:i+1], before
	}
	broken := false
	for _, s := range sheets {
		broken = broken || !s.OK
		k := slices.Index(s.Names(), section.Value)
		if k < 0 {
			continue
		}
		again, why := s.sectionValue(k, what)
		if ok && why == nil && again != value {
			return "", valueFault(name, "say which, as in "+section.Value+" in "+s.Name,
				"two head sheets have a section %q, and they differ", section.Value), true
		}
		if !ok || fault != nil && why == nil {
			value, fault, ok = again, why, true
		}
	}
	if !ok && broken {
		return "", nil, true
	}
	return value, fault, ok
}

// sectionValue returns a quantity of a section.
func (s *Sheet) sectionValue(k int, what source.Text) (string, *diag.Diagnostic) {
	var words []string
	for _, q := range headQuantities {
		words = append(words, q.word)
		if q.word != what.Value {
			continue
		}
		if value, ok := q.read(s, k); ok {
			return value, nil
		}
		return "", valueFault(what, "take the value out of the text, or cut or number the section on its sheet", "%s has no %s", s.Sections[k].Name, what.Value)
	}
	return "", unknownWord(s.Sections[k].Name, what, words)
}

// value returns a quantity of the whole sheet, or the length of the hair at a place
// ("at crown").
func (s *Sheet) value(what source.Text) (string, *diag.Diagnostic) {
	if !s.OK {
		return "", nil
	}
	if place, at := strings.CutPrefix(what.Value, "at "); at {
		return s.valueAt(what, place)
	}
	words := []string{"at crown"}
	for _, q := range sheetQuantities {
		words = append(words, q.word)
		if q.word != what.Value {
			continue
		}
		if value, ok := q.read(s); ok {
			return value, nil
		}
		return "", valueFault(what, "take the value out of the text, or add a cut that has it", "%s has no %s", s.Name, what.Value)
	}
	return "", unknownWord(s.Name, what, words)
}

// valueAt returns the length of the hair at a landmark. "front" is short for the
// front hairline.
func (s *Sheet) valueAt(what source.Text, place string) (string, *diag.Diagnostic) {
	if place == "front" {
		place = "front hairline"
	}
	known := s.Sheet.Head.New().Landmarks()
	if s.Cut != nil {
		if cm, ok := s.Cut.At(place); ok {
			value, _ := centimetres(cm, true)
			return value, nil
		}
	}
	if !slices.Contains(known, place) {
		help := "the landmarks are: " + strings.Join(known, ", ")
		if near := diag.DidYouMean(place, known); near != "" {
			help = fmt.Sprintf("did you mean %q? %s", "at "+near, help)
		}
		return "", valueFault(what, help, "there is no landmark %q", place)
	}
	return "", valueFault(what, "take the value out of the text, or cut the hair there", "%s does not cut the hair at %s", s.Name, place)
}

func unknownWord(name string, what source.Text, words []string) *diag.Diagnostic {
	help := "it has: " + strings.Join(words, ", ")
	if near := diag.DidYouMean(what.Value, words); near != "" {
		help = fmt.Sprintf("did you mean %q? %s", near, help)
	}
	return valueFault(what, help, "%s has no %q", name, what.Value)
}

// unknownName reports a name that no formula, section or sheet of a lesson has.
func (d *Derived) unknownName(l *lesson.Lesson, name source.Text) *diag.Diagnostic {
	var names []string
	for _, f := range l.Formulas {
		names = append(names, f.Name.Value)
	}
	for _, s := range d.partOf(l).sheets {
		names = append(append(names, s.Name), s.Names()...)
	}
	slices.Sort(names)
	names = slices.Compact(names)
	help := "this lesson has: " + strings.Join(names, ", ")
	if near := diag.DidYouMean(name.Value, names); near != "" {
		help = fmt.Sprintf("did you mean %q? %s", near, help)
	}
	return valueFault(name, help, "this lesson has no formula, section or head sheet %q", name.Value)
}
