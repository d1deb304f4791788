package mix

import (
	"plait/internal/exact"
	"plait/internal/measure"
)

// Rescale returns the bowl with every exact weight multiplied by a factor and
// weighed anew. The factor must be positive.
func (b Bowl) Rescale(factor exact.Number) Bowl {
	out := b
	out.Parts = make([]Part, len(b.Parts))
	for i, p := range b.Parts {
		p.Exact = p.Exact.Times(factor)
		out.Parts[i] = p
	}
	out.Colour = b.Colour.Times(factor)
	out.Additives = b.Additives.Times(factor)
	out.Developer = b.Developer.Times(factor)
	out.Mixed = b.Mixed.Times(factor)
	out.weigh()
	return out
}

// ToColour returns the bowl made with the given weight of colour.
func (b Bowl) ToColour(colour measure.Mass) Bowl { return b.Rescale(colour.Per(b.Colour)) }

// ToPart returns the bowl that uses up the given weight of one part: what can be
// mixed with what is left in a tube.
func (b Bowl) ToPart(part int, left measure.Mass) Bowl {
	return b.Rescale(left.Per(b.Parts[part].Exact))
}

// Rescue is the way out after pouring too much.
type Rescue struct {
	Bowl Bowl           // the larger bowl that keeps the formula
	Add  []measure.Mass // what is still to add of each part, on the scale, never negative
}

// Rescue returns the smallest bowl of the same formula that holds everything
// poured so far, and what to add of each part. Poured has a weight for each part.
// Where nothing is over, that is the bowl as planned.
func (b Bowl) Rescue(poured []measure.Mass) Rescue {
	factor := exact.One
	for i, p := range b.Parts {
		factor = exact.Max(factor, poured[i].Per(p.Exact))
	}
	r := Rescue{Bowl: b.Rescale(factor), Add: make([]measure.Mass, len(b.Parts))}
	for i, p := range r.Bowl.Parts {
		add := p.Weighed.Sub(poured[i])
		if add.Grams().Sign() > 0 {
			r.Add[i] = add
		}
	}
	return r
}
