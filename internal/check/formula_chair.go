package check

import "plait/internal/lesson"

var formulaChair = Rule{
	ID:    "formula/chair",
	Title: "the time in the chair agrees with the bowls",
	Why: "The client and the diary go by the total. It follows from when each bowl goes on and how long it stays: from the " +
		"first touch to the last rinse.",
	Source: "arithmetic",
	Of:     Lesson,
	Before: twoBowls("chair: 30 min\n", "22 min after root"),
	After:  twoBowls("chair: 38 min\n", "22 min after root"),
	Since:  "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		if !l.Chair.Set() {
			return
		}
		t := p.Derived.Timeline(l)
		if t == nil {
			p.Notef(l.Chair.Span, "say in the formulas how long the application takes and when it begins, as in apply: 18 min and start: 0 min",
				"the time in the chair is not checked: no bowl says when it goes on")
			return
		}
		claimed := l.Chair.Value
		if claimed.Min == 0 {
			claimed.Min = claimed.Max // "up to": only its end can be held against the bowls
		}
		if t.Chair.Contains(claimed) || len(t.LeftOut) > 0 && claimed.Min >= t.Chair.Min {
			return
		}
		last := t.Rows[0]
		for _, r := range t.Rows {
			if r.Rinse.Max > last.Rinse.Max {
				last = r
			}
		}
		d := p.Reportf(l.Chair.Span, "write "+t.Chair.String()+", or mend when the bowls go on",
			"from the first touch to the last rinse it is %s, not %s", t.Chair, l.Chair.Value)
		*d = d.WithNote(last.Formula.Name.Span, "%s comes off last", last.Formula.Name.Value)
	},
}
