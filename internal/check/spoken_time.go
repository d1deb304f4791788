package check

import (
	"slices"

	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/heard"
	"plait/internal/lesson"
	"plait/internal/measure"
)

var spokenTime = Rule{
	ID:       "spoken/time",
	Title:    "the film and the card leave it on equally long",
	Why:      "Time is what cannot be taken back. A viewer who hears 40 minutes and reads 20 has to guess which of them was meant.",
	Source:   spokenSource,
	Severity: diag.Warning,
	Of:       Files,
	Before:   spokenExample("colour: 30 g 8N\ndeveloper: 6 vol\ntime: 10 min from last section", "Leave it twenty minutes from the last section."),
	After:    spokenExample("colour: 30 g 8N\ndeveloper: 6 vol\ntime: 20 min from last section", "Leave it twenty minutes from the last section."),
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		// Many times fall in a service: of a rinse, of a mask. Only one that was said to
		// count from the first touch or the last section, or how long a bowl stays on, is
		// surely the bowl's.
		facts := slices.DeleteFunc(p.saidOf(l, heard.Time), func(f heard.Fact) bool { return !f.Touch && !f.Ended && !f.OfBowl })
		p.hold(l, facts, func(b *derive.Formula, f heard.Fact) verdict {
			span := b.Time.Value
			return verdict{
				speaks: b.Time.Set(),
				agrees: sameTime(span, f.Time),
				at:     b.Time.Span,
				value:  span.String(),
			}
		})
	},
}

// sameTime reports whether a card's time and one that was said can both be kept. Of two
// upper limits neither may be the higher.
func sameTime(card, said measure.Span) bool {
	if card.Min == 0 && said.Min == 0 {
		return card.Max == said.Max
	}
	return card.Contains(said) || said.Contains(card)
}
