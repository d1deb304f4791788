package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/lesson"
	"plait/internal/measure"
	"plait/internal/timing"
)

var formulaClash = Rule{
	ID:    "formula/clash",
	Title: "no two bowls need the same hands at once",
	Why: "Two bowls can be on the hair together, but one pair of hands applies one of them at a time, and cannot rinse while it " +
		"does. With a second pair of hands the lesson can say so and accept this.",
	Source:   "arithmetic; that one person works alone is an assumption, no source",
	Severity: diag.Warning,
	Of:       Lesson,
	Before:   twoBowls("", "10 min after root"),
	After:    twoBowls("", "after root"),
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		t := p.Derived.Timeline(l)
		if t == nil {
			return
		}
		for _, c := range t.Clashes {
			here, other := t.Rows[c.Bowl].Formula, t.Rows[c.Other].Formula
			what, help := "is to be applied too", "start one of them later"
			if c.OtherSection == timing.Rinsing {
				what, help = "has to come off", "start earlier or later, so that the hands are free for the rinse"
			}
			d := p.Reportf(here.Apply.Span, help, "while %s is applied, %s %s (%s to %s after the service begins)",
				sectionName(here, c.Section), sectionName(other, c.OtherSection), what, measure.Minutes(c.Over.Min), measure.Minutes(c.Over.Max))
			*d = d.WithNote(other.Time.Span, "%s", other.Name.Value)
		}
	},
}

// sectionName names a section of a bowl, "nape of root"; where the bowl is not split
// into sections, or is rinsed, the bowl alone.
func sectionName(f *derive.Formula, section int) string {
	if section == timing.Rinsing || len(f.Apply.Sections) == 0 {
		return f.Name.Value
	}
	return f.Apply.Sections[section].Name.Value + " of " + f.Name.Value
}
