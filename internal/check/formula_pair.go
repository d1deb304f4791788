package check

import (
	"plait/internal/derive"
	"plait/internal/exact"
	"plait/internal/peroxide"
)

var formulaPair = Rule{
	ID:    "formula/pair",
	Title: "volumes and per cent name the same developer",
	Why: "Ten volumes are 3 %: 10, 20, 30 and 40 vol are 3, 6, 9 and 12 %. A card that gives both and has them wrong sends " +
		"the reader to the wrong bottle. plait takes a pair that agrees to 0.15 %, half a volume.",
	Source: "Regulation (EU) 2019/831 pairs 12 % with 40 volumes; chemistry textbooks' volume strength gives 3.03 % for 10 volumes",
	Before: "colour: 30 g 6N\ndeveloper: 20 vol (9 %)\nratio: 1:1.5\nkind: permanent",
	After:  "colour: 30 g 6N\ndeveloper: 20 vol (6 %)\nratio: 1:1.5\nkind: permanent",
	Since:  "1.0",
	Formula: func(p *Pass, f *derive.Formula) {
		d := f.Developer
		if !d.Pair.Set() || d.Strength.Value.Agrees(d.Pair.Value) {
			return
		}
		found := p.Reportf(d.Pair.Span, "10 vol is 3 %, 20 vol 6 %, 30 vol 9 %, 40 vol 12 %: mend the one that is wrong",
			"%s is %s, not %s", d.Strength.Span.Text(), inOtherUnit(d.Strength.Value, d.Pair.Span.Text()), d.Pair.Span.Text())
		atmosphere, bar := d.Strength.Value.VolumesOfOxygen()
		*found = found.WithNote(d.Strength.Span, "by the oxygen it gives off %s is %.1f volumes at one atmosphere and %.1f at one bar, so the gap is no matter of how volumes are counted",
			d.Strength.Value, atmosphere, bar)
	},
}

// inOtherUnit prints a strength in the unit that the example is written in.
func inOtherUnit(s peroxide.Strength, example string) string {
	if len(example) > 0 && example[len(example)-1] == '%' {
		return s.String()
	}
	return s.Volumes().Round(exact.Of(1, 10)).String() + " vol"
}
