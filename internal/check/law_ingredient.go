package check

import "plait/internal/derive"

var lawIngredient = Rule{
	ID:    "law/ingredient",
	Title: "an ingredient keeps its limit after mixing",
	Why: "The law limits some dyes in the mixture that goes on the head, not in the tube, so the ratio decides: 3.6 % in the tube is 1.8 % " +
		"at 1:1. plait reckons with the most that the range file gives, as if every shade of the bowl held it.",
	Source: "Regulation (EC) No 1223/2009, Annex III, column for the ready-to-use preparation; the limits and the date they were checked " +
		"stand in the range file",
	Of:     Range,
	Before: "ingredients:\n  toluene-2,5-diamine: {content: 6 %, limit: 2 %}",
	After:  "ingredients:\n  toluene-2,5-diamine: {content: 3.6 %, limit: 2 %}",
	Since:  "1.0",
	Formula: func(p *Pass, f *derive.Formula) {
		if f.Range == nil {
			return
		}
		for _, i := range f.Range.Ingredients {
			if have := i.InBowl(f.Bowl.ColourShare()); i.Limit.Less(have) {
				p.Reportf(mixedAt(f), "a tube may hold "+percent(i.MostInTube(f.Bowl.ColourShare()))+" of it at this mixture: ask the maker",
					"mixed like this the colour holds up to %s %s, and the law stops at %s (checked %s)", percent(have), i.Name, percent(i.Limit), i.Checked)
			}
		}
	},
}
