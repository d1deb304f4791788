package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/heard"
	"plait/internal/lesson"
)

var spokenStrength = Rule{
	ID:       "spoken/strength",
	Title:    "the film and the card name the same developer",
	Why:      "A card that says 20 vol where the film says 10 is twice as strong on somebody's scalp.",
	Source:   spokenSource,
	Severity: diag.Warning,
	Of:       Files,
	Before:   spokenExample("kind: permanent\ncolour: 30 g 8N\ndeveloper: 20 vol", "And ten volume with it."),
	After:    spokenExample("kind: permanent\ncolour: 30 g 8N\ndeveloper: 10 vol", "And ten volume with it."),
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		p.hold(l, p.saidOf(l, heard.Strength), func(b *derive.Formula, f heard.Fact) verdict {
			d := b.Block.Developer
			agrees := b.Bowl.Bottle.Agrees(f.Strength)
			for _, from := range d.From { // the two it is blended from are named as well
				agrees = agrees || from.Value.Agrees(f.Strength)
			}
			return verdict{speaks: !b.Bowl.Developer.IsZero(), agrees: agrees, at: d.Span, value: strengthWords(b)}
		})
	},
}
