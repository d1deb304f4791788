package check

import (
	"plait/internal/derive"
	"plait/internal/shade"
)

var lawIngredient = Rule{
	ID:    "law/ingredient",
	Title: "an ingredient keeps its limit after mixing",
	Why: "The law limits some dyes in the mixture that goes on the head, not in the tube, so the ratio decides: 3.6 % in the tube is 1.8 % " +
		"at 1:1. plait reckons with the most that the range file gives, as if every shade of the bowl held it.",
	Source: "Regulation (EC) No 1223/2009, Annex III, column for the ready-to-use preparation, in the European Union and as the United " +
		"Kingdom kept it, text of about 2021; a later amendment, Regulation (EU) 2024/996, was not read in full, so a range file may state stricter " +
		"limits with a date of its own",
	Of:     Range,
	Before: "ingredients:\n  toluene-2,5-diamine: {content: 6 %, limit: 2 %}",
	After:  "ingredients:\n  toluene-2,5-diamine: {content: 3.6 %, limit: 2 %}",
	Since:  "1.0",
	Formula: func(p *Pass, f *derive.Formula) {
		for _, c := range f.Contents() {
			limit, says, ok := p.limit(c)
			if !ok || !limit.Less(c.Share) {
				continue
			}
			help := "ask the makers"
			if len(f.Also) == 0 {
				help = "a tube may hold " + percent(shade.MostInTube(limit, f.Bowl.ColourShare())) + " of it at this mixture: ask the maker"
			}
			p.Reportf(mixedAt(f), help, "mixed like this the colour holds up to %s %s, and %s", percent(c.Share), c.Name, says)
		}
	},
}
