package check

import (
	"fmt"
	"math"

	"plait/internal/lesson"
	"plait/internal/sheet"
)

var headArea = Rule{
	ID:    "head/area",
	Title: "a typed area or share of a section is what the sheet comes to",
	Why: "The area of a section follows from its partings on the reference head, and the share of the scalp from all of them. " +
		"Published areas of the scalp differ by more than half; shares hardly depend on the size of the head.",
	Source: "geometry of the partings on the model of the head; areas by integration, right to 0.02 %",
	Of:     Sheet,
	Before: "area: {nape: 120 cm2}\nshare: {nape: 20 %}",
	After:  "area: {nape: 88 cm2}\nshare: {nape: 14.6 %}",
	Since:  "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		for _, s := range p.Derived.Sheets(l) {
			for _, claim := range s.Areas {
				if section, ok := s.Section(claim.Of.Value); ok {
					p.claimNumber(claim.Says, section.Area, "the area of "+section.Name, "cm²")
				}
			}
			for _, claim := range s.Shares {
				if section, ok := s.Section(claim.Of.Value); ok {
					p.claimNumber(claim.Says, 100*section.Share, "the share of "+section.Name, "%")
				}
			}
		}
	},
}

// A typed number is right where it is the true one, rounded as it was typed; what the
// net over the head leaves open counts as rounding. Within 2 % of the truth it is
// worth a note alone.
const (
	netError  = 0.0005
	nearClaim = 0.02
)

// claimNumber holds a typed number against the computed one.
func (p *Pass) claimNumber(typed sheet.Number, truth float64, what, unit string) {
	off := math.Abs(typed.Value - truth)
	rounding := math.Pow(10, -float64(typed.Places)) / 2
	if off <= rounding+netError*truth {
		return
	}
	shown := fmt.Sprintf("%.*f %s", typed.Places, truth, unit)
	said := fmt.Sprintf("%.*f %s", typed.Places, typed.Value, unit)
	help := "write " + shown + ", or change what it follows from"
	if off <= nearClaim*truth {
		d := p.Notef(typed.Span, help, "%s comes to %s, not %s", what, shown, said)
		*d = d.WithEdit(typed.Span, shown)
		return
	}
	d := p.Reportf(typed.Span, help, "%s comes to %s, not %s", what, shown, said)
	*d = d.WithEdit(typed.Span, shown)
}
