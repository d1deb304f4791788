package derive_test

import (
	"fmt"
	"testing"

	"plait/internal/derive"
	"plait/internal/exact"
	"plait/internal/source"
)

func text(s string) source.Text {
	return source.Text{Value: s, Span: source.NewFile("value", []byte(s)).Whole()}
}

func order(t *testing.T, settings string, heads int, waste exact.Number, bowls ...[2]string) *derive.Order {
	t.Helper()
	c, d, found := recompute(t, settings, "", bowls...)
	expectFine(t, found)
	o, err := d.Order(c, c.Lessons, heads, waste)
	if err != nil {
		t.Fatal(err)
	}
	return o
}

func expectLines(t *testing.T, o *derive.Order, want ...string) {
	t.Helper()
	if len(o.Lines) != len(want) {
		t.Fatalf("got %d lines, want %d: %v", len(o.Lines), len(want), o.Lines)
	}
	for i, l := range o.Lines {
		got := fmt.Sprintf("%s: buy %s, %d packs, %s", l.Name(), l.Buy, l.Packs, l.Cost)
		if got != want[i] {
			t.Errorf("got %q, want %q", got, want[i])
		}
	}
}

// Worked problems: 12 students with 60 g of mix each at 1:1.5 and 10 % of waste take
// 24 × 12 × 1.1 = 316.8 g of colour and 36 × 12 × 1.1 = 475.2 g of developer, 6 tubes
// of 60 g and 1 bottle of 1000 g. 8 heads at 100 g, 1:2, 5 % take 8 × 33.33 × 1.05 =
// 280 g of colour, 3 tubes of 100 g, and 560 g of developer.
func TestOrderForAClass(t *testing.T) {
	o := order(t, "", 12, exact.Of(10, 100),
		[2]string{"cover", "range: meadow\nkind: permanent\ncolour: 6N\ndeveloper: 20 vol\nratio: 1:1.5\namount: 60 g mixed"})
	expectLines(t, o, "6N: buy 316.8 g, 6 packs, 47.40 GBP", "20 vol (6 %): buy 475.2 g, 1 packs, 9.50 GBP")

	o = order(t, "", 8, exact.Of(5, 100),
		[2]string{"cover", "range: shore\nkind: permanent\ncolour: 6N\ndeveloper: 20 vol\nratio: 1:2\namount: 100 g mixed"})
	expectLines(t, o, "6N: buy 280 g, 3 packs, 27.00 EUR", "20 vol (6 %): buy 560 g, 1 packs, ")
}

// Packs are rounded up once, after all bowls are summed; what is in the house comes
// off. Derived by addition.
func TestOrderSumsBowls(t *testing.T) {
	bowls := [][2]string{
		{"one", "range: meadow\nkind: permanent\ncolour: 10 g 8V + 10 g 6N\nadd: 2 g bond cream\ndeveloper: 20 vol\nratio: 1:1"},
		{"two", "range: meadow\nkind: permanent\ncolour: 20 g 6N\ndeveloper: 10 vol\nratio: 1:1"},
		{"three", "range: shore\nkind: permanent\ncolour: 20 g 6N\ndeveloper: 10 vol\nratio: 1:1"},
	}
	o := order(t, "stock: {meadow: {6N: 5 g, 6 %: 90 g}, bond cream: 1 g}\n", 2, exact.Zero, bowls...)
	expectLines(t, o,
		"6N: buy 55 g, 1 packs, 7.90 GBP",
		"8V: buy 20 g, 1 packs, 7.90 GBP",
		"10 vol (3 %): buy 40 g, 1 packs, 9.50 GBP",
		"20 vol (6 %): buy 0 g, 0 packs, 0.00 GBP",
		"6N: buy 40 g, 1 packs, 9.00 EUR",
		"10 vol (3 %): buy 40 g, 1 packs, ",
		"bond cream: buy 3 g, 0 packs, ",
	)
	if got := fmt.Sprint(o.Totals); got != "[25.30 GBP 9.00 EUR]" {
		t.Errorf("totals %s", got)
	}
	if len(o.Unpriced) != 2 || o.Unpriced[0].Range.Name != "Shore" || o.Unpriced[1].Name() != "bond cream" {
		t.Errorf("without a price: %v", o.Unpriced)
	}
}

func TestStockFaults(t *testing.T) {
	expect := func(settings, at, message string) {
		t.Helper()
		_, _, found := recompute(t, settings, "", [2]string{"cover", "range: meadow\n" + "kind: permanent\ncolour: 20 g 6N\ndeveloper: 20 vol"})
		expectFault(t, found, at, message)
	}
	expect("stock: {medow: {6N: 5 g}}", "medow", `no range "medow"`)
	expect("stock: {meadow: {6Z: 5 g}}", "6Z", "neither a shade of Meadow nor the strength of a developer")
	expect("stock: {meadow: {6N: 5}}", "5", "no unit")
	expect("stock: {meadow: {6N: -5 g}}", "-5 g", "negative")
	expect("stock: {meadow: {6 vol: 5 g, 1.8 %: 5 g}}", "1.8 %", "in stock twice")
	expect("class: {heads: 0}", "0", "whole number from 1 to 1000")
	expect("class: {heads: 12, waste: 10}", "10", "is not a share")
	expect("class: {waste: 110 %}", "110 %", "more than all of it")
}

func TestUsualAmount(t *testing.T) {
	expect := func(hair, on, want string) {
		t.Helper()
		_, d, found := recompute(t, "", "hair: "+hair+"\n",
			[2]string{"cover", "on: [\"" + on + "\"]\nrange: meadow\nkind: permanent\ncolour: 20 g 6N\ndeveloper: 20 vol"})
		expectFine(t, found)
		got := "unknown"
		if usual, ok := d.Formulas[0].Usual(); ok {
			got = fmt.Sprintf("%s to %s, whole %t", usual.Least, usual.Most, usual.Whole)
		}
		if got != want {
			t.Errorf("%s on %s: %s, want %s", hair, on, got, want)
		}
	}
	// Common practice, no source.
	expect("{length: shoulder, density: medium}", "whole head, temples first", "100 g to 120 g, whole true")
	expect("{length: shoulder, density: dense}", "the lengths", "125 g to 150 g, whole false")
	expect("{length: shoulder, porous: yes}", "all over", "120 g to 144 g, whole true")
	expect("{length: mid-back}", "regrowth", "40 g to 60 g, whole false")
	expect("{density: medium}", "whole head", "unknown")
	expect("{length: shoulder}", "fringe", "unknown")
}

func TestHairWords(t *testing.T) {
	expect := func(hair, at, message string) {
		t.Helper()
		_, _, found := recompute(t, "", "hair: "+hair+"\n")
		expectFault(t, found, at, message)
	}
	expect("{length: sholder}", "sholder", `"sholder" is no length of hair`)
	expect("{density: thick}", "thick", `"thick" is no density of hair`)
	expect("{porous: very}", "very", "want yes or no")
}

func TestChairClaim(t *testing.T) {
	c, _, found := recompute(t, "", "chair: 60-65 min\n")
	expectFine(t, found)
	if got := c.Lessons[0].Chair.Value.String(); got != "60-65 min" {
		t.Errorf("chair %s", got)
	}
	_, _, found = recompute(t, "", "chair: 65\n")
	expectFault(t, found, "65", "no unit of time")
	_, _, found = recompute(t, "", "chair: 0 min\n")
	expectFault(t, found, "0 min", "no time in the chair")
	_, _, found = recompute(t, "", "chair: -5 min\n")
	expectFault(t, found, "-5 min", "negative")
}

// A bowl with shades of two ranges takes each from its own, and the developer from the
// bowl's. Derived by multiplication.
func TestOrderOfTwoRangesInOneBowl(t *testing.T) {
	o := order(t, "", 10, exact.Zero,
		[2]string{"mixed", "range: meadow\nkind: permanent\ncolour: 20 g 8V + 10 g 7N of shore\ndeveloper: 20 vol\nratio: 1:1"})
	expectLines(t, o, "8V: buy 200 g, 4 packs, 31.60 GBP", "20 vol (6 %): buy 300 g, 1 packs, 9.50 GBP", "7N: buy 100 g, 1 packs, 9.00 EUR")
	if o.Lines[2].Range.ID != "shore" || len(o.Totals) != 2 {
		t.Errorf("7N is of %s, and the totals are %v", o.Lines[2].Range.ID, o.Totals)
	}
}

// Powder lightener is bought by its own tub and not by the tube. Derived by
// multiplication: 12 heads of 40 g take 480 g, two tubs of 400 g.
func TestOrderOfPowder(t *testing.T) {
	o := order(t, "", 12, exact.Zero,
		[2]string{"lighten", "range: meadow\nkind: lightener\ncolour: 40 g PW\ndeveloper: 20 vol\nratio: 1:2"})
	expectLines(t, o, "PW: buy 480 g, 2 packs, 40.00 GBP", "20 vol (6 %): buy 960 g, 1 packs, 9.50 GBP")
}
