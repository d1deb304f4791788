package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/source"
)

var formulaNoWeight = Rule{
	ID:    "formula/no-weight",
	Title: "every part of a bowl can be weighed",
	Why: "A scale shows whole steps. A part of less than half a step would stand on the card as 0 g: the bowl that is weighed is " +
		"another one, without that shade.",
	Source:   "arithmetic",
	Severity: diag.Error,
	Before:   "colour: 99 parts 6N + 1 part 7N\namount: 4 g colour\ndeveloper: 20 vol\nratio: 1:1.5\nkind: permanent",
	After:    "colour: 3 parts 6N + 1 part 7N\namount: 4 g colour\ndeveloper: 20 vol\nratio: 1:1.5\nkind: permanent",
	Since:    "1.0",
	Formula: func(p *Pass, f *derive.Formula) {
		for _, part := range f.Bowl.Parts {
			if part.Exact.IsZero() || !part.Weighed.IsZero() {
				continue
			}
			name := part.Name
			if name == "" {
				name = strengthWords(f)
			}
			p.Reportf(sizeAt(f), "mix "+leastColour(f, part.Exact).String()+" of colour or more, leave the part out, or weigh on a finer scale",
				"%s comes to %s g, which a scale of %s shows as nothing", name, part.Exact.Grams().Decimal(3), f.Bowl.Step)
			return
		}
	},
}

// leastColour is how much colour makes a part of the bowl weigh a step of the scale, to the whole
// gram above.
func leastColour(f *derive.Formula, part measure.Mass) measure.Mass {
	least := f.Bowl.Colour.Times(f.Bowl.Step.Per(part)).Grams()
	whole := least.Floor(exact.One)
	if whole.Less(least) {
		whole = whole.Add(exact.One)
	}
	return measure.Grams(whole)
}

// sizeAt is where a bowl says how much is mixed, else the whole block.
func sizeAt(f *derive.Formula) source.Span {
	if f.Amount.Span.Valid() {
		return f.Amount.Span
	}
	return f.Span
}
