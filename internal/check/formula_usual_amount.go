package check

import (
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/measure"
)

// A bowl is remarkable where it is more than twice the most that its hair usually
// takes, or, on the whole head, less than half the least.
var (
	farAbove = exact.Int(2)
	farBelow = exact.Half
)

var formulaUsualAmount = Rule{
	ID:    "formula/usual-amount",
	Title: "the bowl is about as large as such a head takes",
	Why: "A bowl of several times the usual size is mostly thrown away, and usually a slip: the weight of the colour written for " +
		"that of the bowl, or grams for two heads. One far too small is stretched, and stretched colour takes in patches.",
	Source: "common practice, no source; a committee of the European Union reckons with 100 g of mixed product on a head " +
		"(SCCP opinion on toluene-2,5-diamine, 2 October 2007)",
	Severity: diag.Note,
	Of:       Lesson,
	Before:   wholeHead("{roots: 6 natural, length: shoulder, density: medium}", "120 g colour"),
	After:    wholeHead("{roots: 6 natural, length: shoulder, density: medium}", "45 g colour"),
	Since:    "1.0",
	Formula: func(p *Pass, f *derive.Formula) {
		usual, ok := f.Usual()
		if !ok {
			return
		}
		mixed := f.Bowl.Mixed
		tooMuch := mixed.Cmp(usual.Most.Times(farAbove)) > 0
		tooLittle := usual.Whole && mixed.Cmp(usual.Least.Times(farBelow)) < 0
		if !tooMuch && !tooLittle {
			return
		}
		at := f.Span
		if f.Amount.Span.Valid() {
			at = f.Amount.Span
		}
		p.Reportf(at, "look whether the grams are meant for the colour or for the whole bowl, and for how many heads",
			"%s are mixed, and such hair usually takes %s", mixed, estimateString(usual.Least, usual.Most))
	},
}

// estimateString prints an estimate, "100 to 120 g".
func estimateString(least, most measure.Mass) string {
	if least.Cmp(most) == 0 {
		return "about " + most.String()
	}
	return least.Grams().Decimal(0) + " to " + most.Grams().Decimal(0) + " g"
}
