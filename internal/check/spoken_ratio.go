package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/heard"
	"plait/internal/lesson"
)

var spokenRatio = Rule{
	ID:    "spoken/ratio",
	Title: "the film and the card name the same ratio",
	Why: "The ratio often comes up minutes after the bowl was mixed, and a card typed from memory gets it wrong. Who watches and who reads " +
		"would mix two different bowls.",
	Source:   spokenSource,
	Severity: diag.Warning,
	Of:       Files,
	Before:   spokenExample("colour: 30 g 8N\ndeveloper: 6 vol\nratio: 1:2", "It is mixed at one to one."),
	After:    spokenExample("colour: 30 g 8N\ndeveloper: 6 vol\nratio: 1:2", "It is mixed at one to two."),
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		p.hold(l, p.saidOf(l, heard.Ratio), func(b *derive.Formula, f heard.Fact) verdict {
			return verdict{
				speaks: !b.Bowl.Ratio.IsZero(),
				agrees: b.Bowl.Ratio.Equal(f.Ratio),
				at:     mixedAt(b),
				value:  b.Bowl.Ratio.String(),
			}
		})
	},
}
