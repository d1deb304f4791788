package draft

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"plait/internal/heard"
	"plait/internal/shade"
)

// bowl is what was heard of one bowl.
type bowl struct {
	name    string
	step    int // in which it is mixed
	cue     int // at which it is first spoken of
	powder  bool
	codes   []string                // in the order they came up
	shades  map[string]heard.Fact   // the first mention of each
	parts   map[string][]heard.Fact // of each code
	weights map[string][]heard.Fact // of each code
	colour  []heard.Fact            // weights of the whole colour
	mixed   []heard.Fact            // weights of everything
	weighed []heard.Fact            // weights of the developer
	added   []heard.Fact            // weights of additives
	ratios  []heard.Fact
	vols    []heard.Fact
	percent []heard.Fact
	stays   []heard.Fact // how long it stays on
	applies []heard.Fact // how long it takes to apply
	on      []heard.Fact // places of the head
	targets []heard.Fact // levels aimed at
}

func newBowl(step, cue int) *bowl {
	return &bowl{step: step, cue: cue,
		shades: map[string]heard.Fact{}, parts: map[string][]heard.Fact{}, weights: map[string][]heard.Fact{}}
}

// findBowls gives every fact of a bowl to the bowl it was said of: a shade to the one
// it is in, everything else to the one mixed last. So a ratio that comes up minutes
// later still finds its bowl.
func (d *drafter) findBowls() {
	var early []int // facts of a bowl said before its shades
	for i, f := range d.facts {
		if d.placed[i] && f.Kind != heard.Section || f.Withdrawn {
			continue
		}
		b := d.bowlFor(f)
		if b == nil {
			early = append(early, i)
			continue
		}
		for _, e := range early {
			if d.stepOf(d.facts[e].Cue) == b.step && d.facts[e].Kind != heard.Section {
				d.placed[e] = b.take(d.facts[e])
			}
		}
		early = early[:0]
		if f.Kind == heard.Weight && d.isShade(f.Of) {
			b.named(f.Of, f)
		}
		if b.take(f) {
			d.placed[i] = true
		}
	}
	d.aim()
	for _, b := range d.bowls {
		d.putBack(b)
	}
	d.nameBowls()
}

// putBack takes back what a bowl kept and its block has no line for: of several times that it
// takes to apply none is told, and weights of all the colour are only told where the shades'
// own do not give them.
func (d *drafter) putBack(b *bowl) {
	var left []heard.Fact
	if one(b.applies).value == "" {
		left = append(left, b.applies...)
	}
	if len(b.codes) > 0 && b.allWeights() && !b.allParts() {
		left = append(append(left, b.colour...), b.mixed...)
	}
	for i, f := range d.facts {
		if slices.ContainsFunc(left, func(l heard.Fact) bool { return l.Kind == f.Kind && l.Span == f.Span }) {
			d.placed[i] = false
		}
	}
}

// bowlFor returns the bowl that a fact is of, a new one where it begins one; nil for
// none.
func (d *drafter) bowlFor(f heard.Fact) *bowl {
	var last *bowl
	if len(d.bowls) > 0 {
		last = d.bowls[len(d.bowls)-1]
	}
	code := f.Code
	if (f.Kind == heard.Parts || f.Kind == heard.Weight) && d.isShade(f.Of) {
		code = f.Of
	}
	step := d.stepOf(f.Cue)
	if f.Kind == heard.Weight && f.Of == heard.Powder && (last == nil || !last.powder && last.step != step || last.powder && len(last.colour) > 0 && d.otherBowl(last, f.Cue)) {
		b := newBowl(step, f.Cue)
		b.powder = true
		d.bowls = append(d.bowls, b)
		return b
	}
	if code == "" {
		if last != nil && d.lostBetween(last.step, step) {
			return nil
		}
		return last
	}
	for _, b := range d.bowls {
		if slices.Contains(b.codes, code) {
			return b
		}
	}
	switch {
	case last != nil && last.step == step && !last.powder && !(last.dosed() && d.otherBowl(last, f.Cue)):
		return last
	case last == nil || d.dosed(step):
		b := newBowl(step, f.Cue)
		d.bowls = append(d.bowls, b)
		return b
	}
	return nil // named in passing
}

// dosed reports whether it was said how much of some shade goes into the bowl.
func (b *bowl) dosed() bool { return len(b.parts)+len(b.weights) > 0 }

// lostBetween reports whether behind a step, up to another, a bowl is mixed of shades that no
// range lists: what is said from there on is of that one.
func (d *drafter) lostBetween(behind, upTo int) bool {
	return slices.ContainsFunc(d.unlisted, func(f heard.Fact) bool {
		step := d.stepOf(f.Cue)
		return behind < step && step <= upTo && !d.dosed(step)
	})
}

// otherBowl reports whether the words that lead up to a cue begin another bowl than the last:
// "now bowl number two is just for the hairline".
func (d *drafter) otherBowl(last *bowl, cue int) bool {
	const reach = 4
	for _, c := range d.Cues[max(last.cue+1, cue-reach) : max(last.cue, cue)+1] {
		words := strings.Fields(plain(c.Text))
		for i, w := range words {
			if w == "bowl" && slices.ContainsFunc(words[max(0, i-1):min(i+3, len(words))], func(w string) bool { return contains(ordinals, w) }) {
				return true
			}
		}
	}
	return false
}

// ordinals stand beside the name of a bowl that is not the first.
var ordinals = strings.Fields("second two 2 b other another third three 3 next")

// dosed reports whether a step says how much of some shade is taken.
func (d *drafter) dosed(step int) bool {
	for _, f := range d.facts {
		if d.stepOf(f.Cue) == step && (f.Kind == heard.Parts || f.Kind == heard.Weight) && d.isShade(f.Of) {
			return true
		}
	}
	return false
}

// isShade reports whether a dose is of a shade by its code.
func (d *drafter) isShade(of string) bool {
	for _, f := range d.facts {
		if f.Kind == heard.Shade && f.Code == of {
			return true
		}
	}
	return false
}

// take keeps a fact of the bowl and reports whether there is a place for it.
func (b *bowl) take(f heard.Fact) bool {
	switch f.Kind {
	case heard.Shade:
		b.named(f.Code, f)
	case heard.Parts:
		if f.Of == "" || f.Of == heard.Colour || f.Of == heard.Developer || f.Of == heard.Powder || f.Of == heard.Mixed {
			return false
		}
		b.named(f.Of, f)
		b.parts[f.Of] = append(b.parts[f.Of], f)
	case heard.Weight:
		return b.weigh(f)
	case heard.Ratio:
		b.ratios = append(b.ratios, f)
	case heard.Strength:
		if f.Percent {
			b.percent = append(b.percent, f)
		} else {
			b.vols = append(b.vols, f)
		}
	case heard.Time:
		return b.lasts(f)
	case heard.Section:
		b.on = append(b.on, f)
	default:
		return false
	}
	return true
}

// briefest is the shortest time that a colour is left on (common practice: a toner takes
// from 5 to 20 minutes); what takes less is a rinse, a mask or a stir.
const briefest = 5 * time.Minute

// lasts keeps a time that can be the bowl's.
func (b *bowl) lasts(f heard.Fact) bool {
	switch {
	case f.Clock == heard.Applies:
		b.applies = append(b.applies, f)
	case f.Touch || f.Ended || f.Time.Max >= briefest:
		b.stays = append(b.stays, f)
	default:
		return false
	}
	return true
}

// named adds a shade to the bowl.
func (b *bowl) named(code string, f heard.Fact) {
	if _, ok := b.shades[code]; !ok {
		b.codes = append(b.codes, code)
		b.shades[code] = f
	}
}

func (b *bowl) weigh(f heard.Fact) bool {
	switch f.Of {
	case "":
		return false
	case heard.Colour, heard.Powder:
		b.colour = append(b.colour, f)
	case heard.Mixed:
		b.mixed = append(b.mixed, f)
	case heard.Developer:
		b.weighed = append(b.weighed, f)
	default:
		if _, ok := b.shades[f.Of]; !ok {
			return b.add(f)
		}
		b.weights[f.Of] = append(b.weights[f.Of], f)
	}
	return true
}

// add keeps what is neither colour nor developer: bond cream.
func (b *bowl) add(f heard.Fact) bool {
	if !strings.Contains(f.Of, " ") {
		return false
	}
	b.added = append(b.added, f)
	return true
}

// aim gives the level that is aimed at to the bowl, where there is only one.
func (d *drafter) aim() {
	if len(d.bowls) != 1 {
		return
	}
	for i, f := range d.facts {
		if f.Kind == heard.Level && !f.Withdrawn && !d.placed[i] && d.aimed(f) {
			d.bowls[0].targets = append(d.bowls[0].targets, f)
			d.placed[i] = true
		}
	}
}

// nameBowls names each bowl by what it was called, and no two alike.
func (d *drafter) nameBowls() {
	used := map[string]int{}
	for _, b := range d.bowls {
		name := "bowl"
		if kind, _, ok := d.kindSaid(b); ok {
			name = string(kind)
		}
		if d.says(b, "gloss") {
			name = "gloss"
		}
		used[name]++
		if n := used[name]; n > 1 {
			name += "-" + strconv.Itoa(n)
		}
		b.name = name
	}
}

// says reports whether a word falls in the step in which the bowl is mixed.
func (d *drafter) says(b *bowl, word string) bool {
	for _, s := range d.of(d.begins[b.step], d.end(b.step)) {
		if slices.Contains(strings.Fields(plain(s.text)), word) {
			return true
		}
	}
	return false
}

// Words for the kinds of colour.
var kindWords = map[string]shade.Kind{
	"permanent": shade.Permanent, "demi": shade.Demi, "toner": shade.Toner, "filler": shade.Filler,
	"lightener": shade.Lightener, "powder": shade.Lightener, "bleach": shade.Lightener, "direct": shade.Direct,
}

// kindSaid returns the kind of colour that was said of a bowl: in the step in which
// it is mixed, else last before it.
func (d *drafter) kindSaid(b *bowl) (shade.Kind, sentence, bool) {
	if b.powder {
		return shade.Lightener, d.sentenceAt(b.cue), true
	}
	for _, s := range d.of(d.begins[b.step], d.end(b.step)) {
		if k, ok := kindIn(s.text); ok && k != shade.Lightener {
			return k, s, true
		}
	}
	if b.step == 0 {
		return "", sentence{}, false
	}
	list := d.of(d.begins[b.step-1], d.begins[b.step])
	for i := len(list) - 1; i >= 0; i-- {
		if k, ok := kindIn(list[i].text); ok && k != shade.Lightener {
			return k, list[i], true
		}
	}
	return "", sentence{}, false
}

func kindIn(text string) (shade.Kind, bool) {
	words := strings.Fields(plain(text))
	for i, w := range words {
		if w == "high" && i+1 < len(words) && words[i+1] == "lift" {
			return shade.HighLift, true
		}
		if k, ok := kindWords[w]; ok {
			return k, true
		}
	}
	return "", false
}

// sentenceAt returns the sentence that holds the beginning of a cue.
func (d *drafter) sentenceAt(cue int) sentence {
	var out sentence
	for _, s := range d.sentences {
		if s.cue <= cue {
			out = s
		}
	}
	return out
}
