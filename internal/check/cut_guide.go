package check

import (
	"plait/internal/lesson"
)

var cutGuide = Rule{
	ID:    "cut/guide",
	Title: "strands reach the guide they are cut to",
	Why: "A guide says what to cut to. A strand that points past a wall, or hangs above a line it should end at, is not cut by " +
		"it. A guide that says nothing cuts nothing.",
	Source: "geometry of the strands on the model of the head",
	Of:     Sheet,
	Before: "cut: [{of: nape, elevation: natural, guide: {level: 5}}]",
	After:  "cut: [{of: nape, elevation: natural, guide: {level: -10}}]",
	Since:  "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		for _, s := range p.Derived.Sheets(l) {
			if s.Cut == nil {
				continue
			}
			for i, section := range s.Sections {
				if section.Cut == nil {
					continue
				}
				at := section.Cut.Guide.Span
				switch missed := s.Cut.Lengths[i].Missed; {
				case missed > 0.999:
					p.Reportf(at, "move the guide, or lift the hair another way", "no hair of %q reaches this guide", section.Name)
				case missed >= leastMissed:
					p.Warnf(at, "move the guide, or say which sections are cut to it",
						"%.0f %% of the hair of %q does not reach this guide", 100*missed, section.Name)
				}
			}
		}
	},
}

// leastMissed is the share of a section that is worth a word; less is the edge of a
// parting.
const leastMissed = 0.02
