package derive

import (
	"fmt"
	"strings"
	"time"

	"plait/internal/amount"
	"plait/internal/answer"
	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/formula"
	"plait/internal/hair"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/peroxide"
	"plait/internal/shade"
	"plait/internal/source"
)

// quantity is something a question can ask for. Needs says what has to be given, in
// words for a message.
type quantity struct {
	word  string
	unit  answer.Unit
	needs string
	read  func(*solver, *Solution) (exact.Number, bool)
}

// sought are the quantities that are numbers, in the order the handbook gives them.
var sought = []quantity{
	{"colour", answer.Gram, aBowl, func(_ *solver, sol *Solution) (exact.Number, bool) {
		return sol.Computed.Bowl.Colour.Grams(), sol.Computed.OK
	}},
	{"developer", answer.Gram, aBowlWithDeveloper, func(_ *solver, sol *Solution) (exact.Number, bool) {
		return sol.Computed.Bowl.Developer.Grams(), hasDeveloper(sol)
	}},
	{"mixed", answer.Gram, aBowl, func(_ *solver, sol *Solution) (exact.Number, bool) {
		return sol.Computed.Bowl.Mixed.Grams(), sol.Computed.OK
	}},
	{"ratio", answer.Ratio, aBowlWithDeveloper, func(_ *solver, sol *Solution) (exact.Number, bool) {
		if !hasDeveloper(sol) {
			return exact.Zero, false
		}
		return sol.Computed.Bowl.Ratio.PerColour(), true
	}},
	{"strength", answer.Percent, "a bowl with the strength of its developer, or developer and ratio", (*solver).strengthInBowl},
	{"bottle", answer.Percent, "strength (in the bowl) and ratio", func(_ *solver, sol *Solution) (exact.Number, bool) {
		g := sol.Given
		if !g.Strength.Set() || !g.Ratio.Set() {
			return exact.Zero, false
		}
		return peroxide.BottleFor(g.Strength.Value, g.Ratio.Value).Percent(), true
	}},
	{"strong", answer.Gram, blending, func(_ *solver, sol *Solution) (exact.Number, bool) { return blended(sol, true) }},
	{"weak", answer.Gram, blending, func(_ *solver, sol *Solution) (exact.Number, bool) { return blended(sol, false) }},
	{"percent", answer.Percent, "strength or developer", func(_ *solver, sol *Solution) (exact.Number, bool) {
		s, ok := strengthGiven(sol)
		return s.Percent(), ok
	}},
	{"volume", answer.Volume, "strength or developer", func(_ *solver, sol *Solution) (exact.Number, bool) {
		s, ok := strengthGiven(sol)
		return s.Volumes(), ok
	}},
	{"reads", answer.Level, "a bowl whose shades have a level", func(_ *solver, sol *Solution) (exact.Number, bool) {
		r := sol.Computed.Bowl.Level
		return exact.Of(int64(r.Low+r.High), 2), sol.Computed.OK && sol.Computed.Bowl.HasLevel
	}},
	{"average level", answer.Level, "a bowl whose shades have a level", func(_ *solver, sol *Solution) (exact.Number, bool) {
		return sol.Computed.Bowl.Level.Mean, sol.Computed.OK && sol.Computed.Bowl.HasLevel
	}},
	{"shade level", answer.Level, hairAndTarget, (*solver).shadeLevel},
	{"lift", answer.Level, hairAndTarget, (*solver).lift},
	{"result", answer.Level, "hair and level (of the shade)", (*solver).result},
	{"natural share", answer.Percent, "hair with a share of white", (*solver).naturalShare},
	{"white share", answer.Percent, "a bowl with natural shades", (*solver).naturalInBowl},
	{"exposure", answer.Time, "apply and time, or a formula that has them", (*solver).exposure},
	{"finish time", answer.Moment, "at, apply and time, or a formula that has the last two", (*solver).finish},
	{"to buy", answer.Gram, "heads, and a bowl", (*solver).toBuy},
	{"packs", answer.Pack, "heads, pack, and a bowl", (*solver).packs},
}

const (
	aBowl              = "formula, bowl, or a weight with a ratio"
	aBowlWithDeveloper = "a formula or a bowl with a developer, or a weight with a ratio"
	blending           = "strong, weak, strength (the one wanted) and the weight of developer"
	hairAndTarget      = "hair and target"
)

// hueWords are the quantities that are hues.
var hueWords = []string{"warmth", "base"}

func hasDeveloper(sol *Solution) bool {
	return sol.Computed.OK && !sol.Computed.Bowl.Developer.IsZero()
}

// find works out the quantity that a text names: one of those above, a shade or an
// additive of the bowl, or what the text of a lesson can show in braces, "area of nape".
func (s *solver) find(sol *Solution, t source.Text) {
	sol.Sought = t.Value
	for _, q := range sought {
		if q.word != t.Value {
			continue
		}
		n, ok := q.read(s, sol)
		if !ok {
			s.fault("question/find", t.Span, "give "+q.needs, "%s cannot be worked out from what is given", q.word)
			return
		}
		sol.Key = answer.Key{Unit: q.unit, Value: answer.Value{Number: n}}
		if q.word == "reads" && sol.Computed.Bowl.Level.Tie() {
			sol.Key.Near = exact.Half // between two levels either is right
		}
		return
	}
	switch {
	case t.Value == "warmth" || t.Value == "base":
		s.hue(sol, t)
	case sol.part(t.Value) != nil:
		sol.Key = answer.Key{Unit: answer.Gram, Value: answer.Value{Number: sol.part(t.Value).Exact.Grams()}}
	case strings.Contains(t.Value, " of "):
		s.shown(sol, t)
	default:
		s.unknown(sol, t)
	}
}

// part returns the part of the bowl that a name stands for, nil for none.
func (sol *Solution) part(name string) *mix.Part {
	for i, p := range sol.Computed.Bowl.Parts {
		if p.Name == name && p.Name != "" {
			return &sol.Computed.Bowl.Parts[i]
		}
	}
	return nil
}

func (s *solver) unknown(sol *Solution, t source.Text) {
	var words []string
	for _, q := range sought {
		words = append(words, q.word)
	}
	words = append(words, hueWords...)
	for _, p := range sol.Computed.Bowl.Parts {
		if p.Name != "" && p.Name != "colour" {
			words = append(words, p.Name)
		}
	}
	help := "what can be sought: " + strings.Join(words, ", ")
	if near := diag.DidYouMean(t.Value, words); near != "" {
		help = fmt.Sprintf("did you mean %q? %s", near, help)
	}
	s.fault("question/find", t.Span, help, "%q is nothing that can be worked out", t.Value)
}

// shown takes a value that the text of the lesson could show.
func (s *solver) shown(sol *Solution, t source.Text) {
	text, fault := s.derived.Value(s.lesson, t)
	if fault != nil {
		fault.Rule = "question/find"
		s.found = append(s.found, *fault)
		return
	}
	if text == "" {
		s.fault("question/find", t.Span, "mend what it is of first", "%s cannot be computed", t.Value)
		return
	}
	unit, value, err := answer.Guess(text)
	if err != nil {
		s.fault("question/find", t.Span, "ask for a value that is one number", "%q is no single number", text)
		return
	}
	sol.Key = answer.Key{Unit: unit, Value: value}
}

// hue works out the warmth of a level, or the base: that of a shade where one is given,
// else the one that cancels the warmth.
func (s *solver) hue(sol *Solution, t source.Text) {
	set := func(h shade.Hue) {
		sol.Key = answer.Key{Unit: answer.Word, Value: answer.Value{Word: h.String()}}
	}
	if t.Value == "base" && sol.Given.Shade.Value != "" {
		if h, ok := s.baseOf(sol); ok {
			set(h)
		}
		return
	}
	level, ok := s.levelGiven(sol)
	if !ok {
		s.fault("question/find", t.Span, "give level, hair or (for a base) shade", "%s cannot be worked out from what is given", t.Value)
		return
	}
	warmth := warmthOf(sol.Range, level)
	if t.Value == "base" {
		warmth = warmth.Opposite()
	}
	set(warmth)
}

// baseOf is the base of the shade that is given.
func (s *solver) baseOf(sol *Solution) (shade.Hue, bool) {
	t := sol.Given.Shade
	if sol.Range == nil {
		s.fault("question/given", t.Span, "name a range in the lesson's header", "nothing says what the tone of %s is", t.Value)
		return 0, false
	}
	code, err := sol.Range.Find(t.Value)
	if err != nil {
		s.fault("question/given", t.Span, "the shades are: "+strings.Join(sol.Range.Shades, " "), "%v", err)
		return 0, false
	}
	bases := sol.Range.Bases(code)
	if len(bases) != 1 {
		s.fault("question/given", t.Span, "take a shade whose tone has one base", "%s has %d bases", t.Value, len(bases))
		return 0, false
	}
	return bases[0], true
}

func strengthGiven(sol *Solution) (peroxide.Strength, bool) {
	if sol.Given.Strength.Set() {
		return sol.Given.Strength.Value, true
	}
	return sol.Given.Bottle.Value, sol.Given.Bottle.Set()
}

// strengthInBowl is the strength of everything in the bowl. Without any weight the
// ratio alone decides it.
func (s *solver) strengthInBowl(sol *Solution) (exact.Number, bool) {
	if hasDeveloper(sol) && !sol.Computed.Bowl.Bottle.IsZero() {
		return sol.Computed.Bowl.Strength.Percent(), true
	}
	g := sol.Given
	if !g.Bottle.Set() || !g.Ratio.Set() {
		return exact.Zero, false
	}
	return peroxide.InBowl(g.Bottle.Value, g.Ratio.Value).Percent(), true
}

// blended is the weight of the stronger or the weaker of two developers that make a
// third.
func blended(sol *Solution, strong bool) (exact.Number, bool) {
	g := sol.Given
	if !g.Strong.Set() || !g.Weak.Set() || !g.Strength.Set() || !g.Developer.Set() {
		return exact.Zero, false
	}
	a, b, err := peroxide.Blend(g.Strong.Value, g.Weak.Value, g.Strength.Value)
	if err != nil {
		return exact.Zero, false
	}
	if !strong {
		a, b = b, a
	}
	return g.Developer.Value.Times(a.Quo(a.Add(b))).Grams(), true
}

func (s *solver) shadeLevel(sol *Solution) (exact.Number, bool) {
	h, known := s.hairGiven(sol)
	target, aimed := targetGiven(sol)
	return exact.Int(int64(hair.ShadeFor(h.Level, target))), known && aimed
}

func (s *solver) lift(sol *Solution) (exact.Number, bool) {
	h, known := s.hairGiven(sol)
	target, aimed := targetGiven(sol)
	return exact.Int(int64(hair.LiftWanted(h.Level, target))), known && aimed
}

func (s *solver) result(sol *Solution) (exact.Number, bool) {
	h, known := s.hairGiven(sol)
	if !known || !sol.Given.Level.Set() {
		return exact.Zero, false
	}
	return hair.Result(h.Level, sol.Given.Level.Value).Mean, true
}

func (s *solver) naturalShare(sol *Solution) (exact.Number, bool) {
	h, known := s.hairGiven(sol)
	return naturalShare(h).Mul(exact.Int(100)), known && !h.White.IsZero()
}

// naturalInBowl is the share of the colour in the bowl that works on white hair: what
// comes from shades without a tone of their own.
func (s *solver) naturalInBowl(sol *Solution) (exact.Number, bool) {
	var natural measure.Mass
	for _, p := range sol.Computed.Bowl.Parts {
		if p.Role == mix.ColourRole && p.Shade.Level > 0 && sol.Range != nil && len(sol.Computed.RangeOf(p.Shade).Bases(p.Shade)) == 0 {
			natural = natural.Add(p.Exact)
		}
	}
	if !sol.Computed.OK || natural.IsZero() {
		return exact.Zero, false
	}
	return natural.Per(sol.Computed.Bowl.Colour).Mul(exact.Int(100)), true
}

// service returns how long the application takes and how long the colour stays, with
// the moment that counts from.
func service(sol *Solution) (apply, stay time.Duration, zero formula.Zero, ok bool) {
	if b := sol.Block; b != nil {
		apply, stay, zero = b.Apply.Value, b.Time.Longest(), b.Time.Zero
	}
	if sol.Given.Apply.Set() {
		apply = sol.Given.Apply.Value
	}
	if sol.Given.Time.Set() {
		stay = sol.Given.Time.Value
	}
	return apply, stay, zero, stay > 0
}

// exposure is how long the colour is on the hair that was covered first, in minutes.
func (s *solver) exposure(sol *Solution) (exact.Number, bool) {
	apply, stay, zero, ok := service(sol)
	if zero == formula.LastSection {
		stay += apply
	}
	return exact.Of(int64(stay), int64(time.Minute)), ok
}

// finish is the time of day at which the colour comes off, in whole minutes after
// midnight: seconds are left off, because colour comes off a little early and never late.
func (s *solver) finish(sol *Solution) (exact.Number, bool) {
	long, ok := s.exposure(sol)
	if !ok || !sol.Given.At.Set() {
		return exact.Zero, false
	}
	day := exact.Int(24 * 60)
	at := exact.Of(int64(sol.Given.At.Value), int64(time.Minute)).Add(long)
	return at.Sub(at.Floor(day)).Floor(exact.One), true
}

// order plans what a class needs of the colour.
func (s *solver) order(sol *Solution) (line amount.Line, ok bool) {
	g := sol.Given
	if !g.Heads.Set() || !sol.Computed.OK {
		return amount.Line{}, false
	}
	item := amount.Item{Name: "colour"}
	needs := []amount.Need{{Item: item, Mass: sol.Computed.Bowl.Colour.Times(exact.Int(int64(g.Heads.Value)))}}
	packs := map[amount.Item]shade.Pack{}
	if g.Pack.Set() {
		packs[item] = shade.Pack{Size: g.Pack.Value}
	}
	lines, err := amount.Plan(needs, packs, map[amount.Item]measure.Mass{}, g.Waste.Value)
	if err != nil || len(lines) != 1 {
		return amount.Line{}, false
	}
	sol.Buy = lines[0].Buy
	return lines[0], true
}

func (s *solver) toBuy(sol *Solution) (exact.Number, bool) {
	line, ok := s.order(sol)
	return line.Buy.Grams(), ok
}

func (s *solver) packs(sol *Solution) (exact.Number, bool) {
	line, ok := s.order(sol)
	return exact.Int(line.Packs), ok && sol.Given.Pack.Set()
}
