package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/heard"
	"plait/internal/lesson"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/source"
)

var spokenWeight = Rule{
	ID:    "spoken/weight",
	Title: "the film and the card weigh the same",
	Why: "What was weighed before the camera is what the viewer saw work. A bowl may be scaled for the card; then say so, since who " +
		"follows both ends up with neither.",
	Source:   spokenSource,
	Severity: diag.Warning,
	Of:       Files,
	Before:   spokenExample("colour: 20 g 8N\ndeveloper: 6 vol", "I take thirty grams of 8N, six volume."),
	After:    spokenExample("colour: 30 g 8N\ndeveloper: 6 vol", "I take thirty grams of 8N, six volume."),
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		p.hold(l, p.saidOf(l, heard.Weight), func(b *derive.Formula, f heard.Fact) verdict {
			truth, at, ok := weightSaid(b, f)
			return verdict{speaks: ok, agrees: mix.CompareMass(measure.Grams(f.Number), truth, b.Bowl.Step) != mix.Wrong, at: at, value: truth.String()}
		})
	},
}

// weightSaid returns what a bowl holds of what a weight was said of, and where the bowl
// says so.
func weightSaid(b *derive.Formula, f heard.Fact) (truth measure.Mass, at source.Span, ok bool) {
	switch {
	case f.Tubes || f.Of == "":
		return truth, at, false
	case f.Of == heard.Developer:
		return b.Bowl.Developer, b.Block.Developer.Span, !b.Bowl.Developer.IsZero()
	case f.Of == heard.Colour, f.Of == heard.Powder:
		return b.Bowl.Colour, shades(b), true
	case f.Of == heard.Mixed:
		return b.Bowl.Mixed, shades(b), true
	}
	for i, it := range b.Colour {
		if it.Code.Value == f.Of && i < len(b.Bowl.Parts) {
			return b.Bowl.Parts[i].Exact, it.Span, true
		}
	}
	return truth, at, false
}
