package check

import (
	"cmp"
	"fmt"
	"path"
	"slices"
	"strings"

	"plait/internal/caption"
	"plait/internal/derive"
	"plait/internal/heard"
	"plait/internal/lesson"
	"plait/internal/measure"
	"plait/internal/shade"
	"plait/internal/source"
)

// spokenHelp is the way out of every contradiction between a film and its card.
const spokenHelp = "mend the one that is wrong; where it was a slip of the tongue, accept this with the reason"

// spokenSource stands behind the rules that hold captions against the text.
const spokenSource = "common practice, no source: what is heard in the captions by the phrases of the trade"

// said returns what was said as fact in the film of a lesson and not taken back.
func (p *Pass) said(l *lesson.Lesson) []heard.Fact {
	if l.Captions == nil || !caption.IsEnglish(p.spokenLanguage(l)) {
		return nil
	}
	if facts, ok := p.talks[l]; ok {
		return facts
	}
	ranges := make([]*shade.Range, len(p.Course.Ranges))
	for i, r := range p.Course.Ranges {
		ranges[i] = r.Range
	}
	facts := heard.Read(l.Captions.Clean(), ranges)
	facts = slices.DeleteFunc(facts, func(f heard.Fact) bool { return f.Withdrawn })
	if p.talks == nil {
		p.talks = map[*lesson.Lesson][]heard.Fact{}
	}
	p.talks[l] = facts
	return facts
}

// spokenLanguage is the language of a lesson's captions: that of the file's name, else
// that of the course.
func (p *Pass) spokenLanguage(l *lesson.Lesson) string {
	return cmp.Or(caption.Language(l.Recording.Captions.Value), p.Course.Language.Value)
}

// saidOf returns what was said of one kind.
func (p *Pass) saidOf(l *lesson.Lesson, kind heard.Kind) []heard.Fact {
	var out []heard.Fact
	for _, f := range p.said(l) {
		if f.Kind == kind {
			out = append(out, f)
		}
	}
	return out
}

// stepOf returns the step that a fact falls in, nil for none.
func stepOf(l *lesson.Lesson, f heard.Fact) *lesson.Step {
	var in *lesson.Step
	for _, s := range l.Steps {
		if s.Time.Set() && s.Time.From <= f.At {
			in = s
		}
	}
	if in != nil && in.Time.Until > 0 && in.Time.Until <= f.At {
		return nil
	}
	return in
}

// bowls returns the bowls of a lesson. As long as one of them cannot be computed there are
// none: what was said may be of that one.
func (p *Pass) bowls(l *lesson.Lesson) []*derive.Formula {
	var out []*derive.Formula
	for _, of := range l.Formulas {
		f := p.Derived.Of(of)
		if !f.OK {
			return nil
		}
		out = append(out, f)
	}
	return out
}

// verdict is what comparing a fact with a bowl comes to.
type verdict struct {
	speaks bool        // the fact and the bowl speak of the same thing
	agrees bool        // and say the same of it
	at     source.Span // the bowl's value
	value  string      // that value in words
}

// hold compares what was said of one kind with the bowls of a lesson. A fact is held
// against the bowls of the step it falls in, and where there are none against all of the
// lesson, since a ratio is often told while the brush is at work. It stands where one of them
// agrees; one that fits another bowl of the lesson alone is a contradiction only where
// nothing in the step says what its own bowl says. A bowl is blamed once.
func (p *Pass) hold(l *lesson.Lesson, facts []heard.Fact, compare func(*derive.Formula, heard.Fact) verdict) {
	blamed := map[*derive.Formula]bool{}
	bowls := p.bowls(l)
	if lists(l, facts, len(bowls)) {
		return
	}
	for _, f := range facts {
		own, others := apart(bowls, stepOf(l, f))
		if len(own) == 0 {
			own, others = others, nil
		}
		if agreed(own, f, compare) || agreed(others, f, compare) && p.confirmed(l, facts, f, own, compare) {
			continue
		}
		b, v := nearest(own, f, l, compare)
		if b == nil || blamed[b] {
			continue
		}
		blamed[b] = true
		p.contradict(f, v.at, "%s has %s", b.Name.Value, v.value)
	}
}

// contradict reports that a value of the text and the film say different things.
func (p *Pass) contradict(f heard.Fact, at source.Span, format string, args ...any) {
	place := fmt.Sprintf("%s:%d", path.Base(f.Span.File().Name()), f.Span.Start().Line)
	d := p.Reportf(at, spokenHelp, "%s, and at %s the film says “%s” (%s)", fmt.Sprintf(format, args...), measure.Clock(f.At), f.Said, place)
	*d = d.WithNote(f.Span, "said here, at %s", measure.Clock(f.At))
}

// lists reports whether so many different values of a kind are told in one step that
// they are taught and not used. Those of different shades are not different values of one
// thing.
func lists(l *lesson.Lesson, facts []heard.Fact, bowls int) bool {
	type quantity struct {
		step *lesson.Step
		of   string
	}
	values := map[quantity][]string{}
	for _, f := range facts {
		q := quantity{stepOf(l, f), f.Of}
		if v := f.Value(); !slices.Contains(values[q], v) {
			values[q] = append(values[q], v)
		}
	}
	for _, v := range values {
		if len(v) > bowls+2 {
			return true
		}
	}
	return false
}

// apart parts the bowls of a step from the others.
func apart(bowls []*derive.Formula, step *lesson.Step) (own, others []*derive.Formula) {
	for _, b := range bowls {
		if step != nil && b.Step == step {
			own = append(own, b)
		} else {
			others = append(others, b)
		}
	}
	return own, others
}

// agreed reports whether a fact says what one of some bowls says.
func agreed(bowls []*derive.Formula, f heard.Fact, compare func(*derive.Formula, heard.Fact) verdict) bool {
	return slices.ContainsFunc(bowls, func(b *derive.Formula) bool {
		v := compare(b, f)
		return v.speaks && v.agrees
	})
}

// confirmed reports whether something else in the fact's step says what a bowl of the
// step says.
func (p *Pass) confirmed(l *lesson.Lesson, facts []heard.Fact, f heard.Fact, own []*derive.Formula, compare func(*derive.Formula, heard.Fact) verdict) bool {
	return slices.ContainsFunc(facts, func(o heard.Fact) bool {
		return stepOf(l, o) == stepOf(l, f) && agreed(own, o, compare)
	})
}

// nearest returns the bowl that a fact contradicts: the last one before it that speaks of
// the same thing, else the first behind it.
func nearest(bowls []*derive.Formula, f heard.Fact, l *lesson.Lesson, compare func(*derive.Formula, heard.Fact) verdict) (*derive.Formula, verdict) {
	var found *derive.Formula
	var of verdict
	step := stepOf(l, f)
	for _, b := range bowls {
		v := compare(b, f)
		if !v.speaks || found != nil && step != nil && b.Step != nil && b.Step.Number > step.Number {
			continue
		}
		found, of = b, v
	}
	return found, of
}

// spokenExample is a course with a filmed lesson of one bowl, its lines and what is said
// while it is mixed.
func spokenExample(lines, said string) string {
	if !strings.Contains(lines, "kind:") {
		lines = "kind: demi\n" + lines
	}
	return "-- content/course.yaml --\ntitle: First colours\nlanguage: en-GB\nmodules: [{name: colour, title: Colour, lessons: [gloss]}]\n" +
		"-- lessons/01-gloss/lesson.md --\n---\ntitle: A gloss\nsummary: One bowl.\nhair: {roots: 7 natural, lengths: 8 lightened}\n" +
		"recording: {captions: gloss.en.vtt, length: \"2:00\"}\n---\n\n## 0:00 Mix\n\nWeigh the gloss for the lengths, which are 80 % dry.\n\n" +
		"```formula gloss\n" + lines + "\n```\n" +
		"-- lessons/01-gloss/gloss.en.vtt --\nWEBVTT\n\n00:00.000 --> 00:05.000\nHer hair was lightened; we use a demi.\n\n" +
		"00:42.000 --> 00:47.000\n" + said + "\n"
}
