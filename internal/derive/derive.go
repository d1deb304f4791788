// Package derive recomputes a course: every bowl from what its formula says, and
// every value that the text asks for.
//
// Authored and computed values stay apart. A [Formula] here holds what plait works
// out, beside the block that holds what the author typed; the rules of package
// check compare the two.
package derive

import (
	"fmt"
	"slices"
	"strings"

	"plait/internal/course"
	"plait/internal/diag"
	"plait/internal/formula"
	"plait/internal/lesson"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/parallel"
	"plait/internal/shade"
	"plait/internal/source"
)

// Derived is what was computed for a course.
type Derived struct {
	Formulas []*Formula // in the order of the lessons, drafts last
	of       map[*lesson.Formula]*Formula
	parts    map[*lesson.Lesson]*part
}

// part is what was computed for one lesson. Nothing in it hangs on another lesson, and it is
// not changed once made.
type part struct {
	formulas  []*Formula
	timeline  *Timeline
	questions []*Question
	sheets    []*Sheet
	faults    []diag.Diagnostic
}

// Formula is a formula with everything that follows from it.
type Formula struct {
	*lesson.Formula
	Lesson *lesson.Lesson
	Computed
	Hair  source.Stated[formula.Hair] // the block's own, else that of its zone in the header
	Where []Where                     // the sections it goes on, sheet by sheet
}

// Computed is what follows from a formula block and its range.
type Computed struct {
	Range *shade.Range   // nil where none is known
	Also  []*shade.Range // the ranges beside it that shades are said to be of
	Terms shade.Terms    // of Range; with Also, what keeps to all of them
	Apart []shade.Apart  // what no bowl of these ranges can keep
	Mix   mix.Formula
	Bowl  mix.Bowl
	OK    bool // Mix and Bowl are valid

	Shared *Shared // how an amount by section comes about; nil for any other
}

// Kept is what one run of a process leaves to the next: what was computed for lessons that
// are the very same and stand on the same ground. The zero Kept is ready; one serves one run
// at a time.
type Kept struct {
	course *course.Course
	parts  map[*lesson.Lesson]*part
}

// Run recomputes a course. The diagnostics are about formulas that cannot be
// computed, about bowls that wait for no bowl and about values in the text that name
// nothing.
func Run(c *course.Course) (*Derived, []diag.Diagnostic) { return new(Kept).Run(c) }

// Run is the function [Run] for what has changed since the run before.
func (k *Kept) Run(c *course.Course) (*Derived, []diag.Diagnostic) {
	lessons := slices.Concat(c.Lessons, c.Drafts)
	old := k.parts
	if !c.SameGround(k.course) {
		old = nil
	}
	parts := make([]*part, len(lessons))
	var todo []int // lessons that are new
	for i, l := range lessons {
		if parts[i] = old[l]; parts[i] == nil {
			parts[i] = newPart(l)
			todo = append(todo, i)
		}
	}
	workSheets(parts, todo)
	parallel.All(0, len(todo), func(i int) {
		parts[todo[i]].work(c, lessons[todo[i]])
	})
	bowls := 0
	for _, p := range parts {
		bowls += len(p.formulas)
	}
	d := &Derived{parts: make(map[*lesson.Lesson]*part, len(lessons)), of: make(map[*lesson.Formula]*Formula, bowls), Formulas: make([]*Formula, 0, bowls)}
	var found []diag.Diagnostic
	for i, l := range lessons {
		d.add(l, parts[i])
		found = append(found, parts[i].faults...)
	}
	k.course, k.parts = c, d.parts
	return d, found
}

// add adds what was computed for a lesson.
func (d *Derived) add(l *lesson.Lesson, p *part) {
	d.parts[l] = p
	d.Formulas = append(d.Formulas, p.formulas...)
	for _, f := range p.formulas {
		d.of[f.Formula] = f
	}
}

// partOf returns what was computed for a lesson, nothing where it is not of the course.
func (d *Derived) partOf(l *lesson.Lesson) *part {
	if p := d.parts[l]; p != nil {
		return p
	}
	return &part{}
}

// SameOf reports whether what was computed for a lesson is the very same as in another run.
func (d *Derived) SameOf(l *lesson.Lesson, o *Derived) bool {
	return o != nil && d.parts[l] != nil && d.parts[l] == o.parts[l]
}

// work recomputes one lesson, whose head sheets have been worked out.
func (p *part) work(c *course.Course, l *lesson.Lesson) {
	d := &Derived{parts: map[*lesson.Lesson]*part{l: p}, of: map[*lesson.Formula]*Formula{}}
	for _, f := range l.Formulas {
		out := &Formula{Formula: f, Lesson: l, Hair: hairOf(l, f)}
		p.faults = append(p.faults, d.place(out)...)
		computed, faults := compute(c, out)
		p.faults = append(p.faults, faults...)
		out.Computed = computed
		p.formulas = append(p.formulas, out)
		d.of[f] = out
	}
	var faults []diag.Diagnostic
	p.timeline, faults = layOut(p.formulas)
	p.faults = append(p.faults, faults...)
	for _, v := range l.Doc.Values {
		if _, fault := d.Value(l, v.Text); fault != nil {
			p.faults = append(p.faults, *fault)
		}
	}
	p.faults = append(p.faults, d.ask(c, l)...)
}

// compute computes one formula of a lesson. Against a range with errors of its own
// nothing can be said.
func compute(c *course.Course, f *Formula) (Computed, []diag.Diagnostic) {
	l := f.Lesson
	if r := c.RangeOf(l, f.Formula); r != nil && r.Partial {
		return Computed{Range: r.Range}, nil
	}
	own := c.RangeFor(l, f.Formula)
	others := make([]*shade.Range, len(c.Ranges))
	for i, r := range c.Ranges {
		others[i] = r.Range
		if r.Partial && slices.Contains(f.Named(own, r.Range), r.Range) {
			return Computed{Range: own}, nil
		}
	}
	shared, fault := f.share()
	if fault != nil {
		return Computed{Range: own}, []diag.Diagnostic{*fault}
	}
	if shared == nil {
		return Bowl(f.Block, own, c.Scale, others...)
	}
	computed, found := Bowl(f.Sized(shared.Total), own, c.Scale, others...)
	computed.Shared = shared
	return computed, found
}

// Bowl computes one formula block against a range, which may be nil, and the others that
// its shades may be said to be of, on a scale that shows multiples of step.
func Bowl(b *formula.Block, rng *shade.Range, step measure.Mass, others ...*shade.Range) (Computed, []diag.Diagnostic) {
	c := Computed{Range: rng, Also: b.Named(rng, others...)}
	c.Terms, c.Apart = b.Terms(rng, c.Also...)
	recipe, found := b.Lower(rng, others...)
	if b.Broken || diag.HasErrors(found) {
		return c, found
	}
	bowl, err := mix.Compute(recipe, step)
	if err != nil {
		return c, append(found, diag.Errorf("formula/impossible", b.Span, "%v", err).
			WithHelp("look at the weights and shares of this bowl again"))
	}
	c.Mix, c.Bowl, c.OK = recipe, bowl, true
	return c, found
}

// Ranges returns the ranges of the bowl's shades, its own first; none where no range is
// known.
func (c Computed) Ranges() []*shade.Range {
	if c.Range == nil {
		return nil
	}
	return append([]*shade.Range{c.Range}, c.Also...)
}

// RangeOf returns the range that a shade of the bowl is of, nil where none is known.
func (c Computed) RangeOf(code shade.Code) *shade.Range {
	for _, r := range c.Also {
		if r.ID == code.Range {
			return r
		}
	}
	return c.Range
}

// ColourWord returns what to call what is mixed with the developer: powder where it is
// nothing but a powder lightener, else colour.
func (c Computed) ColourWord() string {
	for _, p := range c.Bowl.Parts {
		if r := c.RangeOf(p.Shade); p.Role == mix.ColourRole && (r == nil || !r.IsPowder(p.Shade)) {
			return "colour"
		}
	}
	return "powder"
}

// Makers names the ranges of the bowl's shades: "Meadow and Saltmarsh".
func (c Computed) Makers() string {
	var names []string
	for _, r := range c.Ranges() {
		names = append(names, r.Name)
	}
	return strings.Join(names, " and ")
}

// hairOf returns the hair a formula goes on: what the block says, else the zone of
// the lesson's header that the formula's places speak of, else the only zone.
func hairOf(l *lesson.Lesson, f *lesson.Formula) source.Stated[formula.Hair] {
	if f.Hair.Set() {
		return f.Hair
	}
	for _, place := range f.On {
		for _, z := range l.Hair.Zones {
			if speaksOf(place.Value, z.Name.Value) {
				return z.Hair
			}
		}
	}
	if len(l.Hair.Zones) == 1 {
		return l.Hair.Zones[0].Hair
	}
	return source.Stated[formula.Hair]{}
}

// zoneWords are other words for the zones of a lesson's header.
var zoneWords = map[string]string{"root": "roots", "regrowth": "roots", "length": "lengths", "end": "ends"}

// speaksOf reports whether a text names a zone.
func speaksOf(text, zone string) bool {
	for _, w := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r == ' ' || r == ',' || r == '-' }) {
		if w == zone || zoneWords[w] == zone {
			return true
		}
	}
	return false
}

// Of returns what was computed for a formula.
func (d *Derived) Of(f *lesson.Formula) *Formula { return d.of[f] }

// quantities are the words that may stand before "of" in a value, with how each
// is read off a computed bowl.
var quantities = []struct {
	word string
	read func(*Derived, *Formula) (string, bool)
}{
	{"colour", func(_ *Derived, f *Formula) (string, bool) { return f.Bowl.WeighedTotal(mix.ColourRole).String(), true }},
	{"developer", func(_ *Derived, f *Formula) (string, bool) {
		return f.Bowl.WeighedTotal(mix.DeveloperRole).String(), !f.Bowl.Developer.IsZero()
	}},
	{"mixed", func(_ *Derived, f *Formula) (string, bool) { return f.Bowl.WeighedTotal().String(), true }},
	{"strength", func(_ *Derived, f *Formula) (string, bool) {
		return f.Bowl.Strength.String(), !f.Bowl.Developer.IsZero()
	}},
	{"ratio", func(_ *Derived, f *Formula) (string, bool) { return f.Bowl.Ratio.String(), !f.Bowl.Ratio.IsZero() }},
	{"level", func(_ *Derived, f *Formula) (string, bool) { return Reading(f.Bowl.Level), f.Bowl.HasLevel }},
	{"time", func(_ *Derived, f *Formula) (string, bool) { return f.Time.Value.String(), f.Time.Set() }},
	{"apply", func(_ *Derived, f *Formula) (string, bool) { return measure.Minutes(f.Apply.Value), f.Apply.Set() }},
	{"start", func(d *Derived, f *Formula) (string, bool) {
		row, ok := d.Row(f)
		return measure.Minutes(row.Applied.Min), ok
	}},
	{"rinse", func(d *Derived, f *Formula) (string, bool) {
		row, ok := d.Row(f)
		return row.Rinse.String(), ok
	}},
}

// Reading prints what a colour reads: "8", or "between 5 and 6".
func Reading(r shade.Reading) string {
	if r.Tie() {
		return fmt.Sprintf("between %d and %d", r.Low, r.High)
	}
	return fmt.Sprint(int(r.High))
}

// Value returns the computed value that a text in braces asks for: a quantity or a
// shade, then "of" and the name of a formula, a section or a head sheet, as in
// {developer of gloss}, {8N of gloss} and {area of nape}. Where it names nothing the
// diagnostic says what can be named; where the thing itself is broken the value is
// empty and nothing more is said.
func (d *Derived) Value(l *lesson.Lesson, t source.Text) (string, *diag.Diagnostic) {
	what, name, found := t.Cut(" of ")
	if !found {
		return "", valueFault(t, "write what to show and of which formula, as in {developer of gloss}", "{%s} names no formula", t.Value)
	}
	if f, ok := l.Formula(name.Value); ok {
		return d.of[f].value(d, what)
	}
	if value, fault, ok := d.onHead(l, what, name); ok {
		return value, fault
	}
	if len(d.partOf(l).sheets) > 0 {
		return "", d.unknownName(l, name)
	}
	return "", unknownFormula(l, name)
}

// value returns a quantity of a computed formula.
func (f *Formula) value(d *Derived, what source.Text) (string, *diag.Diagnostic) {
	if !f.OK {
		return "", nil
	}
	for _, q := range quantities {
		if q.word != what.Value {
			continue
		}
		if s, ok := q.read(d, f); ok {
			return s, nil
		}
		return "", valueFault(what, "take the value out of the text, or add it to the formula", "%s has no %s", f.Name.Value, what.Value)
	}
	for _, p := range f.Bowl.Parts {
		if p.Name == what.Value && p.Name != "" {
			return p.Weighed.String(), nil
		}
	}
	if mass, ok := f.Shared.on(what.Value); ok {
		return mass.String(), nil
	}
	return "", unknownQuantity(f, what)
}

func valueFault(t source.Text, help, format string, args ...any) *diag.Diagnostic {
	d := diag.Errorf("text/value", t.Span, format, args...).WithHelp("%s", help)
	return &d
}

func unknownFormula(l *lesson.Lesson, name source.Text) *diag.Diagnostic {
	var names []string
	for _, f := range l.Formulas {
		names = append(names, f.Name.Value)
	}
	help := "this lesson has no formulas"
	if near := diag.DidYouMean(name.Value, names); near != "" {
		help = fmt.Sprintf("did you mean %q?", near)
	} else if len(names) > 0 {
		help = "the formulas of this lesson are: " + strings.Join(names, ", ")
	}
	return valueFault(name, help, "this lesson has no formula %q", name.Value)
}

func unknownQuantity(f *Formula, what source.Text) *diag.Diagnostic {
	var words []string
	for _, q := range quantities {
		words = append(words, q.word)
	}
	for _, p := range f.Bowl.Parts {
		if p.Name != "" {
			words = append(words, p.Name)
		}
	}
	help := "it has: " + strings.Join(words, ", ")
	if near := diag.DidYouMean(what.Value, words); near != "" {
		help = fmt.Sprintf("did you mean %q? %s", near, help)
	}
	return valueFault(what, help, "%s has no %q", f.Name.Value, what.Value)
}
