package check

import "plait/internal/derive"

var formulaCeiling = Rule{
	ID:    "formula/ceiling",
	Title: "no developer is stronger than 12 % (40 vol)",
	Why: "The law stops peroxide in hair products at 12 %, ready for use. Whether that binds the bottle or the mixture can be " +
		"argued; bottles for the trade stop there too, so plait holds both to it, whatever the ratio thins it to.",
	Source: "Regulation (EC) No 1223/2009, Annex III, entry 12(a), as replaced by Regulation (EU) 2019/831; kept by the United Kingdom. " +
		"Local law may be stricter",
	Before: "colour: 30 g 6N\ndeveloper: 13 %\nratio: 1:1.5\nkind: permanent",
	After:  "colour: 30 g 6N\ndeveloper: 9 %\nratio: 1:1.5\nkind: permanent",
	Since:  "1.0",
	Formula: func(p *Pass, f *derive.Formula) {
		most := p.Course.Limits().Peroxide
		for _, s := range strengths(f) {
			if most.Cmp(s.Value) < 0 {
				p.Reportf(s.Span, "take a developer of "+bothUnits(most)+" or weaker, and the weakest that will do",
					"a developer of %s is above the %s that the law allows (%s)", s.Span.Text(), bothUnits(most), p.Course.Limits())
			}
		}
	},
}
