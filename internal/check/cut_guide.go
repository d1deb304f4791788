package check

import (
	"fmt"
	"strings"

	"plait/internal/derive"
	"plait/internal/lesson"
	"plait/internal/sheet"
	"plait/internal/strand"
)

var cutGuide = Rule{
	ID:    "cut/guide",
	Title: "strands reach the guide they are cut to",
	Why: "A guide says what to cut to. A strand that points past a wall, or hangs above a line it should end at, is not cut by " +
		"it, and neither is hair that was shorter before. A guide that says nothing cuts nothing.",
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
			for i := range s.Sheet.Cuts {
				p.guideReached(s, &s.Sheet.Cuts[i])
			}
		}
	},
}

// leastMissed is the share of a section that is worth a word; less is the edge of a
// parting.
const leastMissed = 0.02

// guideReached reports the sections of a cut whose hair does not reach its guide: once
// those where none does, and once those where some does not.
func (p *Pass) guideReached(s *derive.Sheet, cut *sheet.Cut) {
	var none, some []string
	var whyNone, whySome error
	area, missed := 0.0, 0.0
	for i, section := range s.Sections {
		of := s.Cut.Lengths[i]
		switch {
		case section.Cut != cut || of.Missed < leastMissed:
		case of.Missed > 0.999:
			none, whyNone = append(none, section.Name), of.Why
		default:
			some, whySome = append(some, section.Name), of.Why
			area += section.Area
			missed += float64(of.Missed * section.Area)
		}
	}
	at := cut.Guide.Span
	if len(none) > 0 {
		help := "move the guide, or lift the hair another way"
		if cut.Guide.Kind == sheet.GuideTravelling {
			help = "a guide that travels goes up the head: begin it `at` the lowest hair of the section; layers whose hair is all brought up to one place have it as guide: {point: crown, back: 13, up: 1}"
		}
		w := wordsOf(whyNone, s.Uncut(), help)
		p.Reportf(at, w.help, "no hair of %s %s", several(none), w.reaches)
	}
	if len(some) > 0 {
		w := wordsOf(whySome, s.Uncut(), "move the guide, or say which sections are cut to it")
		p.Warnf(at, w.help, "%.0f %% of the hair of %s %s", 100*missed/area, several(some), w.misses)
	}
}

// reach words whether hair reaches its guide, and what to do where it does not.
type reach struct{ reaches, misses, help string }

// wordsOf words why hair that was so long before is not cut by its guide.
func wordsOf(why error, before float64, help string) reach {
	switch why {
	case strand.ErrShort:
		return reach{"is long enough for this guide", "is not long enough for this guide",
			fmt.Sprintf("the sheet says %g cm before the cut: cut shorter, or set before: to how long the hair is", before)}
	case strand.ErrNoGuide:
		return reach{"reaches this guide, which lies inside the head", "does not reach this guide, which lies inside the head",
			"move the guide out of the head, as in guide: {point: crown, back: 13, up: 1}"}
	}
	return reach{"reaches this guide", "does not reach this guide", help}
}

// mostNamed is how many sections a finding names before it counts the rest.
const mostNamed = 3

// several lists the names of sections, of many the first and how many more there are.
func several(names []string) string {
	var list []string
	for i, name := range names {
		if i == mostNamed && len(names) > mostNamed+1 {
			list = append(list, fmt.Sprintf("%d more", len(names)-i))
			break
		}
		list = append(list, fmt.Sprintf("%q", name))
	}
	last := len(list) - 1
	if last == 0 {
		return list[0]
	}
	return strings.Join(list[:last], ", ") + " and " + list[last]
}
