package check

import (
	"slices"

	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/heard"
	"plait/internal/lesson"
)

var spokenSection = Rule{
	ID:       "spoken/section",
	Title:    "the film and the card put it on the same part of the hair",
	Why:      "Roots and ends are different hair. A bowl meant for one of them and painted on the other is a new problem.",
	Source:   spokenSource,
	Severity: diag.Warning,
	Of:       Files,
	Before:   spokenExample("on: [\"roots\"]\ncolour: 30 g 8N\ndeveloper: 6 vol", "Six volume, through the mid-lengths to the ends."),
	After:    spokenExample("on: [\"lengths\"]\ncolour: 30 g 8N\ndeveloper: 6 vol", "Six volume, through the mid-lengths to the ends."),
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		facts := p.saidOf(l, heard.Section)
		bowls := p.bowls(l)
		if !namesBowl(p.said(l)) {
			return // where hair is cut its ends mean something else
		}
		for i, b := range bowls {
			var on []string
			for _, t := range b.On {
				on = append(on, heard.Places(t.Value)...)
			}
			said := whileOn(l, facts, bowls, i)
			card, film := stretches(on), stretches(places(said))
			if len(card) != 1 || len(film) != 1 || card[0] == film[0] || len(on) == 0 {
				continue
			}
			first := slices.IndexFunc(said, func(f heard.Fact) bool { return len(stretches([]string{f.Place})) > 0 })
			p.contradict(said[first], b.On[0].Span, "%s goes on the %s", b.Name.Value, on[0])
		}
	},
}

// namesBowl reports whether a talk speaks of a bowl at all.
func namesBowl(facts []heard.Fact) bool {
	return slices.ContainsFunc(facts, func(f heard.Fact) bool {
		return f.Kind == heard.Shade || f.Kind == heard.Strength || f.Kind == heard.Ratio
	})
}

// whileOn returns the places named from the step of a bowl up to the step of the next.
func whileOn(l *lesson.Lesson, facts []heard.Fact, bowls []*derive.Formula, i int) []heard.Fact {
	if bowls[i].Step == nil {
		return nil
	}
	last := len(l.Steps)
	for _, b := range bowls[i+1:] {
		if b.Step != nil && b.Step.Number > bowls[i].Step.Number {
			last = min(last, b.Step.Number-1)
		}
	}
	var out []heard.Fact
	for _, f := range facts {
		if s := stepOf(l, f); s != nil && s.Number >= bowls[i].Step.Number && s.Number <= last {
			out = append(out, f)
		}
	}
	return out
}

func places(facts []heard.Fact) []string {
	out := make([]string, len(facts))
	for i, f := range facts {
		out[i] = f.Place
	}
	return out
}

// stretches returns which of the two stretches of a hair some places are on, the grown
// root or what was there before; places around the head are on neither.
func stretches(places []string) []string {
	var out []string
	add := func(s string) {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	for _, p := range places {
		switch p {
		case "roots", "regrowth":
			add("root")
		case "lengths", "mid-lengths", "ends":
			add("lengths")
		}
	}
	return out
}
