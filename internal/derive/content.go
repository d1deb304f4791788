package derive

import (
	"slices"

	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/shade"
)

// Content is the most that a bowl holds of something the law limits.
type Content struct {
	Name    string
	Group   string       // of ingredients that share one limit; "" for one alone
	Share   exact.Number // of the bowl, as if every colour of a range held the most of it
	Limit   exact.Number // of the range files, the strictest of several; zero where none gives one
	Checked string       // the date of that limit
}

// Contents returns what the law limits in the colours of the bowl, as far as their makers
// tell. What two ranges hold of one ingredient adds up.
func (c Computed) Contents() []Content {
	var out []Content
	for _, r := range c.Ranges() {
		if len(r.Ingredients) == 0 {
			continue
		}
		share := c.shareOf(r)
		for _, i := range r.Ingredients {
			own := Content{Name: i.Name, Group: i.Group, Share: i.InBowl(share), Limit: i.Limit, Checked: i.Checked}
			at := slices.IndexFunc(out, func(o Content) bool { return o.Name == i.Name })
			if at < 0 {
				out = append(out, own)
				continue
			}
			out[at] = out[at].with(own)
		}
	}
	return out
}

// shareOf returns the share of the bowl that is colour of a range.
func (c Computed) shareOf(r *shade.Range) exact.Number {
	if len(c.Also) == 0 {
		return c.Bowl.ColourShare()
	}
	var colour measure.Mass
	for _, p := range c.Bowl.Parts {
		if p.Role == mix.ColourRole && c.RangeOf(p.Shade) == r {
			colour = colour.Add(p.Exact)
		}
	}
	return colour.Per(c.Bowl.Mixed)
}

// with adds what another range holds of the same ingredient.
func (c Content) with(o Content) Content {
	c.Share = c.Share.Add(o.Share)
	if c.Limit.IsZero() || !o.Limit.IsZero() && o.Limit.Less(c.Limit) {
		c.Limit, c.Checked = o.Limit, o.Checked
	}
	return c
}
