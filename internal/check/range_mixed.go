package check

import (
	"strings"

	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/shade"
)

var rangeMixed = Rule{
	ID:    "range/mixed",
	Title: "a bowl keeps to one maker's range",
	Why: "A maker has tested a colour with its own developer and its own shades, and knows nothing of another's dyes, thickness or alkali. " +
		"Two in one bowl can come out duller, patchy or too quick, and neither maker answers for it. Where a maker allows it, the range file says " +
		"so with the key with.",
	Source:   "common practice, no source; the United States Food and Drug Administration tells users of hair dyes never to mix different products",
	Severity: diag.Warning,
	Of:       Files,
	Before:   twoRanges("20 g 6N + 10 g 6.1 of shore"),
	After:    twoRanges("20 g 6N + 10 g 6B"),
	Since:    "1.0",
	Formula: func(p *Pass, f *derive.Formula) {
		for _, it := range f.Colour {
			other := foreign(f, it.Range.Value)
			if other == nil || f.Range.Allows(other) && other.Allows(f.Range) {
				continue
			}
			p.Reportf(it.Span, "keep to one range; where both makers allow it, say so in both range files, as in with: ["+other.ID+"] in "+f.Range.ID+".yaml",
				"%s of %s in one bowl with %s: common practice advises against mixing makers, and %s",
				it.Code.Value, other.Name, f.Range.Name, notAllowed(f.Range, other))
			return
		}
	},
}

// notAllowed says whose range file lacks the other's name.
func notAllowed(own, other *shade.Range) string {
	switch {
	case own.Allows(other):
		return other.Name + " does not say that it allows it"
	case other.Allows(own):
		return own.Name + " does not say that it allows it"
	}
	return "neither range says that its maker allows it"
}

// foreign returns the range of a name that stands in a bowl beside the bowl's own.
func foreign(f *derive.Formula, name string) *shade.Range {
	for _, r := range f.Also {
		if r.ID == name {
			return r
		}
	}
	return nil
}

var rangeApart = Rule{
	ID:    "range/apart",
	Title: "the makers of one bowl have directions in common",
	Why: "Where shades of two ranges go into one bowl, both makers' directions hold. If one mixes at 1:1.5 and the other at 1:1, or their " +
		"times or strengths have nothing in common, no bowl keeps to both.",
	Source: "the range files of the course",
	Of:     Files,
	Before: twoRanges("20 g 6N + 10 g 6.1 of cove"),
	After:  twoRanges("20 g 6N + 10 g 6.1 of shore"),
	Since:  "1.0",
	ByKind: true,
	Formula: func(p *Pass, f *derive.Formula) {
		for _, a := range f.Apart {
			p.Reportf(shades(f), "keep to one range", "%s give %s no %s in common: %s", f.Makers(), f.Kind.Value, a, apartText(f, a))
		}
	},
}

// apartText says what each maker gives: "Meadow 1:1.5, Saltmarsh 1:1".
func apartText(f *derive.Formula, a shade.Apart) string {
	var out []string
	for _, r := range f.Ranges() {
		terms := r.Kinds[f.Kind.Value]
		text := terms.Ratio.String()
		switch a {
		case shade.TimesApart:
			text = terms.Time.String()
		case shade.StrengthsApart:
			text = strengthList(terms.Strengths)
		}
		out = append(out, r.Name+" "+text)
	}
	return strings.Join(out, "; ")
}

// twoRanges is a course of three ranges with one bowl of the first, for the examples of
// rules about bowls of several.
func twoRanges(colour string) string {
	rng := func(name, code, shades, ratio string) string {
		return "name: " + name + "\nchecked: 2026-03-01\ncode: {style: " + code + "}\nlevels: {5: light brown, 6: lightest brown}\n" +
			shades + "\nkinds:\n  permanent: {ratio: \"" + ratio + "\", time: 30-45 min, strengths: [3 %, 6 %]}\n"
	}
	const digits = "tones: {1: {name: ash, base: blue}}\nshades: [\"6.1\"]"
	return "-- content/course.yaml --\ntitle: First colours\nlanguage: en-GB\nrange: meadow\n" +
		"modules: [{name: colour, title: Colour, lessons: [mixed]}]\n" +
		"-- content/ranges/meadow.yaml --\n" + rng("Meadow", "letters", "tones: {N: {name: natural}, B: {name: blue ash, base: blue}}\nshades: [6N, 6B]", "1:1.5") +
		"-- content/ranges/shore.yaml --\n" + rng("Shore", "digits", digits, "1:1.5") +
		"-- content/ranges/cove.yaml --\n" + rng("Cove", "digits", digits, "1:1") +
		"-- lessons/01-mixed/lesson.md --\n---\ntitle: A bowl\nsummary: Two makers.\n---\n\n## Mix\n\n" +
		"```formula mixed\nkind: permanent\ncolour: " + colour + "\ndeveloper: 20 vol\nratio: 1:1.5\n```\n"
}
