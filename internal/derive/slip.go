package derive

import (
	"strings"

	"plait/internal/answer"
	"plait/internal/exact"
	"plait/internal/formula"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/question"
	"plait/internal/source"
)

// slips works out the tempting wrong answers. A typed one belongs to the figures it was
// typed for, so it is left out of variants whose answer differs.
func (s *solver) slips(sol *Solution) {
	for _, slip := range s.block.Slips {
		if slip.Named != "" {
			s.namedSlip(sol, slip)
			continue
		}
		out := Slip{Text: slip.Wrong.Value, Say: slip.Say.Value, Span: slip.Wrong.Span}
		if len(sol.Options) == 0 && sol.Key.Unit != answer.Word && s.numeric() {
			v, err := answer.Parse(slip.Wrong.Value, sol.Key.Unit)
			if err != nil {
				s.fault("question/slip", slip.Wrong.Span, "write it as the answer would be written", "%q cannot be compared with the answer: %v", slip.Wrong.Value, err)
				continue
			}
			out.Value, out.Text = v, sol.Key.Unit.Text(v)
		} else if len(sol.Options) > 0 && !hasOption(sol.Options, slip.Wrong.Value) {
			s.fault("question/slip", slip.Wrong.Span, "write it letter for letter as it stands in the list", "%q is nothing that can be chosen", slip.Wrong.Value)
			continue
		}
		sol.Slips = append(sol.Slips, out)
	}
}

// numeric reports whether the question is answered by a number.
func (s *solver) numeric() bool {
	switch s.block.Kind {
	case question.Find, question.Answer, question.Level:
		return true
	}
	return false
}

func hasOption(options []Option, text string) bool {
	for _, o := range options {
		if strings.EqualFold(o.Text, text) {
			return true
		}
	}
	return false
}

// namedSlips says of each named slip what to tell who falls for it, and how the wrong
// answer comes about.
var namedSlips = map[question.NamedSlip]struct {
	say  string
	read func(*solver, *Solution) (exact.Number, bool)
}{
	question.RatioForgotten: {
		"That is the answer at 1:1. Look at the ratio again.",
		mended(func(b *formula.Block, c mix.Bowl) {
			b.Ratio.Value = measure.Ratio{Colour: exact.One, Developer: exact.One}
		}),
	},
	question.RatioSwapped: {
		"That is the ratio the wrong way round. Colour comes first, and developer is never the smaller.",
		mended(func(b *formula.Block, c mix.Bowl) {
			b.Ratio.Value = measure.Ratio{Colour: c.Ratio.Developer, Developer: c.Ratio.Colour}
		}),
	},
	question.PartsAsEqual: {
		"That takes every shade as the same weight. Look at the parts or shares again.",
		mended(func(b *formula.Block, _ mix.Bowl) {
			for i := range b.Colour {
				b.Colour[i].Value, b.Colour[i].Unit = exact.One, formula.Parts
			}
		}),
	},
	question.TotalForColour: {
		"The weight that is given is the weight of something else: the colour and the whole bowl are two weights.",
		mended(func(b *formula.Block, _ mix.Bowl) { b.Amount.Of = 1 - b.Amount.Of }),
	},
	question.BottleStrength: {
		"That is the strength in the bottle. In the bowl everything else thins it.",
		func(_ *solver, sol *Solution) (exact.Number, bool) {
			if sol.Computed.OK && !sol.Computed.Bowl.Bottle.IsZero() {
				return sol.Computed.Bowl.Bottle.Percent(), true
			}
			return sol.Given.Bottle.Value.Percent(), sol.Given.Bottle.Set()
		},
	},
	question.LevelOfFirst: {
		"That is the level of the first shade alone. Weigh the levels by their parts.",
		func(_ *solver, sol *Solution) (exact.Number, bool) {
			if !sol.Computed.OK || len(sol.Computed.Mix.Shades) == 0 {
				return exact.Zero, false
			}
			return exact.Int(int64(sol.Computed.Mix.Shades[0].Code.Level)), true
		},
	},
	question.VolumeAsPercent: {
		"That takes volumes for per cent. Ten volumes are 3 %.",
		func(s *solver, sol *Solution) (exact.Number, bool) {
			times := sol.Key.Value.Number
			if sol.Key.Unit == answer.Volume {
				return times.Mul(exact.Of(3, 10)), true
			}
			return times.Mul(exact.Of(10, 3)), sol.Key.Unit == answer.Percent
		},
	},
}

// mended reads what is sought off the same bowl after something in it was changed.
func mended(change func(*formula.Block, mix.Bowl)) func(*solver, *Solution) (exact.Number, bool) {
	return func(s *solver, sol *Solution) (exact.Number, bool) {
		if !sol.Computed.OK {
			return exact.Zero, false
		}
		wrong := *sol.Block
		bowl := sol.Computed.Bowl
		wrong.Colour = append([]formula.Item(nil), wrong.Colour...)
		if wrong.Amount.Mass.Set() {
			wrong.Developer.Weight = source.Stated[measure.Mass]{}
		} else {
			resize(&wrong, formula.Amount{Mass: source.Stated[measure.Mass]{Value: bowl.Colour, Span: wrong.Span}, Span: wrong.Span})
		}
		wrong.Ratio = source.Stated[measure.Ratio]{Value: bowl.Ratio, Span: wrong.Span}
		if bowl.Developer.IsZero() {
			wrong.Ratio = source.Stated[measure.Ratio]{}
		}
		change(&wrong, bowl)
		attempt := &solver{derived: s.derived, course: s.course, lesson: s.lesson, block: s.block}
		out := Solution{Given: sol.Given, Block: &wrong, Range: sol.Range}
		rng := sol.Computed.Range
		out.Computed = attempt.compute(&wrong, rng)
		attempt.find(&out, source.Text{Value: sol.Sought, Span: s.block.Span})
		return out.Key.Value.Number, len(attempt.found) == 0
	}
}

// namedSlip works out a named slip. In a list it is the option that has its value, and
// falls away where the list has none.
func (s *solver) namedSlip(sol *Solution, slip question.Slip) {
	way := namedSlips[slip.Named]
	var n exact.Number
	ok := sol.Sought != "" && sol.Key.Unit != answer.Word
	if ok {
		n, ok = way.read(s, sol)
	}
	if !ok {
		s.fault("question/slip", slip.Wrong.Span, "take it away, or write the wrong answer itself", "nobody can make the slip %q here", slip.Named)
		return
	}
	out := Slip{Value: answer.Value{Number: n}, Say: way.say, Span: slip.Wrong.Span}
	if slip.Say.Value != "" {
		out.Say = slip.Say.Value
	}
	out.Text = sol.Key.Unit.Text(out.Value)
	for _, o := range sol.Options {
		if v, err := answer.Parse(o.Text, sol.Key.Unit); err == nil && (answer.Key{Unit: sol.Key.Unit, Value: v, Near: sol.Key.Near}).Agrees(out.Value) {
			out.Text = o.Text
		}
	}
	sol.Slips = append(sol.Slips, out)
}
