package check

import (
	"fmt"

	"plait/internal/diag"
	"plait/internal/lesson"
	"plait/internal/scalp"
	"plait/internal/source"
)

var headSliver = Rule{
	ID:    "head/sliver",
	Title: "sections are large enough to work with",
	Why: "A section under 1 cm², or narrower than 5 mm on the whole, cannot be clipped away cleanly. It is usually a parting that " +
		"just misses a landmark.",
	Source:   "common practice, no source",
	Severity: diag.Warning,
	Of:       Sheet,
	Before:   "sections:\n  - {part: horizontal, at: 0.3 cm below apex}",
	After:    "sections:\n  - {part: horizontal, at: crown}",
	Since:    "1.0",
	Lesson:   func(p *Pass, l *lesson.Lesson) { p.warnings(l, scalp.Sliver) },
}

// warnings reports what plans of a kind warn of. Of the parts that one step makes and
// does not name it reports the first, and how many more there are.
func (p *Pass) warnings(l *lesson.Lesson, code scalp.Code) {
	for _, s := range p.Derived.Sheets(l) {
		var first []*scalp.Problem
		count := map[source.Span]int{}
		for _, w := range s.Warnings {
			if w.Code != code {
				continue
			}
			at, _, _ := s.Warn(w)
			if count[at]++; count[at] == 1 {
				first = append(first, w)
			}
		}
		for _, w := range first {
			at, message, help := s.Warn(w)
			if more := count[at] - 1; more > 0 {
				message += fmt.Sprintf("; so it is with %d more of this step", more)
			}
			p.Reportf(at, help, "%s", message)
		}
	}
}
