package check

import (
	"math"
	"slices"
	"strings"

	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/lesson"
	"plait/internal/sheet"
)

var headUneven = Rule{
	ID:    "head/uneven",
	Title: "left and right are of a size",
	Why: "Two sections that are called alike but for left and right are expected to mirror each other. Where they differ, one " +
		"side was parted otherwise. A sheet with a side parting, or a line from point to point, is uneven by intent.",
	Source:   "common practice, no source",
	Severity: diag.Note,
	Of:       Sheet,
	Before: "sections:\n  - part: centre\n" +
		"  - {part: ear to ear, of: left, gives: [left front, left back]}\n" +
		"  - {part: ear to ear, over: crown, of: right, gives: [right front, right back]}",
	After: "sections:\n  - part: centre\n  - part: ear to ear",
	Since: "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		for _, s := range p.Derived.Sheets(l) {
			if slices.ContainsFunc(s.Steps, unevenByIntent) {
				continue
			}
			pairs(s, func(left, right *derive.SheetSection) {
				if math.Abs(left.Area-right.Area) > leastUneven*max(left.Area, right.Area) {
					p.Reportf(s.Named(left.Section), "part both sides alike, or give them other names",
						"%q has %.1f cm² and %q %.1f", left.Name, left.Area, right.Name, right.Area)
				}
			})
		}
	},
}

// leastUneven is the share of a section by which its mirror image may differ without
// a word; the model of the head is the same left and right.
const leastUneven = 0.001

// unevenByIntent reports whether a parting is made beside the middle.
func unevenByIntent(step sheet.Step) bool {
	return step.Kind.Value == "side" || step.Kind.Value == "line"
}

// mirrored returns a name with right in the place of left; ok is false where the name
// has no left.
func mirrored(name string) (other string, ok bool) {
	words := strings.Fields(name)
	for i, w := range words {
		if w == "left" {
			words[i], ok = "right", true
		}
	}
	return strings.Join(words, " "), ok
}

// pairs calls look with the sections of a sheet whose names differ in left and right
// alone.
func pairs(s *derive.Sheet, look func(left, right *derive.SheetSection)) {
	for i := range s.Sections {
		left := &s.Sections[i]
		if name, ok := mirrored(left.Name); ok {
			if right, ok := s.Section(name); ok {
				look(left, right)
			}
		}
	}
}
