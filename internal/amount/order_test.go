package amount

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/peroxide"
	"plait/internal/shade"
)

var (
	natural   = Item{Range: "Meadow", Name: "6N"}
	ash       = Item{Range: "Meadow", Name: "7B"}
	developer = Item{Range: "Meadow", Name: "6 %"}
	cream     = Item{Name: "bond cream"}
)

func mass(t testing.TB, text string) measure.Mass {
	t.Helper()
	m, err := measure.ParseMass(text)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func pack(t testing.TB, size string, hundredths int64) shade.Pack {
	t.Helper()
	return shade.Pack{Size: mass(t, size), Price: shade.Price{Hundredths: hundredths, Currency: "GBP"}}
}

// classNeeds returns what heads of a bowl of one shade take.
func classNeeds(t testing.TB, heads int, mixed string, perColour exact.Number) []Need {
	t.Helper()
	b, err := mix.Compute(mix.Formula{
		Shades:     []mix.Shade{{Code: shade.Code{Text: "6N", Level: 6}, Share: exact.One}},
		Developers: []mix.Developer{{Strength: peroxide.Percent(exact.Int(6)), Share: exact.One}},
		Ratio:      measure.Ratio{Colour: exact.One, Developer: perColour},
		Size:       mass(t, mixed),
		SizeOf:     mix.OfMixed,
	}, mass(t, "0.1 g"))
	if err != nil {
		t.Fatal(err)
	}
	return NeedsOf("Meadow", b, heads)
}

// expectLine holds one line: needed, spare, to buy, packs and what is left.
func expectLine(t *testing.T, l Line, item Item, needed, spare, buy string, packs int64, left string) {
	t.Helper()
	if l.Item != item || l.Needed.Cmp(mass(t, needed)) != 0 || l.Spare.Cmp(mass(t, spare)) != 0 || l.Buy.Cmp(mass(t, buy)) != 0 || l.Packs != packs || l.Left.Cmp(mass(t, left)) != 0 {
		t.Errorf("%s: needed %s, spare %s, buy %s in %d packs, left %s; want %s: %s, %s, %s in %d, %s",
			l.Item, l.Needed, l.Spare, l.Buy, l.Packs, l.Left, item, needed, spare, buy, packs, left)
	}
}

// Derived: heads times the weight of each, and waste on top; packs rounded up.
func TestPlanForAClass(t *testing.T) {
	packs := map[Item]shade.Pack{natural: pack(t, "60 g", 790), developer: pack(t, "1000 g", 950)}
	lines, err := Plan(classNeeds(t, 12, "60 g", exact.Of(3, 2)), packs, nil, exact.Of(10, 100))
	if err != nil {
		t.Fatal(err)
	}
	expectLine(t, lines[0], natural, "288 g", "28.8 g", "316.8 g", 6, "43.2 g")
	expectLine(t, lines[1], developer, "432 g", "43.2 g", "475.2 g", 1, "524.8 g")
	if total, unpriced := Cost(lines); total.String() != "56.90 GBP" || unpriced != nil {
		t.Errorf("the class costs %s, without %v; want 56.90 GBP", total, unpriced)
	}

	lines, err = Plan(classNeeds(t, 8, "100 g", exact.Int(2)), map[Item]shade.Pack{natural: pack(t, "100 g", 0)}, nil, exact.Of(5, 100))
	if err != nil {
		t.Fatal(err)
	}
	expectLine(t, lines[0], natural, "800/3 g", "40/3 g", "280 g", 3, "20 g")
	expectLine(t, lines[1], developer, "1600/3 g", "80/3 g", "560 g", 0, "0 g")
	if _, unpriced := Cost(lines); len(unpriced) != 1 || unpriced[0] != developer {
		t.Errorf("without a price: %v, want %v", unpriced, developer)
	}
}

// Packs are rounded up after the heads are summed: three heads of 20 g are one tube.
func TestPlanSumsBeforeRounding(t *testing.T) {
	needs := []Need{{natural, mass(t, "20 g")}, {ash, mass(t, "61 g")}, {natural, mass(t, "20 g")}, {natural, mass(t, "20 g")}, {cream, mass(t, "3 g")}}
	packs := map[Item]shade.Pack{natural: pack(t, "60 g", 790), ash: pack(t, "60 g", 790)}
	lines, err := Plan(needs, packs, nil, exact.Zero)
	if err != nil {
		t.Fatal(err)
	}
	expectLine(t, lines[0], natural, "60 g", "0 g", "60 g", 1, "0 g")
	expectLine(t, lines[1], ash, "61 g", "0 g", "61 g", 2, "59 g")
	expectLine(t, lines[2], cream, "3 g", "0 g", "3 g", 0, "0 g")
}

func TestPlanTakesFromStock(t *testing.T) {
	needs := []Need{{natural, mass(t, "100 g")}}
	packs := map[Item]shade.Pack{natural: pack(t, "60 g", 790)}
	expect := func(stock, buy string, packCount int64, left string) {
		t.Helper()
		lines, err := Plan(needs, packs, map[Item]measure.Mass{natural: mass(t, stock)}, UsualWaste)
		if err != nil {
			t.Fatal(err)
		}
		expectLine(t, lines[0], natural, "100 g", "10 g", buy, packCount, left)
	}
	expect("0 g", "110 g", 2, "10 g")
	expect("50 g", "60 g", 1, "0 g")
	expect("49.9 g", "60.1 g", 2, "59.9 g")
	expect("110 g", "0 g", 0, "0 g")
	expect("150 g", "0 g", 0, "40 g")
}

func TestPlanRefuses(t *testing.T) {
	needs := []Need{{natural, mass(t, "100 g")}, {ash, mass(t, "50 g")}}
	packs := func(size string, currency string) map[Item]shade.Pack {
		p := pack(t, size, 100)
		p.Price.Currency = currency
		return map[Item]shade.Pack{natural: pack(t, "60 g", 790), ash: p}
	}
	less := measure.Grams(exact.Int(-1))
	expect := func(err error, words ...string) {
		t.Helper()
		for _, w := range words {
			if err == nil || !strings.Contains(err.Error(), w) {
				t.Errorf("got %v, want %q", err, w)
			}
		}
	}
	_, err := Plan(needs, packs("0 g", "GBP"), nil, UsualWaste)
	expect(err, "Meadow 7B", "packs of nothing")

	lines, err := Plan(needs, packs("60 g", "EUR"), nil, UsualWaste)
	expect(err, "one currency", "Meadow 6N is priced in GBP and Meadow 7B in EUR")
	if !errors.Is(err, ErrCurrency) || lines != nil {
		t.Errorf("got %d lines beside %v", len(lines), err)
	}

	_, err = Plan([]Need{{natural, less}}, nil, nil, UsualWaste)
	expect(err, "-1 g of Meadow 6N", "less than nothing")

	_, err = Plan(needs, nil, map[Item]measure.Mass{ash: less}, UsualWaste)
	expect(err, "a stock of -1 g of Meadow 7B")

	_, err = Plan(needs, nil, nil, exact.Int(-1))
	expect(err, "waste")

	_, err = Plan(needs, packs("0.000001 kg", "GBP"), nil, UsualWaste)
	if err != nil {
		t.Errorf("packs of a milligram: %v", err)
	}
	_, err = Plan([]Need{{ash, mass(t, "999 kg")}}, packs("0.01 g", "GBP"), nil, UsualWaste)
	expect(err, "more than an order holds")
}

// What is bought and in stock covers need and waste, by less than one pack to spare
// where anything is bought, and stock only saves.
func TestPlanProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tenths := func(most int64, label string) measure.Mass {
			return measure.Grams(exact.Of(rapid.Int64Range(0, most).Draw(t, label), 10))
		}
		needs := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Need {
			item := rapid.SampledFrom([]Item{natural, ash, developer}).Draw(t, "item")
			return Need{item, measure.Grams(exact.Of(rapid.Int64Range(0, 3000).Draw(t, "mass"), 7))}
		}), 1, 12).Draw(t, "needs")
		size := tenths(1000, "pack").Add(measure.Grams(exact.One))
		packs := map[Item]shade.Pack{natural: {Size: size}, ash: {Size: size}}
		stock := map[Item]measure.Mass{natural: tenths(4000, "stock"), developer: tenths(4000, "stock")}
		lines, err := Plan(needs, packs, stock, exact.Of(rapid.Int64Range(0, 30).Draw(t, "waste"), 100))
		if err != nil {
			t.Fatal(err)
		}
		var needed, found measure.Mass
		for _, n := range needs {
			needed = needed.Add(n.Mass)
		}
		for _, l := range lines {
			found = found.Add(l.Needed)
			bought := l.Buy
			if !l.Pack.Size.IsZero() {
				bought = l.Pack.Size.Times(exact.Int(l.Packs))
			}
			if got := bought.Add(l.Stock).Sub(l.Needed).Sub(l.Spare); got.Cmp(l.Left) != 0 || l.Left.Grams().Sign() < 0 {
				t.Fatalf("%s: left %s, want %s", l.Item, l.Left, got)
			}
			if l.Packs > 0 && l.Left.Cmp(l.Pack.Size) >= 0 {
				t.Fatalf("%s: %d packs of %s leave %s", l.Item, l.Packs, l.Pack.Size, l.Left)
			}
		}
		if needed.Cmp(found) != 0 {
			t.Fatalf("%s is needed and %s is on the lines", needed, found)
		}
	})
}

func ExamplePlan() {
	tube := shade.Pack{Size: measure.Grams(exact.Int(60)), Price: shade.Price{Hundredths: 790, Currency: "GBP"}}
	six := Item{Range: "Meadow", Name: "6N"}
	lines, err := Plan(
		[]Need{{six, measure.Grams(exact.Int(288))}},
		map[Item]shade.Pack{six: tube},
		map[Item]measure.Mass{six: measure.Grams(exact.Int(45))},
		UsualWaste,
	)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, l := range lines {
		fmt.Println(l.Item, "needs", l.Needed, "and", l.Spare, "spare: buy", l.Packs, "for", l.Cost)
	}
	// Output:
	// Meadow 6N needs 288 g and 28.8 g spare: buy 5 for 39.50 GBP
}
