package check

import (
	"slices"
	"strings"

	"plait/internal/derive"
	"plait/internal/exact"
	"plait/internal/shade"
)

var lawIngredientsTogether = Rule{
	ID:    "law/ingredients-together",
	Title: "ingredients under one entry of the law keep their limit together",
	Why: "Where the law limits several dyes under one entry, each uses up its share: 1.2 % of a 3 % limit and 1.5 % of another make 0.4 and " +
		"0.5, together 0.9 of what is allowed. More than one is too much, though each alone would pass.",
	Source: "Regulation (EC) No 1223/2009, Annex III, entry 8 (the sum of the ratios of content to limit may not exceed 1)",
	Of:     Range,
	Before: "ingredients:\n  dye one: {content: 5 %, limit: 3 %, group: entry 8}\n  dye two: {content: 4 %, limit: 3 %, group: entry 8}",
	After:  "ingredients:\n  dye one: {content: 3 %, limit: 3 %, group: entry 8}\n  dye two: {content: 4 %, limit: 3 %, group: entry 8}",
	Since:  "1.0",
	Formula: func(p *Pass, f *derive.Formula) {
		contents := f.Contents()
		var seen []string
		for _, c := range contents {
			if c.Group == "" || slices.Contains(seen, c.Group) {
				continue
			}
			seen = append(seen, c.Group)
			held, names := p.grouped(contents, c.Group)
			if load := shade.Load(held); len(held) > 1 && exact.One.Less(load) {
				p.Reportf(mixedAt(f), "ask the maker", "mixed like this %s use up %s of what is allowed under %s",
					strings.Join(names, " and "), percent(load), c.Group)
			}
		}
	},
}

// grouped returns how much a bowl holds of the ingredients of one group and may hold,
// and their names.
func (p *Pass) grouped(contents []derive.Content, group string) (held []shade.Held, names []string) {
	for _, c := range contents {
		if limit, _, ok := p.limit(c); ok && c.Group == group {
			held, names = append(held, shade.Held{Share: c.Share, Limit: limit}), append(names, c.Name)
		}
	}
	return held, names
}
