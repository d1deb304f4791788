package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/hair"
	"plait/internal/shade"
)

var formulaLift = Rule{
	ID:    "formula/lift",
	Title: "the lift that the target asks for is one this colour can give",
	Why: "Deposit colour lifts nothing. Permanent colour lifts natural hair by what its developer allows, 10 vol up to one level, " +
		"20 vol one to two, 30 vol two to three, 40 vol three to four, and only as far as the lightest shade of the range carries. Beyond " +
		"that it is work for a high-lift colour or a lightener, and for somebody who has done it before.",
	Source:   "lift by developer: study notes for hairdressers, which differ by a level; common practice",
	Severity: diag.Warning,
	Before:   "kind: permanent\ncolour: 30 g 10N\ndeveloper: 20 vol\nhair: 6 natural\ntarget: 9",
	After:    "kind: permanent\ncolour: 30 g 9N\ndeveloper: 20 vol\nhair: 7 natural\ntarget: 8",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		wanted, ok := liftWanted(f)
		kind := f.Kind.Value
		if !ok || wanted == 0 || kind == shade.Lightener || liftsHair(kind) && !onNatural(f) {
			return
		}
		from, target := f.Hair.Value.Level, f.Target.Value.Level
		if !liftsHair(kind) {
			d := p.Reportf(f.Target.Span, "lower the target, or take a colour that lifts",
				"from %d to %d is a lift of %s, and %s colour only deposits (common practice)", from, target, levels(wanted), kind)
			*d = d.WithNote(f.Kind.Span, "the kind of colour")
			return
		}
		p.judgeLift(f, wanted)
	},
}

// judgeLift holds the lift wanted of natural hair against what colour that lifts can
// give. A high-lift colour has shades of its own, so the range's scale does not bind
// it.
func (p *Pass) judgeLift(f *derive.Formula, wanted int) {
	from, target := f.Hair.Value.Level, f.Target.Value.Level
	switch hair.Judge(hair.Natural, from, target, lightest(f)) {
	case hair.TooFar:
		p.Reportf(f.Target.Span, "a lightener may do it: test a strand, ask, or refer",
			"from %d to %d is a lift of %s, more than the %d asked of colour (common practice)", from, target, levels(wanted), hair.MostLift)
		return
	case hair.OffScale:
		if f.Kind.Value == shade.HighLift {
			break
		}
		p.Reportf(f.Target.Span, "a high-lift colour or a lightener may do it: test a strand, ask, or refer",
			"from %d to %d takes a shade of level %d, and the shades end at %d (common practice)", from, target, hair.ShadeFor(from, target), lightest(f))
		return
	}
	possible, ok := hair.LiftPossible(f.Kind.Value, hair.Natural, f.Bowl.Bottle)
	if !ok || wanted <= possible.Max {
		return
	}
	d := p.Reportf(f.Target.Span, developerHelp(wanted),
		"from %d to %d is a lift of %s, and %s lifts %s at most (common practice)", from, target, levels(wanted), strengthWords(f), levels(possible.Max))
	*d = d.WithNote(f.Developer.Span, "the developer")
}

// developerHelp names the developer usually taken for a lift.
func developerHelp(wanted int) string {
	usual, ok := hair.DeveloperFor(wanted, false)
	if !ok {
		return "lower the target"
	}
	return "lower the target; " + usual.VolumesString() + " is the developer usually taken for " + levels(wanted) + ", where range and house allow it"
}
