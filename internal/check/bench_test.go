package check

import (
	"testing"

	"plait/internal/derive"
)

// One bowl of two shades with everything said, computed and held against all rules.
func BenchmarkFormula(b *testing.B) {
	c, d, _ := read(b, testCourse(Block, "kind: demi\ncolour: 2 parts 8N (20 g) + 1 part 8V (10 g)\ndeveloper: 60 g of 6 vol\n"+
		"ratio: 1:2\namount: 30 g colour\ntime: 15 min from last section\nhair: 8 lightened\ntarget: 8 cool\n"+
		"strength: 1.2 %\nlevel: 8\nmixed: 90 g"))
	block, rng := d.Formulas[0].Block, d.Formulas[0].Range
	b.ReportAllocs()
	for b.Loop() {
		computed, faults := derive.Bowl(block, rng, c.Scale)
		if found := Bowl(c, block, computed); len(found)+len(faults) > 0 {
			b.Fatalf("%v %v", faults, found)
		}
	}
}
