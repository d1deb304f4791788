package scalp

import (
	"fmt"
	"strings"
)

// Code names a kind of problem.
type Code string

// The kinds of problem with a plan. The first group stops a plan, the second only
// warns.
const (
	Misses         Code = "misses"          // the line does not divide the section
	Empty          Code = "empty"           // a part that no section has a share in
	UnknownSection Code = "unknown-section" // no section has this name at this step
	NameTaken      Code = "name-taken"      // two sections would have one name
	WrongNames     Code = "wrong-names"     // as many names are needed as the parting makes parts
	BadPlace       Code = "bad-place"       // a landmark is unknown, or a place is none
	OffMidline     Code = "off-midline"     // a parting alike on both sides needs a point in the middle
	OutOfRange     Code = "out-of-range"    // a number is too small or too large
	NoLine         Code = "no-line"         // the points given lie on one line or the plane misses the head
	NoZigzag       Code = "no-zigzag"       // this parting cannot run in a zigzag
	NoStretch      Code = "no-stretch"      // slices are counted along a line that the section does not touch
	SlicesCross    Code = "slices-cross"    // two slices would overlap
	TooMany        Code = "too-many"        // more sections or cuts than a head can show
	Broken         Code = "broken"          // the sections do not cover the scalp once: a fault of this program

	Sliver Code = "sliver" // a section too small or too narrow to work with
	Split  Code = "split"  // a section in more pieces than was said
)

// Problem is what is wrong with a plan, or worth a warning. It is an error.
type Problem struct {
	Code    Code
	Step    int      // index of the step, from 0; of the step that made the section for a warning
	Parting string   // kind of parting, such as "ear to ear"
	Section string   // name of the section, where one is meant
	Known   []string // names that would have been right: sections or landmarks
	// Value is the number that is the trouble, between Least and Most where it is out
	// of range: the nearest distance in cm from a section to the line that misses it,
	// the area of a sliver in cm², the number of pieces or names.
	Value, Least, Most float64
	Cause              error  // of a bad place
	What               string // the option that is out of range, or the place off the midline
}

// Unwrap returns the cause.
func (p *Problem) Unwrap() error { return p.Cause }

// Error says it in a sentence, for people who read logs; a page words it better.
func (p *Problem) Error() string {
	return fmt.Sprintf("step %d, %s: %s", p.Step+1, p.Parting, p.reason())
}

func (p *Problem) reason() string {
	switch p.Code {
	case Misses:
		return fmt.Sprintf("the line misses %q, by %.1f cm", p.Section, p.Value)
	case Empty:
		return fmt.Sprintf("part %q stays empty", p.Section)
	case UnknownSection:
		return fmt.Sprintf("there is no section %q here, only %s", p.Section, quoted(p.Known))
	case NameTaken:
		return fmt.Sprintf("two sections would be called %q", p.Section)
	case WrongNames:
		return fmt.Sprintf("%g names are given for %g parts", p.Value, p.Least)
	case BadPlace:
		return p.Cause.Error()
	case OffMidline:
		return fmt.Sprintf("%q does not lie on the midline", p.What)
	case OutOfRange:
		return fmt.Sprintf("%s %.4g is not between %.4g and %.4g", p.What, p.Value, p.Least, p.Most)
	case NoLine:
		return "the points give no line on the head"
	case NoZigzag:
		return "this parting cannot run in a zigzag"
	case NoStretch:
		return "the section does not touch the line that slices are counted along"
	case SlicesCross:
		return fmt.Sprintf("slices cross in %q", p.Section)
	case TooMany:
		return fmt.Sprintf("%g %s are more than %g", p.Value, p.What, p.Most)
	case Sliver:
		return fmt.Sprintf("section %q is a sliver of %.2f cm²", p.Section, p.Value)
	case Split:
		return fmt.Sprintf("section %q is in %g pieces", p.Section, p.Value)
	}
	return fmt.Sprintf("sections add up to %g cm² more than the scalp", p.Value)
}

func quoted(names []string) string {
	var list []string
	for _, n := range names {
		list = append(list, fmt.Sprintf("%q", n))
	}
	return strings.Join(list, ", ")
}

// within returns a problem where a number is out of its bounds.
func within(what string, value float64, b Bounds) *Problem {
	if b.Hold(value) {
		return nil
	}
	return &Problem{Code: OutOfRange, What: what, Value: value, Least: b.Least, Most: b.Most}
}
