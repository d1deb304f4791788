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
// mixed with what is left in a tube, read off the scale.
func (b Bowl) ToPart(part int, left measure.Mass) Bowl {
	return b.Rescale(left.Per(b.Parts[part].Exact))
}

// Rescue is the way out after pouring too much.
type Rescue struct {
	Bowl Bowl           // the larger bowl that keeps the formula, as it will stand on the scale
	Add  []measure.Mass // what is still to add of each part, on the scale, never negative
}

// Rescue returns the smallest bowl of the same formula that holds everything
// poured so far, and what to add of each part. Poured has a weight for each part,
// read off the scale. A part is over where more of it was poured than the plan says
// to weigh; where none is, that is the bowl as planned.
func (b Bowl) Rescue(poured []measure.Mass) Rescue {
	factor := exact.One
	for i, p := range b.Parts {
		if poured[i].Cmp(p.Weighed) > 0 {
			factor = exact.Max(factor, poured[i].Per(p.Exact))
		}
	}
	r := Rescue{Bowl: b.Rescale(factor), Add: make([]measure.Mass, len(b.Parts))}
	for i := range r.Bowl.Parts {
		// Rounding may leave a part a step below what is in the bowl already, and
		// nothing can be taken out of it.
		part := &r.Bowl.Parts[i]
		part.Weighed = part.Weighed.Max(poured[i])
		r.Add[i] = part.Weighed.Sub(poured[i])
	}
	r.Bowl.weighRatio()
	return r
}
