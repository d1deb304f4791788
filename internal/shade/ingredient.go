package shade

import "plait/internal/exact"

// Ingredient is a substance in a maker's colours whose share of the mixed bowl the
// law limits (in the European Union and the United Kingdom: Regulation (EC) No
// 1223/2009, Annex III, where oxidative dyes are limited "after mixing").
type Ingredient struct {
	Name    string
	Content exact.Number // greatest share of a colour by weight, as in the tube: 0.036 for 3.6 %
	Limit   exact.Number // greatest share of the bowl after mixing, as the range file gives it; zero: the law's own
	Group   string       // ingredients of one group share one limit; "" for one alone
	Checked string       // the date the limit was last checked, YYYY-MM-DD
}

// InBowl returns the share of a bowl that is the ingredient, where colours that
// hold it are the given share of the bowl.
func (i Ingredient) InBowl(colourShare exact.Number) exact.Number {
	return i.Content.Mul(colourShare)
}

// MostInTube returns the greatest content with which a limit is kept where colours that
// hold the ingredient are the given share of the bowl, which must not be zero: 4 % at
// 1:1 for a limit of 2 %.
func MostInTube(limit, colourShare exact.Number) exact.Number { return limit.Quo(colourShare) }

// Held is how much of an ingredient a bowl holds, and how much it may.
type Held struct{ Share, Limit exact.Number }

// Load returns how far a bowl uses up what the law allows of several ingredients
// together,
//
//	Σ(share of the bowl ÷ limit),
//
// which may be one at most: the rule for substances under one entry. Limits must
// not be zero.
func Load(held []Held) exact.Number {
	load := exact.Zero
	for _, h := range held {
		load = load.Add(h.Share.Quo(h.Limit))
	}
	return load
}
