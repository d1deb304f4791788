package check

import (
	"slices"

	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/heard"
	"plait/internal/lesson"
	"plait/internal/shade"
)

var spokenLevel = Rule{
	ID:       "spoken/level",
	Title:    "the film and the header read the hair alike",
	Why:      "Everything that is worked out begins with the level of the hair. Named twice and differently, one of the two is wrong.",
	Source:   spokenSource,
	Severity: diag.Warning,
	Of:       Files,
	Before:   spokenExample("colour: 30 g 8N\ndeveloper: 6 vol", "The roots are a natural level six."),
	After:    spokenExample("colour: 30 g 8N\ndeveloper: 6 vol", "The roots are a natural level seven."),
	Since:    "1.0",
	Lesson: func(p *Pass, l *lesson.Lesson) {
		facts := p.said(l)
		for i, f := range facts {
			if f.Kind != heard.Level {
				continue
			}
			zone, ok := zoneOf(l, facts[:i], f)
			if !ok || f.Number.Equal(exact.Int(int64(zone.Hair.Value.Level))) || levelNamed(l, f) {
				continue
			}
			p.contradict(f, zone.Hair.Span, "the header has the %s at level %d", zone.Name.Value, zone.Hair.Value.Level)
		}
	},
}

// zoneOf returns the zone of the header whose level was said: the one of the place named
// last before it, in the same caption or the one before.
func zoneOf(l *lesson.Lesson, before []heard.Fact, f heard.Fact) (lesson.Zone, bool) {
	for i := len(before) - 1; i >= 0 && f.Cue-before[i].Cue <= 1; i-- {
		if before[i].Kind != heard.Section {
			continue
		}
		for _, z := range l.Hair.Zones {
			if slices.Contains(heard.Places(z.Name.Value), before[i].Place) {
				return z, true
			}
		}
		return lesson.Zone{}, false
	}
	return lesson.Zone{}, false
}

// levelNamed reports whether a level stands somewhere else in what the lesson states: of
// another zone, or as the target of a bowl.
func levelNamed(l *lesson.Lesson, f heard.Fact) bool {
	is := func(level shade.Level) bool { return f.Number.Equal(exact.Int(int64(level))) }
	for _, z := range l.Hair.Zones {
		if is(z.Hair.Value.Level) {
			return true
		}
	}
	return slices.ContainsFunc(l.Formulas, func(b *lesson.Formula) bool {
		return b.Target.Set() && is(b.Target.Value.Level) || b.Hair.Set() && is(b.Hair.Value.Level)
	})
}
