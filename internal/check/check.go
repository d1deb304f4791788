// Package check judges a course: its rules hold what an author stated against what
// plait computed, against the law, the maker's range and the house rules, and
// against the practice of the trade.
//
// A [Rule] is one file: what it says, why, on which source, an example that breaks
// it and one that keeps it, and the function that looks. A rule sees only its
// [Pass]; it opens no file and knows no clock. [Run] runs all of them and applies
// what lessons accept with a reason.
//
// Only arithmetic, the law, the course's own range and house rules, and broken
// structure are errors. What is common practice is a warning or a note and says so.
package check

import (
	"slices"
	"strings"

	"plait/internal/course"
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/formula"
	"plait/internal/heard"
	"plait/internal/lesson"
	"plait/internal/parallel"
	"plait/internal/source"
)

// Rule is one thing that plait looks for.
type Rule struct {
	ID       string // family/name
	Title    string // what it says, a sentence without its full stop
	Why      string // rationale, in words a colourist uses
	Source   string // where it comes from, or "common practice, no source"
	Severity diag.Severity
	Of       Piece  // what the examples are a piece of
	Before   string // an example that breaks the rule
	After    string // the same, mended
	Since    string // the version of plait that brought it

	// ByKind says that the rule hangs on the formula's kind of colour.
	ByKind bool

	// Formula looks at one computed formula, Lesson at a lesson and Course at what
	// holds for all of it. A rule without any of them is reported while files are
	// read and linked; it is listed so that it can be explained.
	Formula func(*Pass, *derive.Formula)
	Lesson  func(*Pass, *lesson.Lesson)
	Course  func(*Pass)
}

// Family returns what stands before the stroke of the rule's id.
func (r Rule) Family() string {
	family, _, _ := strings.Cut(r.ID, "/")
	return family
}

// Piece says what an example of a rule is a piece of.
type Piece uint8

// The pieces of a course that examples show. Of all but lessons, files and words, an example
// holds only the lines that matter.
const (
	Block    Piece = iota // lines of a formula block
	Header                // lines of a lesson's header
	Prose                 // text of a lesson's step
	Range                 // lines of a range file
	Settings              // lines of course.yaml
	Words                 // a word list
	Lesson                // a whole lesson
	Files                 // a whole course, each file behind a line -- path --
	Question              // lines of a question block
	Paper                 // lines of a paper, beside a lesson that keeps two questions for papers
	Sheet                 // lines of a head sheet
	InWords               // told in words
)

// Pass is all that a rule sees.
type Pass struct {
	Course  *course.Course
	Derived *derive.Derived
	rule    *Rule
	found   []diag.Diagnostic
	talks   map[*lesson.Lesson][]heard.Fact // what was said in each, once it was asked for
}

// Reportf reports a finding with the rule's own severity.
func (p *Pass) Reportf(at source.Span, help, format string, args ...any) *diag.Diagnostic {
	return p.report(p.rule.Severity, at, help, format, args...)
}

// Warnf reports a finding that does not stop a build, whatever the rule's own
// severity.
func (p *Pass) Warnf(at source.Span, help, format string, args ...any) *diag.Diagnostic {
	return p.report(diag.Warning, at, help, format, args...)
}

// Notef reports a finding that is only worth knowing.
func (p *Pass) Notef(at source.Span, help, format string, args ...any) *diag.Diagnostic {
	return p.report(diag.Note, at, help, format, args...)
}

func (p *Pass) report(severity diag.Severity, at source.Span, help, format string, args ...any) *diag.Diagnostic {
	d := diag.Errorf(p.rule.ID, at, format, args...).WithHelp("%s", help)
	d.Severity = severity
	p.found = append(p.found, d)
	return &p.found[len(p.found)-1]
}

// Kept is what one run of a process leaves to the next: what was found in lessons that are
// the very same and stand on the same ground. The zero Kept is ready; one serves one run at
// a time.
type Kept struct {
	course *course.Course
	found  map[*lesson.Lesson][]finding
}

// finding is what a rule, by its place among all rules, found in a lesson.
type finding struct {
	rule int
	diag.Diagnostic
}

// Run applies all rules to a course and returns what they found, with what its
// lessons accept apart.
//
// A lesson is looked at by itself, so several are looked at at a time. Findings come
// in the order of the rules, and of the lessons within each.
func Run(c *course.Course, d *derive.Derived) (found []diag.Diagnostic, accepted []Accepted) {
	return new(Kept).Run(c, d)
}

// Run is the function [Run] for what has changed since the run before. Rules that look at the
// whole course look again.
func (k *Kept) Run(c *course.Course, d *derive.Derived) (found []diag.Diagnostic, accepted []Accepted) {
	lessons := slices.Concat(c.Lessons, c.Drafts)
	old := k.found
	if !c.SameGround(k.course) {
		old = nil
	}
	ofLessons := make([][]finding, len(lessons))
	var todo []int // lessons that are new
	for i, l := range lessons {
		var known bool
		if ofLessons[i], known = old[l]; !known {
			todo = append(todo, i)
		}
	}
	parallel.All(0, len(todo), func(i int) {
		p := &Pass{Course: c, Derived: d}
		ofLessons[todo[i]] = p.lookAt(lessons[todo[i]])
	})
	k.course, k.found = c, make(map[*lesson.Lesson][]finding, len(lessons))
	byRule := make([][]diag.Diagnostic, len(rules))
	for i, l := range lessons {
		k.found[l] = ofLessons[i]
		for _, f := range ofLessons[i] {
			byRule[f.rule] = append(byRule[f.rule], f.Diagnostic)
		}
	}
	p := &Pass{Course: c, Derived: d}
	for i := range rules {
		if p.rule = &rules[i]; p.rule.Course != nil {
			p.rule.Course(p)
		}
		p.found = append(p.found, byRule[i]...)
	}
	return accept(c, p.found)
}

// lookAt applies the rules for lessons and for formulas to one lesson and returns what
// they found, in the order of the rules.
func (p *Pass) lookAt(l *lesson.Lesson) []finding {
	var all []finding
	for i := range rules {
		p.rule, p.found = &rules[i], nil
		if p.rule.Lesson != nil {
			p.rule.Lesson(p, l)
		}
		if p.rule.Formula != nil {
			for _, f := range l.Formulas {
				if of := p.Derived.Of(f); of.OK {
					p.rule.Formula(p, of)
				}
			}
		}
		for _, d := range p.found {
			all = append(all, finding{i, d})
		}
	}
	return all
}

// Bowl applies the rules for formulas to one bowl that stands in no lesson; of the
// course only its settings count. Rules about a kind of colour are left out where
// the bowl names none.
func Bowl(c *course.Course, b *formula.Block, computed derive.Computed) []diag.Diagnostic {
	p := &Pass{Course: c}
	f := &derive.Formula{Formula: &lesson.Formula{Block: b}, Computed: computed, Hair: b.Hair}
	for i := range rules {
		p.rule = &rules[i]
		if p.rule.Formula == nil || p.rule.ByKind && !b.Kind.Set() {
			continue
		}
		p.rule.Formula(p, f)
	}
	return p.found
}

// Rules returns all rules, by family and name.
func Rules() []Rule { return slices.Clone(rules) }

// Family is the rules whose ids begin with the same word.
type Family struct {
	Name  string
	Rules []Rule
}

// Families returns all rules, grouped.
func Families() []Family {
	var out []Family
	for _, r := range rules {
		if n := len(out); n == 0 || out[n-1].Name != r.Family() {
			out = append(out, Family{Name: r.Family()})
		}
		last := &out[len(out)-1]
		last.Rules = append(last.Rules, r)
	}
	return out
}

// Find returns the rule of an id.
func Find(id string) (Rule, bool) {
	for _, r := range rules {
		if r.ID == id {
			return r, true
		}
	}
	return Rule{}, false
}
