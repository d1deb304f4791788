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
		if f.Range == nil {
			return
		}
		var seen []string
		for _, i := range f.Range.Ingredients {
			if i.Group == "" || slices.Contains(seen, i.Group) {
				continue
			}
			seen = append(seen, i.Group)
			group := grouped(f.Range.Ingredients, i.Group)
			if load := shade.Load(group, f.Bowl.ColourShare()); len(group) > 1 && exact.One.Less(load) {
				p.Reportf(mixedAt(f), "ask the maker", "mixed like this %s use up %s of what the law allows under %s",
					names(group), percent(load), i.Group)
			}
		}
	},
}

// grouped returns the ingredients of one group.
func grouped(list []shade.Ingredient, group string) []shade.Ingredient {
	return slices.DeleteFunc(slices.Clone(list), func(i shade.Ingredient) bool { return i.Group != group })
}

func names(list []shade.Ingredient) string {
	out := make([]string, len(list))
	for i, x := range list {
		out[i] = x.Name
	}
	return strings.Join(out, " and ")
}
