package derive

import (
	"slices"

	"plait/internal/exact"
	"plait/internal/formula"
	"plait/internal/hair"
	"plait/internal/lesson"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/question"
	"plait/internal/shade"
	"plait/internal/source"
)

// readBowl makes the bowl a question starts from: a formula of the lesson, a short form
// or nothing but weights and a ratio, with what is given beside it in the place of its
// own values. A question that gives no bowl leaves it out.
func (s *solver) readBowl(sol *Solution) {
	g := sol.Given
	sol.Range = s.course.RangeFor(s.lesson, &lesson.Formula{Block: &formula.Block{}})
	var block formula.Block
	switch {
	case g.Formula.Value != "":
		f, ok := s.lesson.Formula(g.Formula.Value)
		if !ok {
			fault := unknownFormula(s.lesson, g.Formula)
			fault.Rule = "question/given"
			s.found = append(s.found, *fault)
			return
		}
		if !s.derived.of[f].OK {
			s.found = append(s.found, *valueFault(g.Formula, "mend the formula first", "%s cannot be computed", g.Formula.Value))
			s.found[len(s.found)-1].Rule = "question/given"
			return
		}
		block, sol.Range = *f.Block, s.derived.of[f].Range
		if shared := s.derived.of[f].Shared; shared != nil {
			block = *f.Sized(shared.Total)
		}
	case g.Bowl != nil:
		block = *g.Bowl
	case g.Colour.Set() || (g.Mixed.Set() || g.Developer.Set()) && g.Ratio.Set():
		block = formula.Block{Span: s.block.Span, Colour: []formula.Item{{Value: exact.One, Code: source.Text{Value: "colour", Span: s.block.Span}}}}
		block.Developer = formula.Developer{None: !g.Ratio.Set(), Span: s.block.Span}
	default:
		return
	}
	override(&block, g)
	rng := sol.Range
	if g.Formula.Value == "" && g.Bowl == nil {
		rng = nil
	}
	sol.Block = &block
	sol.Computed = s.compute(&block, rng)
}

// compute computes a bowl of the question and keeps what is wrong with it.
func (s *solver) compute(b *formula.Block, rng *shade.Range) Computed {
	c, found := Bowl(b, rng, s.course.Scale)
	s.found = append(s.found, found...)
	return c
}

// override puts what is given in the place of a bowl's own values. A new weight leaves
// the proportions as they are: shades in grams become parts.
func override(b *formula.Block, g *question.Given) {
	if g.Ratio.Set() {
		b.Ratio = g.Ratio
		b.Developer.Weight = source.Stated[measure.Mass]{}
		b.Developer.None = false
	}
	if g.Bottle.Set() {
		b.Developer = formula.Developer{Strength: g.Bottle, Span: g.Bottle.Span}
	}
	switch {
	case g.Colour.Set():
		resize(b, formula.Amount{Mass: g.Colour, Of: mix.OfColour, Span: g.Colour.Span})
		if g.Developer.Set() {
			b.Developer.Weight = g.Developer
			b.Ratio = source.Stated[measure.Ratio]{Value: measure.NewRatio(g.Colour.Value, g.Developer.Value), Span: g.Developer.Span}
			b.Developer.None = false
		}
	case g.Mixed.Set():
		resize(b, formula.Amount{Mass: g.Mixed, Of: mix.OfMixed, Span: g.Mixed.Span})
	case g.Developer.Set():
		resize(b, formula.Amount{})
		b.Developer.Weight = g.Developer
		b.Developer.None = false
	}
}

// resize gives a bowl another size. Claims and a section's own weights fall away with
// the old one.
func resize(b *formula.Block, size formula.Amount) {
	if !b.Ratio.Set() && b.Developer.Weight.Set() {
		if colour, ok := b.ColourGrams(); ok {
			b.Ratio = source.Stated[measure.Ratio]{Value: measure.NewRatio(colour, b.Developer.Weight.Value), Span: b.Developer.Span}
		}
	}
	b.Colour = slices.Clone(b.Colour)
	for i := range b.Colour {
		if b.Colour[i].Unit == formula.Grams {
			b.Colour[i].Unit = formula.Parts
		}
	}
	b.Developer.Weight = source.Stated[measure.Mass]{}
	b.Amount = size
}

// hairGiven is the hair a question speaks of: its own, else that of its formula.
func (s *solver) hairGiven(sol *Solution) (formula.Hair, bool) {
	switch {
	case sol.Given.Hair.Set():
		return sol.Given.Hair.Value, true
	case sol.Given.Formula.Value == "":
		return formula.Hair{}, false
	}
	f, ok := s.lesson.Formula(sol.Given.Formula.Value)
	if !ok {
		return formula.Hair{}, false
	}
	h := s.derived.of[f].Hair
	return h.Value, h.Set()
}

// targetGiven is the level aimed at: the question's own, else its formula's.
func targetGiven(sol *Solution) (shade.Level, bool) {
	switch {
	case sol.Given.Target.Set():
		return sol.Given.Target.Value, true
	case sol.Block != nil && sol.Block.Target.Set():
		return sol.Block.Target.Value.Level, true
	}
	return 0, false
}

// warmthOf is the underlying warmth of a level, by the maker's table where there is one.
func warmthOf(r *shade.Range, l shade.Level) shade.Hue {
	if r != nil {
		return r.Undertone(l)
	}
	return shade.Undertone(l)
}

// levelGiven is the level a question speaks of: its own, else that of the hair.
func (s *solver) levelGiven(sol *Solution) (shade.Level, bool) {
	if sol.Given.Level.Set() {
		return sol.Given.Level.Value, true
	}
	h, ok := s.hairGiven(sol)
	return h.Level, ok
}

// naturalShare is the least share of natural shades for white hair.
func naturalShare(h formula.Hair) exact.Number {
	least, _ := hair.NaturalShare(h.White)
	return least
}
