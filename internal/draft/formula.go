package draft

import (
	"fmt"
	"slices"
	"strings"

	"plait/internal/exact"
	"plait/internal/heard"
	"plait/internal/shade"
)

// open is the value of a question to the author.
const open = "?"

// writeBowl writes the formula block of a bowl.
func (d *drafter) writeBowl(w *strings.Builder, b *bowl) {
	rng := d.rangeOf(b)
	lines := []struct {
		key string
		line
	}{
		{"on", b.sections()},
		{"kind", d.kind(b, rng)},
		{"range", d.rangeLine(rng)},
		{"colour", d.colour(b, rng)},
		{"add", b.additives()},
		{"developer", b.developer(d.kindOf(b, rng), rng)},
		{"ratio", b.ratio(d.kindOf(b, rng), rng)},
		{"amount", b.amount(rng)},
		{"apply", one(b.applies)},
		{"time", b.time()},
		{"target", b.target()},
	}
	fmt.Fprintf(w, "```formula %s\n", b.name)
	for _, l := range lines {
		if l.value == "" {
			continue
		}
		fmt.Fprintf(w, "%s: %s", l.key, l.value)
		if l.note != "" {
			fmt.Fprintf(w, "   # %s", l.note)
		}
		w.WriteByte('\n')
	}
	w.WriteString("```\n\n")
}

// rangeOf returns the range that has all shades of a bowl, the course's own first;
// nil where none has.
func (d *drafter) rangeOf(b *bowl) *shade.Range {
	var found *shade.Range
	for _, r := range d.Ranges {
		if !hasAll(r, b.codes) || b.powder && len(r.Grammar.Powder) == 0 {
			continue
		}
		if found == nil || r.ID == d.Range {
			found = r
		}
	}
	return found
}

func hasAll(r *shade.Range, codes []string) bool {
	return !slices.ContainsFunc(codes, func(c string) bool {
		_, err := r.Find(c)
		return err != nil
	})
}

func (d *drafter) rangeLine(r *shade.Range) line {
	if r == nil || r.ID == d.Range {
		return line{}
	}
	return line{r.ID, "it has the shades that were said"}
}

// sections lists the places named from the bowl on, each once. Where they are named one after the
// other, as the work goes on, not all of them are this bowl's.
func (b *bowl) sections() line {
	var places []string
	var facts []heard.Fact
	for _, f := range b.on {
		if q := `"` + f.Place + `"`; !slices.Contains(places, q) {
			places = append(places, q)
			facts = append(facts, f)
		}
	}
	switch {
	case len(places) == 0:
		return line{}
	case facts[len(facts)-1].Cue-facts[0].Cue > together:
		return line{open, all(facts) + ". On which of them does this bowl go?"}
	}
	return line{"[" + strings.Join(places, ", ") + "]", all(facts) + ". Does this bowl go there?"}
}

// together is how many cues lie between places that are named in one breath.
const together = 2

// kindOf returns the kind of a bowl as far as it was said or follows; empty for
// neither.
func (d *drafter) kindOf(b *bowl, rng *shade.Range) shade.Kind {
	if k, _, ok := d.kindSaid(b); ok {
		return k
	}
	return b.onlyKind(rng)
}

func (d *drafter) kind(b *bowl, rng *shade.Range) line {
	if k, s, ok := d.kindSaid(b); ok {
		return line{string(k), quoted(s.at, s.text)}
	}
	switch kinds := b.likeKinds(rng); len(kinds) {
	case 0:
		return line{open, "not said. Which kind of colour is it?"}
	case 1:
		return line{kinds[0], "not said; the only kind of " + rng.Name + " that is mixed like this. Is it?"}
	default:
		return line{open, "not said; " + rng.Name + " mixes like this: " + strings.Join(kinds, ", ") + ". Which is it?"}
	}
}

// onlyKind returns the one kind of a range that is mixed as was said; empty where none
// or several are.
func (b *bowl) onlyKind(rng *shade.Range) shade.Kind {
	if kinds := b.likeKinds(rng); len(kinds) == 1 {
		return shade.Kind(kinds[0])
	}
	return ""
}

// likeKinds returns the kinds of a range that allow the strength and the ratio that were
// said.
func (b *bowl) likeKinds(rng *shade.Range) []string {
	strengths := append(slices.Clone(b.vols), b.percent...)
	if rng == nil || len(strengths) == 0 {
		return nil
	}
	var kinds []string
	for _, k := range shade.Kinds() {
		terms, ok := rng.Kinds[k]
		if !ok || len(terms.Strengths) == 0 || !terms.Allows(strengths[0].Strength) || k == shade.Lightener && !b.powder {
			continue
		}
		if len(b.ratios) > 0 && !terms.Ratio.IsZero() && !terms.Ratio.Equal(b.ratios[0].Ratio) {
			continue
		}
		kinds = append(kinds, string(k))
	}
	return kinds
}

// colour writes the shades with what was said of how much.
func (d *drafter) colour(b *bowl, rng *shade.Range) line {
	if b.powder && len(b.codes) == 0 {
		return b.powderColour(rng)
	}
	if len(b.codes) == 0 {
		return line{open, "no shade was heard"}
	}
	var items []string
	var facts []heard.Fact
	dosed := true
	for _, code := range b.codes {
		dose, from, ok := b.dose(code, rng)
		dosed = dosed && ok
		items = append(items, dose.before+" "+code+dose.behind)
		facts = append(facts, from...)
	}
	if unlisted := d.unlistedIn(b.step); len(unlisted) > 0 {
		return line{open, "heard " + joinNotes(strings.Join(items, " + "), all(facts), "and "+all(unlisted)+", which no range of this course lists")}
	}
	switch {
	case len(b.codes) == 1 && !dosed:
		return line{b.codes[0], from(b.shades[b.codes[0]])}
	case !dosed:
		return line{`"` + strings.Join(items, " + ") + `"`, all(facts) + ". How much of each?"}
	}
	return line{strings.Join(items, " + "), all(facts)}
}

// unlistedIn returns the shades said in a step that no range has.
func (d *drafter) unlistedIn(step int) []heard.Fact {
	return slices.DeleteFunc(slices.Clone(d.unlisted), func(f heard.Fact) bool { return d.stepOf(f.Cue) != step })
}

// powderColour writes the powder lightener under the code by which the range lists
// it.
func (b *bowl) powderColour(rng *shade.Range) line {
	if rng == nil || len(rng.Grammar.Powder) != 1 || len(b.colour) != 1 {
		return line{open, all(b.colour) + ". Under which code does the range list it?"}
	}
	f := b.colour[0]
	return line{f.Number.Decimal(2) + " g " + rng.Grammar.Powder[0], from(f) + "; " + rng.Name + " has this powder"}
}

// dose writes how much of a shade goes in: in parts where all shades have parts, with
// the grams as a claim where all have grams too, else in grams.
func (b *bowl) dose(code string, rng *shade.Range) (dose item, facts []heard.Fact, ok bool) {
	parts, weights := b.parts[code], b.weights[code]
	number, counted := agreed(parts)
	grams, from, weighed := settled(weights, rng)
	switch {
	case counted && b.allParts():
		dose.before = number.Decimal(2) + " parts"
		if number.Equal(exact.One) {
			dose.before = "1 part"
		}
		if weighed && b.allWeights() {
			dose.behind = " (" + grams.Decimal(2) + " g)"
			parts = append(slices.Clone(parts), from...)
		}
		return dose, parts, true
	case weighed && b.allWeights():
		return item{before: grams.Decimal(2) + " g"}, from, true
	}
	facts = append(append([]heard.Fact{b.shades[code]}, parts...), weights...)
	return item{before: open}, facts, false
}

// item is what stands before and behind a shade's code.
type item struct{ before, behind string }

func (b *bowl) allParts() bool {
	return !slices.ContainsFunc(b.codes, func(c string) bool { return len(b.parts[c]) == 0 })
}

func (b *bowl) allWeights() bool {
	return !slices.ContainsFunc(b.codes, func(c string) bool { return len(b.weights[c]) == 0 })
}

// agreed returns the number that all facts say.
func agreed(facts []heard.Fact) (exact.Number, bool) {
	for _, f := range facts {
		if !f.Number.Equal(facts[0].Number) {
			return exact.Zero, false
		}
	}
	if len(facts) == 0 {
		return exact.Zero, false
	}
	return facts[0].Number, true
}

// settled returns the grams that all weights say; tubes count where the range says
// what one holds and no grams were said.
func settled(facts []heard.Fact, rng *shade.Range) (grams exact.Number, from []heard.Fact, ok bool) {
	var said, tubes []heard.Fact
	for _, f := range facts {
		if f.Tubes {
			tubes = append(tubes, f)
		} else {
			said = append(said, f)
		}
	}
	if len(said) > 0 {
		n, same := agreed(said)
		return n, said, same
	}
	n, same := agreed(tubes)
	if !same || rng == nil || rng.Colour.Size.IsZero() {
		return exact.Zero, tubes, false
	}
	return rng.Colour.Size.Times(n).Grams(), tubes, true
}

func (b *bowl) additives() line {
	var items []string
	for _, f := range b.added {
		if item := f.Number.Decimal(2) + " g " + f.Of; !slices.Contains(items, item) {
			items = append(items, item)
		}
	}
	if len(items) == 0 {
		return line{}
	}
	return line{strings.Join(items, " + "), all(b.added)}
}

// developer writes the strength with its pair and its weight.
func (b *bowl) developer(kind shade.Kind, rng *shade.Range) line {
	strengths := append(slices.Clone(b.vols), b.percent...)
	if len(strengths)+len(b.weighed) == 0 && usedAsItIs(kind, rng) {
		return line{"none", "not said; " + rng.Name + " gives no strength and no ratio for " + string(kind)}
	}
	if len(strengths) == 0 {
		return line{open, joinNotes(all(b.weighed), "no strength was heard. Which developer, or none?")}
	}
	vol, percent := same(b.vols), same(b.percent)
	if vol == "" && len(b.vols) > 0 || percent == "" && len(b.percent) > 0 {
		return line{open, all(strengths) + ". Which of them?"}
	}
	value := vol
	switch {
	case vol == "":
		value = percent
	case percent != "":
		value = vol + " (" + percent + ")"
	}
	facts := strengths
	if grams, ok := agreed(b.weighed); ok {
		value = grams.Decimal(2) + " g of " + value
		facts = append(slices.Clone(b.weighed), strengths...)
	}
	return line{value, all(facts)}
}

// usedAsItIs reports whether a range says how long a kind stays on and nothing of a developer.
func usedAsItIs(kind shade.Kind, rng *shade.Range) bool {
	if rng == nil {
		return false
	}
	terms, ok := rng.Kinds[kind]
	return ok && len(terms.Strengths) == 0 && terms.Ratio.IsZero()
}

// same returns the value that all facts say, empty where they differ or there are
// none.
func same(facts []heard.Fact) string {
	value := ""
	for _, f := range facts {
		if v := f.Value(); value != "" && v != value {
			return ""
		}
		value = f.Value()
	}
	return value
}

// ratio writes the ratio where it was said. Where it was not it follows from two
// weights or is the range's own, and is left out.
func (b *bowl) ratio(kind shade.Kind, rng *shade.Range) line {
	if len(b.ratios) > 0 {
		v := same(b.ratios)
		if v == "" {
			return line{open, all(b.ratios) + ". Which of them?"}
		}
		return line{v, all(b.ratios)}
	}
	_, weighed := agreed(b.weighed)
	if len(b.weighed) == 0 && usedAsItIs(kind, rng) || weighed && b.allWeights() && len(b.codes) > 0 || rng != nil && kind != "" && !rng.Kinds[kind].Ratio.IsZero() {
		return line{}
	}
	return line{open, "no ratio was heard"}
}

// amount writes the size of the bowl where the shades' own weights do not give it.
func (b *bowl) amount(rng *shade.Range) line {
	if len(b.codes) > 0 && b.allWeights() {
		if b.allParts() {
			return b.sum(rng)
		}
		return line{}
	}
	if b.powder && len(b.colour) > 0 {
		return line{}
	}
	if g, ok := agreed(b.colour); ok {
		return line{g.Decimal(2) + " g colour", all(b.colour)}
	}
	if g, ok := agreed(b.mixed); ok {
		return line{g.Decimal(2) + " g mixed", all(b.mixed)}
	}
	if _, ok := agreed(b.weighed); ok && len(b.ratios) > 0 {
		return line{} // it follows from the developer's weight
	}
	facts := append(slices.Clone(b.colour), b.mixed...)
	return line{open, joinNotes(all(facts), "how much is mixed?")}
}

// sum writes the weights of the shades together: where they are dosed in parts, their
// grams are claims and do not give the bowl its size.
func (b *bowl) sum(rng *shade.Range) line {
	total := exact.Zero
	for _, c := range b.codes {
		grams, _, ok := settled(b.weights[c], rng)
		if !ok {
			return line{open, "the weights differ. How much is mixed?"}
		}
		total = total.Add(grams)
	}
	return line{total.Decimal(2) + " g colour", joinNotes(all(b.colour), "the shades' weights together")}
}

// target writes the level that is aimed at.
func (b *bowl) target() line {
	v := same(b.targets)
	if v == "" {
		return line{}
	}
	return line{v, all(b.targets)}
}

// one writes a single time, where one was said.
func one(facts []heard.Fact) line {
	if v := same(facts); v != "" && facts[0].Time.Min == facts[0].Time.Max {
		return line{v, all(facts)}
	}
	return line{}
}

// time writes how long the bowl stays on. Of several times it is the one with a start or an end,
// or the one that was said of a bowl; the others are told beside it. Where none is, which of them
// it is is for the author to say: a wrong one burns.
func (b *bowl) time() line {
	if len(b.stays) == 0 {
		return line{}
	}
	best := b.stays[0]
	for _, f := range b.stays[1:] {
		if better(f, best) {
			best = f
		}
	}
	others := slices.DeleteFunc(slices.Clone(b.stays), func(f heard.Fact) bool { return f.Time == best.Time })
	switch value, note := best.Time.String(), from(best); {
	case best.Touch:
		return line{value + " from first touch", joinNotes(note, alsoHeard(others))}
	case best.Ended:
		return line{value + " from last section", joinNotes(note, alsoHeard(others))}
	case len(others) > 0 && !best.OfBowl:
		return line{open, all(b.stays) + ". Which is how long it stays on? Counted from when?"}
	default:
		return line{value, joinNotes(note, alsoHeard(others)) + ". Counted from when?"}
	}
}

func alsoHeard(others []heard.Fact) string {
	if len(others) == 0 {
		return ""
	}
	return "also heard: " + all(others)
}

func better(f, than heard.Fact) bool {
	if a, b := f.Touch || f.Ended, than.Touch || than.Ended; a != b {
		return a
	}
	if f.OfBowl != than.OfBowl {
		return f.OfBowl
	}
	return f.Time.Max > than.Time.Max
}

func joinNotes(notes ...string) string {
	var out []string
	for _, n := range notes {
		if n != "" {
			out = append(out, n)
		}
	}
	return strings.Join(out, "; ")
}
