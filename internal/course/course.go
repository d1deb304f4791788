// Package course is the whole of a course: its settings, its ranges of shades, its
// word list, its standing pages and its lessons in the order they are taught.
//
// The parts are read one by one ([ReadSettings], [ReadRange], [ReadWords],
// [ReadPage], and package lesson for a lesson), each from its own file alone.
// [Link] then puts them together and is the first to look across files: names that
// clash, lessons that no module names, links that lead nowhere. A Course is never
// changed once made.
package course

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"plait/internal/law"
	"plait/internal/lesson"
	"plait/internal/markdown"
	"plait/internal/measure"
	"plait/internal/shade"
	"plait/internal/source"
)

// Where the parts of a course lie, as slash-separated paths.
const (
	SettingsFile  = "content/course.yaml"
	RangesFolder  = "content/ranges"
	WordsFile     = "content/words.yaml"
	PagesFolder   = "content"
	LessonsFolder = "lessons"
	SiteFolder    = "public" // where the built site usually goes; links name its files
)

// Course is a linked course.
type Course struct {
	Settings
	Modules []*Module
	Ranges  []*Range
	Words   []Word
	Pages   []*Page
	Papers  []*Paper
	Lessons []*lesson.Lesson // that are taught, in order of the modules
	Drafts  []*lesson.Lesson // checked and not taught: ready: no, or in no module

	texts map[string]int // by file: the place of a taught lesson, and behind them all of a standing page
}

// Settings is what course.yaml says.
type Settings struct {
	File     *source.File
	Title    source.Text
	Summary  source.Text
	Language source.Text
	Edition  source.Text
	Address  source.Text
	Law      source.Text  // the country whose law holds
	Scale    measure.Mass // what a course's scale can show
	Range    source.Text  // the range of formulas that name none
	House    House
	Class    Class
	Stock    []Stocked
	Layouts  source.Text // a folder of the course's own templates
	Outline  []Outline

	holds law.Law // zero: none is stated
	// partial is set where course.yaml has errors: which lessons its modules were
	// meant to teach is not known.
	partial bool
}

// Limits returns the law that holds: the stated country's, else the strictest reading of
// all that are known.
func (s Settings) Limits() law.Law {
	if s.holds.Code == "" {
		return law.Strictest()
	}
	return s.holds
}

// Outline is a module as course.yaml lists it.
type Outline struct {
	Name    source.Text
	Title   source.Text
	Summary source.Text
	Lessons []source.Text
}

// Module is a module with its lessons.
type Module struct {
	Outline
	Lessons []*lesson.Lesson
}

// Range is a range of shades and the file it came from.
type Range struct {
	*shade.Range
	File    *source.File
	with    []source.Text // the names in With, with their places
	limits  []source.Text // the limits that Ingredients state, in their order; empty for the law's own
	Partial bool          // it has errors: which shades and terms it was meant to have is not known
}

// Word is an entry of the word list.
type Word struct {
	Term    source.Text
	Meaning source.Text
	See     []source.Text
}

// Page is a standing page: about, safety, how to write a lesson.
type Page struct {
	Name    string
	File    *source.File
	Title   source.Text
	Summary source.Text
	Doc     *markdown.Document
	Small   map[string][]byte // small drawings that its text shows, by their paths in the course
}

// SameGround reports whether lessons are worked out on the very same ground as in another
// course: settings and ranges that were read once. What a lesson says follows from its own
// files and from these alone.
func (c *Course) SameGround(o *Course) bool {
	return o != nil && c.File == o.File && slices.Equal(c.Ranges, o.Ranges)
}

// ID tells the courses of one device apart, and the answer files of one course from
// those of another: the letters and digits of its address or title, with hyphens
// between words.
func (c *Course) ID() string {
	words := strings.FieldsFunc(strings.ToLower(cmp.Or(c.Address.Value, c.Title.Value)), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
	return strings.Join(words, "-")
}

// rangeName returns the name of the range that a formula takes its shades from: as
// the formula says, else the lesson, else the course.
func (c *Course) rangeName(l *lesson.Lesson, f *lesson.Formula) source.Text {
	for _, t := range []source.Text{f.Range, l.Range, c.Range} {
		if t.Value != "" {
			return t
		}
	}
	return source.Text{}
}

// RangeOf returns the range that a formula takes its shades from; where nothing
// names one, the only one there is. It is nil where none can be told, which [Link]
// has reported.
func (c *Course) RangeOf(l *lesson.Lesson, f *lesson.Formula) *Range {
	name := c.rangeName(l, f)
	if name.Value == "" && len(c.Ranges) == 1 {
		return c.Ranges[0]
	}
	return findRange(c.Ranges, name.Value)
}

// RangeFor is [Course.RangeOf] without the file it came from.
func (c *Course) RangeFor(l *lesson.Lesson, f *lesson.Formula) *shade.Range {
	if r := c.RangeOf(l, f); r != nil {
		return r.Range
	}
	return nil
}

func findRange(ranges []*Range, id string) *Range {
	for _, r := range ranges {
		if r.ID == id {
			return r
		}
	}
	return nil
}

// Lesson returns the taught lesson of a name.
func (c *Course) Lesson(name string) (*lesson.Lesson, bool) {
	for _, l := range c.Lessons {
		if l.Name == name {
			return l, true
		}
	}
	return nil, false
}

// ModuleOf returns the module that teaches a lesson and the lesson's place in it,
// from 0.
func (c *Course) ModuleOf(l *lesson.Lesson) (m *Module, place int) {
	for _, m := range c.Modules {
		for i, x := range m.Lessons {
			if x == l {
				return m, i
			}
		}
	}
	return nil, 0
}
