package check

import (
	"slices"

	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/heard"
	"plait/internal/lesson"
)

var spokenShade = Rule{
	ID:       "spoken/shade",
	Title:    "the shades that are dosed in the film are on a card",
	Why:      "A shade that goes into the bowl before the camera and stands on no card is missing from it, or the card has another in its place.",
	Source:   spokenSource,
	Severity: diag.Warning,
	Of:       Files,
	Before:   spokenExample("colour: 30 g 8N\ndeveloper: 6 vol", "I take thirty grams of 8V."),
	After:    spokenExample("colour: 30 g 8V\ndeveloper: 6 vol", "I take thirty grams of 8V."),
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		bowls := p.bowls(l)
		named := p.saidOf(l, heard.Shade)
		reported := map[string]bool{}
		for _, f := range p.said(l) {
			code := f.Of
			if f.Kind != heard.Parts && f.Kind != heard.Weight || !isShade(named, code) || reported[code] || onCard(bowls, code) {
				continue
			}
			own, _ := apart(bowls, stepOf(l, f))
			if len(own) == 0 {
				own = bowls
			}
			if len(own) == 0 {
				return
			}
			reported[code] = true
			p.contradict(f, shades(own[0]), "no bowl of this lesson has %s; %s has %s", code, own[0].Name.Value, own[0].ShortColour())
		}
	},
}

func isShade(named []heard.Fact, code string) bool {
	return slices.ContainsFunc(named, func(f heard.Fact) bool { return f.Code == code })
}

// onCard reports whether a bowl has a shade.
func onCard(bowls []*derive.Formula, code string) bool {
	return slices.ContainsFunc(bowls, func(b *derive.Formula) bool {
		_, ok := itemOf(b, code)
		return ok
	})
}
