package check

import (
	"plait/internal/diag"
	"plait/internal/lesson"
	"plait/internal/scalp"
)

var headSplit = Rule{
	ID:    "head/split",
	Title: "a section hangs together",
	Why: "A parting can leave a section in two pieces that nobody meant, a strip beside the ear for example. Where they are " +
		"meant, as both sides before the centre parting, the step says pieces: 2.",
	Source:   "common practice, no source",
	Severity: diag.Warning,
	Of:       Sheet,
	Before:   "sections:\n  - part: horseshoe\n  - {part: ear to ear, of: below, gives: [sides, back]}",
	After:    "sections:\n  - part: horseshoe\n  - {part: ear to ear, of: below, gives: [sides, back], pieces: 2}",
	Since:    "1.0",
	Lesson:   func(p *Pass, l *lesson.Lesson) { p.warnings(l, scalp.Split) },
}
