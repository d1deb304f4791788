package check

import (
	"plait/internal/derive"
	"plait/internal/hair"
	"plait/internal/shade"
)

var houseNatural = Rule{
	ID:    "house/natural",
	Title: "there is as much of the natural series as the house asks for",
	Why: "A salon may ask for more of the natural series on white hair than is usual: as many quarters of the colour as the share of white " +
		"reaches. 40 % of white then takes half of it, where a third is usual.",
	Source: "the house rules of the course",
	Of:     Files,
	Before: naturalLesson("15 g 6N + 30 g 6G"),
	After:  naturalLesson("30 g 6N + 15 g 6G"),
	Since:  "1.0",
	ByKind: true,
	Formula: func(p *Pass, f *derive.Formula) {
		rule := p.Course.House.Natural
		if rule.Value == "" || f.Kind.Value != shade.Permanent || !f.Hair.Set() || f.Range == nil || f.Hair.Value.White.IsZero() {
			return
		}
		least, natural := hair.NaturalShareByQuarters(f.Hair.Value.White), naturalShare(f)
		if !natural.Less(least) {
			return
		}
		d := p.Reportf(shades(f), "take more of a natural shade of the same level, or change the house rule",
			"%s of this colour is of the natural series, and for %s white the house asks for %s", percent(natural), percent(f.Hair.Value.White), percent(least))
		*d = d.WithNote(rule.Span, "the house rule")
	},
}

// naturalLesson is a course whose house asks for natural shades by quarters, with a bowl
// for hair that is 40 % white.
func naturalLesson(colour string) string {
	return "-- content/course.yaml --\ntitle: First colours\nlanguage: en-GB\nhouse: {natural: by quarters}\n" +
		"modules: [{name: colour, title: Colour, lessons: [white]}]\n" +
		"-- lessons/01-white/lesson.md --\n---\ntitle: White hair\nsummary: One bowl.\n---\n\n## Mix\n\n" +
		"```formula cover\nkind: permanent\ncolour: " + colour + "\ndeveloper: 20 vol\nhair: \"6 natural, 40 % white\"\ntarget: 6\n```"
}
