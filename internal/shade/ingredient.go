package shade

import (
	"strings"

	"plait/internal/exact"
)

// Ingredient is a substance in a maker's colours whose share of the mixed bowl the
// law limits (in the European Union and the United Kingdom: Regulation (EC) No
// 1223/2009, Annex III, where oxidative dyes are limited "after mixing").
type Ingredient struct {
	Name    string
	Content exact.Number // greatest share of a colour by weight, as in the tube: 0.036 for 3.6 %
	Limit   exact.Number // greatest share of the bowl after mixing
	Group   string       // ingredients of one group share one limit; "" for one alone
	Checked string       // the date the limit was last checked, YYYY-MM-DD
}

// limits is what the law allows of some substances after mixing, as a share of the
// ready-to-use preparation: Regulation (EC) No 1223/2009, Annex III, as exported from
// the Commission's database of cosmetic ingredients about 2021 and read on 2026-03-01.
// Regulation (EU) 2024/996 touched the annex later and was not read in full, so a
// range file states limits of its own with the date they were checked.
var limits = map[string]exact.Number{
	"ammonia":                      exact.Of(6, 100),     // entry 4, as NH3
	"p-phenylenediamine":           exact.Of(2, 100),     // entry 8a, free base
	"toluene-2,5-diamine":          exact.Of(2, 100),     // entry 9a, free base
	"toluene-2,5-diamine sulphate": exact.Of(36, 1000),   // entry 9a, which agrees with the base by molar mass
	"resorcinol":                   exact.Of(125, 10000), // entry 22, oxidative dye
}

// LegalLimit returns what the law allows of a substance after mixing, for the few
// whose limit is known here. Local law may be stricter.
func LegalLimit(name string) (limit exact.Number, ok bool) {
	limit, ok = limits[strings.ToLower(name)]
	return limit, ok
}

// InBowl returns the share of a bowl that is the ingredient, where colours that
// hold it are the given share of the bowl.
func (i Ingredient) InBowl(colourShare exact.Number) exact.Number {
	return i.Content.Mul(colourShare)
}

// MostInTube returns the greatest content with which the ingredient keeps its limit
// where colours that hold it are the given share of the bowl, which must not be
// zero: 4 % at 1:1 for a limit of 2 %.
func (i Ingredient) MostInTube(colourShare exact.Number) exact.Number {
	return i.Limit.Quo(colourShare)
}

// Load returns how far a bowl uses up what the law allows of several ingredients
// together,
//
//	Σ(share of the bowl ÷ limit),
//
// which may be one at most: the rule for substances under one entry. Limits must
// not be zero.
func Load(ingredients []Ingredient, colourShare exact.Number) exact.Number {
	load := exact.Zero
	for _, i := range ingredients {
		load = load.Add(i.InBowl(colourShare).Quo(i.Limit))
	}
	return load
}
