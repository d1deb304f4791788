package page

import (
	"bytes"
	"reflect"
	"slices"
	"time"

	"plait/internal/derive"
	"plait/internal/lesson"
	"plait/internal/measure"
	"plait/internal/mix"
)

// dataPath is where the course stands as data, for programs.
const dataPath = "course.json"

// dataVersion changes whenever a field changes its meaning or goes away. New fields
// do not change it.
const dataVersion = 1

// courseJSON is a course with every formula and every value that was computed for
// it. Weights are grams, strengths per cent of hydrogen peroxide, levels numbers of
// the usual scale: all as strings, a decimal or, where no decimal is exact, a
// fraction such as "20/3". Times are whole seconds. Paths are from the root of the
// site.
type courseJSON struct {
	Version  int          `json:"version"`
	Title    string       `json:"title"`
	Language string       `json:"language"`
	Edition  string       `json:"edition,omitempty"`
	Law      string       `json:"law,omitempty"`
	Scale    string       `json:"scale"` // what a scale can show
	Modules  []moduleJSON `json:"modules"`
	Lessons  []lessonJSON `json:"lessons"` // in the order of the modules
}

type moduleJSON struct {
	Name    string   `json:"name"`
	Title   string   `json:"title"`
	Page    string   `json:"page"`
	Lessons []string `json:"lessons"` // names
}

type lessonJSON struct {
	Name     string        `json:"name"`
	Title    string        `json:"title"`
	Summary  string        `json:"summary,omitempty"`
	Page     string        `json:"page"`
	Chair    *spanJSON     `json:"chair,omitempty"` // from the first touch to the last rinse
	Formulas []formulaJSON `json:"formulas"`
}

type formulaJSON struct {
	Name      string      `json:"name"`
	Page      string      `json:"page"` // with the place of the card
	Kind      string      `json:"kind,omitempty"`
	Range     string      `json:"range"` // the name of its file
	On        []string    `json:"on,omitempty"`
	Said      string      `json:"said"` // the formula in one line
	Parts     []partJSON  `json:"parts"`
	Colour    string      `json:"colour"`
	Additives string      `json:"additives"`
	Developer string      `json:"developer"`
	Mixed     string      `json:"mixed"`
	Weighed   string      `json:"weighed"`          // what the scale shows in all
	Ratio     string      `json:"ratio,omitempty"`  // colour to developer
	Bottle    string      `json:"bottle,omitempty"` // strength of the developer
	Strength  string      `json:"strength"`         // of everything in the bowl
	Level     string      `json:"level,omitempty"`  // average of the shades
	Reads     string      `json:"reads,omitempty"`  // what the level reads as
	Hair      string      `json:"hair,omitempty"`
	Target    string      `json:"target,omitempty"`
	Time      *timeJSON   `json:"time,omitempty"`
	Service   *rowJSON    `json:"service,omitempty"` // none where no start is given
	Working   []string    `json:"working"`           // the arithmetic, a line a step
	Found     []foundJSON `json:"found,omitempty"`   // warnings and notes
	Kept      []foundJSON `json:"kept,omitempty"`    // what the lesson lets stand
}

// partJSON is one thing to weigh, in the order of pouring.
type partJSON struct {
	Role     string `json:"role"` // colour, additive or developer
	Name     string `json:"name"`
	Range    string `json:"range,omitempty"` // of a shade that is not of the formula's range
	Exact    string `json:"exact"`
	Weighed  string `json:"weighed"`
	Strength string `json:"strength,omitempty"` // of a developer
}

// spanJSON is a stretch of time; both ends are the same where there is no choice.
type spanJSON struct {
	Min int64 `json:"min"`
	Max int64 `json:"max"`
}

// timeJSON is a processing time with the moment it counts from.
type timeJSON struct {
	spanJSON
	From string `json:"from"` // "from last section" or "from first touch"
}

// rowJSON is a bowl laid out in the service, from the service's start.
type rowJSON struct {
	Applied spanJSON `json:"applied"` // first touch, and last section covered
	Rinse   spanJSON `json:"rinse"`   // the moments between which it comes off

	Sections []sectionJSON `json:"sections,omitempty"` // in the order of work; none where it goes on in one go
}

// sectionJSON is a section of a bowl: when it is covered, from the service's start, and
// how long the bowl is on it.
type sectionJSON struct {
	Name    string   `json:"name"`
	Applied spanJSON `json:"applied"`
	On      spanJSON `json:"on"`
}

type foundJSON struct {
	Rule     string `json:"rule"`
	Severity string `json:"severity"`
	Message  string `json:"message"`
	Because  string `json:"because,omitempty"` // why it is let stand
}

// bytesPerBowl is about how much of the data a bowl takes. Memory that grows with what is
// written into it is written five times.
const bytesPerBowl = 1500

// data makes the course as data.
func (b *builder) data(out []byte) ([]byte, error) {
	c := b.course
	whole := courseJSON{
		Version: dataVersion, Title: c.Title.Value, Language: b.site.Language, Edition: c.Edition.Value, Law: c.Limits().Code,
		Scale: c.Scale.Grams().String(), Modules: []moduleJSON{}, Lessons: []lessonJSON{},
	}
	for _, m := range c.Modules {
		module := moduleJSON{Name: m.Name.Value, Title: m.Title.Value, Page: modulePath(m), Lessons: []string{}}
		for _, l := range m.Lessons {
			module.Lessons = append(module.Lessons, l.Name)
		}
		whole.Modules = append(whole.Modules, module)
	}
	out = slices.Grow(out, bytesPerBowl*b.bowls())
	// The list of lessons is the last field; it is still empty and closed. Each lesson is
	// written by itself: the values of all of them at once are many times as large as the
	// text.
	out = bytes.TrimSuffix(appendJSON(out, reflect.ValueOf(whole), 0), []byte("]\n}"))
	for i, l := range c.Lessons {
		if i > 0 {
			out = append(out, ',')
		}
		out = appendJSON(append(out, "\n  "...), reflect.ValueOf(b.lessonData(l)), 2)
	}
	if len(c.Lessons) > 0 {
		out = append(out, "\n "...)
	}
	return append(out, "]\n}\n"...), nil
}

func (b *builder) lessonData(l *lesson.Lesson) lessonJSON {
	out := lessonJSON{Name: l.Name, Title: l.Title.Value, Summary: l.Summary.Value, Page: lessonPath(l), Formulas: make([]formulaJSON, 0, len(l.Formulas))}
	if t := b.derived.Timeline(l); t != nil {
		chair := inSeconds(t.Chair)
		out.Chair = &chair
	}
	for _, f := range l.Formulas {
		if d, ok := b.computed(f); ok {
			out.Formulas = append(out.Formulas, b.formulaData(l, d))
		}
	}
	return out
}

func (b *builder) formulaData(l *lesson.Lesson, d *derive.Formula) formulaJSON {
	bowl := d.Bowl
	out := formulaJSON{
		Name: d.Name.Value, Page: lessonPath(l) + "#" + bowlID(d), Kind: string(d.Kind.Value), Range: d.Range.ID, On: values(d.On),
		Said: plain(bowlSaid(d)), Parts: partsData(d),
		Colour: bowl.Colour.Grams().String(), Additives: bowl.Additives.Grams().String(), Developer: bowl.Developer.Grams().String(),
		Mixed: bowl.Mixed.Grams().String(), Weighed: bowl.WeighedTotal().Grams().String(),
		Strength: bowl.Strength.Percent().String(), Working: b.working(d),
	}
	if !bowl.Developer.IsZero() {
		out.Bottle = bowl.Bottle.Percent().String()
		out.Ratio = bowl.Ratio.Colour.String() + ":" + bowl.Ratio.Developer.String()
	}
	if bowl.HasLevel {
		out.Level, out.Reads = bowl.Level.Mean.String(), derive.Reading(bowl.Level)
	}
	if d.Hair.Set() {
		out.Hair = plain(hairText(d.Hair.Value))
	}
	if d.Target.Set() {
		out.Target = targetText(d.Target.Value)
	}
	if d.Time.Set() {
		out.Time = &timeJSON{inSeconds(d.Time.Value), d.Time.Zero.String()}
	}
	if row, ok := b.derived.Row(d); ok {
		out.Service = serviceData(row)
	}
	for _, f := range b.findings(d) {
		out.Found = append(out.Found, foundJSON{Rule: f.Rule, Severity: f.Severity.String(), Message: f.Message})
	}
	for _, a := range b.kept(d) {
		out.Kept = append(out.Kept, foundJSON{Rule: a.Rule, Severity: a.Severity.String(), Message: a.Message, Because: a.Because})
	}
	return out
}

func partsData(d *derive.Formula) []partJSON {
	out := make([]partJSON, len(d.Bowl.Parts))
	for i, p := range d.Bowl.Parts {
		out[i] = partJSON{Role: p.Role.String(), Name: p.Name, Exact: p.Exact.Grams().String(), Weighed: p.Weighed.Grams().String()}
		if r := d.RangeOf(p.Shade); p.Role == mix.ColourRole && r != d.Range {
			out[i].Range = r.ID
		}
		if p.Role == mix.DeveloperRole {
			out[i].Name, out[i].Strength = p.Strength.Name(), p.Strength.Percent().String()
		}
	}
	return out
}

func serviceData(r derive.Row) *rowJSON {
	out := &rowJSON{Applied: inSeconds(r.Applied), Rinse: inSeconds(r.Rinse)}
	for _, s := range r.Sections {
		out.Sections = append(out.Sections, sectionJSON{Name: s.Name, Applied: inSeconds(s.Applied), On: inSeconds(s.On)})
	}
	return out
}

func inSeconds(s measure.Span) spanJSON {
	return spanJSON{int64(s.Min / time.Second), int64(s.Max / time.Second)}
}
