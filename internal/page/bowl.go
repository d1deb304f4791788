package page

import (
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"plait/internal/check"
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/formula"
	"plait/internal/lesson"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/shade"
	"plait/internal/source"
	"plait/internal/working"
)

// bowl appends the card of a formula.
func (b *builder) bowl(out []byte, f *lesson.Formula) ([]byte, error) {
	d, ok := b.computed(f)
	if !ok {
		return out, nil
	}
	v := BowlView{
		ID:       bowlID(d),
		Title:    bowlTitle(f.Name.Value),
		On:       bowlOn(d),
		Said:     bowlSaid(d),
		Reads:    bowlReads(d),
		Verdicts: b.verdicts(d),
		Working:  b.working(d),
		Timers:   timers(f.Time),
	}
	if len(v.Timers) > 0 {
		v.Advice = "The timer counts " + zeroText(f.Time.Zero) + ". Set a kitchen timer too."
	}
	v.weights(d.Bowl, d.ColourWord(), d.RangeOf)
	v.nameMakers(d)
	return b.templates.appendPart(out, "bowl", &v)
}

// nameMakers says of a shade that is not of the bowl's own range whose it is.
func (v *BowlView) nameMakers(d *derive.Formula) {
	for i, p := range d.Bowl.Parts {
		if r := d.RangeOf(p.Shade); p.Role == mix.ColourRole && r != d.Range {
			v.Parts[i].Name += ", " + r.Name
		}
	}
}

// computed returns what was computed for a formula. A course without errors has a
// bowl and a range for each of its formulas.
func (b *builder) computed(f *lesson.Formula) (d *derive.Formula, ok bool) {
	d = b.derived.Of(f)
	return d, d != nil && d.OK && d.Range != nil
}

// bowlID is the place of a formula's card on its page.
func bowlID(d *derive.Formula) string { return "bowl_" + d.Name.Value }

// bowlTitle makes a title of a formula's name: deep-root is Deep root.
func bowlTitle(name string) string {
	return capital(strings.ReplaceAll(name, "-", " "))
}

// capital gives a text a capital letter to begin with.
func capital(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + text[size:]
}

// bowlOn says what the bowl is and where it goes: Demi, Meadow · lengths.
func bowlOn(d *derive.Formula) string {
	what := d.Makers()
	if d.Kind.Set() {
		what = bowlTitle(string(d.Kind.Value)) + ", " + what
	}
	if len(d.On) == 0 {
		return what
	}
	return what + " · " + strings.Join(values(d.On), ", ")
}

// bowlSaid is the formula as a colourist says it: 2 parts 8N + 1 part 8V, 6 vol at
// 1:2. Figures stay with their units.
func bowlSaid(d *derive.Formula) string {
	said := d.ShortColour()
	for _, a := range d.Additives {
		said += " + " + a.Name.Value
	}
	bowl := d.Bowl
	switch {
	case bowl.Developer.IsZero():
		return said + ", no developer"
	default:
		said += ", " + spaced(bowl.Bottle.Name()) + " at " + bowl.Ratio.String()
	}
	return said
}

// mostReads is how many figures a bowl has at most.
const mostReads = 5

// bowlReads are the figures of a bowl in the order they are needed: strength,
// time, what the colour reads and against what, the target, the ratio.
func bowlReads(d *derive.Formula) []ReadView {
	reads := make([]ReadView, 0, mostReads)
	if !d.Bowl.Developer.IsZero() {
		reads = append(reads, ReadView{
			Term:  "Strength",
			Value: spaced(d.Bowl.Strength.String()),
			Note:  "on the hair; " + spaced(d.Bowl.Bottle.String()) + " in the bottle",
		})
	}
	if d.Time.Set() {
		reads = append(reads, timeRead(d.Time))
	}
	if d.Bowl.HasLevel {
		reads = append(reads, ReadView{Term: "Reads as", Value: derive.Reading(d.Bowl.Level), Note: cancels(d)})
	}
	if d.Target.Set() {
		t := ReadView{Term: "Target", Value: targetText(d.Target.Value)}
		if d.Hair.Set() {
			t.Note = "on " + hairText(d.Hair.Value)
		}
		reads = append(reads, t)
	}
	if !d.Bowl.Ratio.IsZero() {
		r := ReadView{Term: "Ratio", Value: d.Bowl.Ratio.String(), Note: d.ColourWord() + " to developer"}
		if !d.Bowl.Weighed.Equal(d.Bowl.Ratio) {
			r.Note = "weighed 1:" + d.Bowl.Weighed.PerColour().Decimal(4)
		}
		reads = append(reads, r)
	}
	return reads
}

// targetText is a target in one line: 8, cool; 6, white covered.
func targetText(t formula.Target) string {
	text := strings.TrimSuffix(strconv.Itoa(int(t.Level))+", "+t.Tone, ", ")
	if t.Cover {
		text += ", white covered"
	}
	return text
}

// timeRead shows a processing time with the moment it counts from. In a narrow place the unit of a
// span may go below it: nothing else in it can.
func timeRead(t formula.Time) ReadView {
	if t.Value.Min == 0 {
		return ReadView{Term: "Time", Value: spaced(measure.Minutes(t.Value.Max)), Note: "at most, " + zeroText(t.Zero)}
	}
	return ReadView{Term: "Time", Value: strings.ReplaceAll(minutes(t.Value), nbsp, " "), Note: zeroText(t.Zero)}
}

// cancels names the bases of the colour and the warmth each works against: violet
// base, against yellow.
func cancels(d *derive.Formula) string {
	var bases []shade.Hue
	for _, p := range d.Bowl.Parts {
		if p.Role != mix.ColourRole {
			continue
		}
		for _, hue := range d.RangeOf(p.Shade).Bases(p.Shade) {
			if !slices.Contains(bases, hue) {
				bases = append(bases, hue)
			}
		}
	}
	words := make([]string, len(bases))
	for i, hue := range bases {
		words[i] = hue.String() + " base, against " + hue.Opposite().String()
	}
	return strings.Join(words, "; ")
}

// mostWorkings is how many workings wait to be asked for the second time: each stands on
// the card of its bowl and in the data of the course, which is made before most cards. One
// takes a kilobyte.
const mostWorkings = 1 << 15

// working is the arithmetic of the bowl and of its time on the hair, a line a step.
func (b *builder) working(d *derive.Formula) []string {
	if known, ok := b.workings.LoadAndDelete(d); ok {
		b.waiting.Add(-1)
		return known.([]string)
	}
	lines := working.Of(d.Block, d.Computed)
	if row, ok := b.derived.Row(d); ok {
		lines = append(lines, working.Service(row)...)
	}
	out := make([]string, len(lines))
	for i, l := range lines {
		out[i] = l.String()
	}
	if b.waiting.Add(1) <= mostWorkings {
		b.workings.Store(d, out)
	} else {
		b.waiting.Add(-1)
	}
	return out
}

// verdicts say how the bowl stands to its maker's directions, what was found in it
// and what its lesson lets stand with a reason.
func (b *builder) verdicts(d *derive.Formula) []VerdictView {
	var out []VerdictView
	if v, ok := keepsDirections(d); ok {
		out = append(out, v)
	}
	for _, f := range b.findings(d) {
		v := VerdictView{Kind: "note", Lead: "Worth knowing.", Text: sentence(f.Message), Rule: rulePath(f.Rule)}
		if f.Severity == diag.Warning {
			v.Kind, v.Lead = "warning", "Look again."
		}
		out = append(out, v)
	}
	for _, a := range b.kept(d) {
		out = append(out, VerdictView{Kind: "note", Lead: "Kept on purpose.", Text: sentence(a.Because), Rule: rulePath(a.Rule)})
	}
	return out
}

// findings are what was found in a formula's block.
func (b *builder) findings(d *derive.Formula) []diag.Diagnostic {
	place := blockOf(d)
	var out []diag.Diagnostic
	for _, f := range b.found[place.File()] {
		if place.Contains(f.Span) {
			out = append(out, f)
		}
	}
	return out
}

// kept is what was found in a formula's block and its lesson lets stand.
func (b *builder) kept(d *derive.Formula) []check.Accepted {
	place := blockOf(d)
	var out []check.Accepted
	for _, a := range b.accepted[place.File()] {
		if place.Contains(a.Span) {
			out = append(out, a)
		}
	}
	return out
}

// byFile sorts what was found by the file that it lies in, so that a bowl need not go
// through all that was found in a course.
func byFile[F any](found []F, at func(F) source.Span) map[*source.File][]F {
	files := map[*source.File][]F{}
	for _, f := range found {
		file := at(f).File()
		files[file] = append(files[file], f)
	}
	return files
}

func spanOf(d diag.Diagnostic) source.Span        { return d.Span }
func spanOfAccepted(a check.Accepted) source.Span { return a.Span }

// blockOf is the text of a formula's block with its fence.
func blockOf(d *derive.Formula) source.Span { return d.Fence.Span.To(d.Fence.Body.Whole()) }

// sentence makes a sentence of a finding's message or of an author's reason.
func sentence(text string) string {
	text = capital(strings.TrimSpace(text))
	if strings.HasSuffix(text, ".") || strings.HasSuffix(text, "!") || strings.HasSuffix(text, "?") {
		return text
	}
	return text + "."
}

// keepsDirections lists what the maker states for this kind of colour and the bowl
// keeps; ok is false where the maker states nothing or the bowl strays.
func keepsDirections(d *derive.Formula) (v VerdictView, ok bool) {
	var kept []string
	terms := d.Terms
	if !terms.Ratio.IsZero() {
		if !terms.Ratio.Equal(d.Bowl.Ratio) {
			return v, false
		}
		kept = append(kept, terms.Ratio.String())
	}
	if len(terms.Strengths) > 0 {
		if !terms.Allows(d.Bowl.Bottle) {
			return v, false
		}
		kept = append(kept, spaced(d.Bowl.Bottle.Name()))
	}
	if terms.Time != (measure.Span{}) && d.Time.Set() {
		if !terms.Time.Contains(d.Time.Value) {
			return v, false
		}
		kept = append(kept, minutes(terms.Time))
	}
	if len(kept) == 0 || len(d.Apart) > 0 {
		return v, false
	}
	states := "states"
	if len(d.Also) > 0 {
		states = "together leave"
	}
	return VerdictView{
		Kind: "fine",
		Lead: "Within the directions.",
		Text: d.Makers() + " " + states + " " + strings.Join(kept, ", ") + " for " + string(d.Kind.Value) + ".",
	}, true
}

// timers offers a timer for each end of a processing time.
func timers(t formula.Time) []TimerView {
	if !t.Set() {
		return nil
	}
	var out []TimerView
	for _, d := range slices.Compact([]time.Duration{t.Value.Min, t.Value.Max}) {
		if d > 0 {
			out = append(out, TimerView{Seconds: int(d.Seconds()), Text: spaced(measure.Minutes(d)), Zero: zeroText(t.Zero)})
		}
	}
	return out
}

// zeroText says when a time begins to count.
func zeroText(z formula.Zero) string {
	if z == formula.FirstTouch {
		return "from the first touch"
	}
	return "from the last section"
}

// dash is an en dash at which no line breaks.
const dash = "\u2060–\u2060"

// minutes prints a span of minutes: 15 min, 30–45 min.
func minutes(s measure.Span) string {
	return spaced(strings.ReplaceAll(s.String(), "-", dash))
}
