package check

import (
	"slices"

	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/formula"
	"plait/internal/heard"
	"plait/internal/lesson"
)

var spokenParts = Rule{
	ID:       "spoken/parts",
	Title:    "the film and the card take the same parts",
	Why:      "Two parts and one are another colour than one and two.",
	Source:   spokenSource,
	Severity: diag.Warning,
	Of:       Files,
	Before:   spokenExample("colour: 1 part 8N + 2 parts 8V\namount: 30 g colour\ndeveloper: 6 vol", "Two parts of 8N and one part of 8V."),
	After:    spokenExample("colour: 2 parts 8N + 1 part 8V\namount: 30 g colour\ndeveloper: 6 vol", "Two parts of 8N and one part of 8V."),
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		facts := p.saidOf(l, heard.Parts)
		p.hold(l, facts, func(b *derive.Formula, f heard.Fact) verdict {
			item, ok := itemOf(b, f.Of)
			if !ok || len(b.Colour) < 2 {
				return verdict{}
			}
			return verdict{speaks: true, agrees: sameParts(b, facts, f, item), at: item.Span, value: item.Span.Text()}
		})
	},
}

// itemOf returns the item of a bowl with a shade's code.
func itemOf(b *derive.Formula, code string) (formula.Item, bool) {
	for _, it := range b.Colour {
		if it.Code.Value == code {
			return it, true
		}
	}
	return formula.Item{}, false
}

// sameParts reports whether the parts said of a bowl's shades stand in the proportion of
// its doses. Of a shade whose partners were not told only parts can be compared.
func sameParts(b *derive.Formula, facts []heard.Fact, f heard.Fact, item formula.Item) bool {
	if item.Unit == formula.Parts && item.Value.Equal(f.Number) {
		return true
	}
	for _, it := range b.Colour {
		said := slices.IndexFunc(facts, func(o heard.Fact) bool { return o.Of == it.Code.Value })
		if said < 0 {
			return item.Unit != formula.Parts
		}
		// said : dose of this shade as of the other, multiplied out
		if !facts[said].Number.Mul(item.Value).Equal(f.Number.Mul(it.Value)) {
			return false
		}
	}
	return true
}
