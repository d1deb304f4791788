package check

import "plait/internal/derive"

var houseWithout = Rule{
	ID:     "house/without",
	Title:  "shades that the house does not use are in no bowl",
	Why:    "A salon may leave shades out, because it does not stock them or because they went wrong too often.",
	Source: "the house rules of the course",
	Before: "colour: 30 g 6R",
	After:  "colour: 30 g 6C",
	Since:  "1.0",
	Formula: func(p *Pass, f *derive.Formula) {
		for i, it := range f.Colour {
			for _, t := range p.Course.House.Without {
				if t.Value == it.Code.Value || t.Value == f.Bowl.Parts[i].Name {
					d := p.Reportf(it.Code.Span, "take another shade, or change the house rule", "the house does not use %s", it.Code.Value)
					*d = d.WithNote(t.Span, "the house rule")
				}
			}
		}
	},
}
