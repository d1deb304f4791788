package amount

import (
	"cmp"
	"errors"
	"fmt"

	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/peroxide"
	"plait/internal/shade"
)

// Item is something to buy: a shade of a range, or a developer of one strength.
type Item struct {
	Range string // "" for what belongs to none
	Name  string
}

// String prints the item, "Meadow 6N".
func (i Item) String() string {
	if i.Range == "" {
		return i.Name
	}
	return i.Range + " " + i.Name
}

// DeveloperItem returns the developer of a range and a strength as something to buy.
// It is named by its per cent: volumes have two readings, per cent has one.
func DeveloperItem(rangeName string, s peroxide.Strength) Item {
	return Item{Range: rangeName, Name: s.String()}
}

// Need is a weight of an item that some work takes.
type Need struct {
	Item Item
	Mass measure.Mass
}

// NeedsOf returns what a bowl takes, mixed once for each of a number of heads; shades
// that are of another range are taken from there. Its
// exact weights count, because what is lost to a scale is part of the waste.
func NeedsOf(rangeName string, b mix.Bowl, heads int) []Need {
	needs := make([]Need, len(b.Parts))
	for i, p := range b.Parts {
		item := Item{Range: rangeName, Name: p.Name}
		switch p.Role {
		case mix.ColourRole:
			item.Range = cmp.Or(p.Shade.Range, rangeName)
		case mix.AdditiveRole:
			item.Range = ""
		case mix.DeveloperRole:
			item = DeveloperItem(rangeName, p.Strength)
		}
		needs[i] = Need{Item: item, Mass: p.Exact.Times(exact.Int(int64(heads)))}
	}
	return needs
}

// UsualWaste is the share that is reckoned on top for what stays in bowls and tubes
// (common practice).
var UsualWaste = exact.Of(10, 100)

// ParseWaste reads a share of waste, "10 %", as a fraction of one. More than as much
// again as is needed is refused as a slip.
func ParseWaste(s string) (exact.Number, error) {
	waste, err := measure.ParsePercent(s)
	if err == nil && exact.One.Less(waste) {
		return exact.Zero, fmt.Errorf("a waste of %s is more than all of it; write the share on top, as in 10 %%", s)
	}
	return waste, err
}

// Line is one line of an order.
type Line struct {
	Item   Item
	Needed measure.Mass // what the work takes
	Spare  measure.Mass // on top, for waste
	Stock  measure.Mass // in the house already
	Buy    measure.Mass // what is missing
	Pack   shade.Pack   // zero where it is not known
	Packs  int64        // how many to buy; 0 where the pack is not known
	Cost   shade.Price  // of the packs; none where the price is not known
	Left   measure.Mass // what remains when need and spare are used up
}

// Errors of [Plan] that concern no item.
var (
	ErrWaste    = errors.New("waste cannot be less than nothing")
	ErrCurrency = errors.New("an order has one currency")
)

// Plan returns what to buy, a line for each item in the order in which the items
// are first needed:
//
//	buy = Σ needs · (1 + waste) − stock, at least nothing,
//
// in packs rounded up, once for each item and never for each head. An item whose
// pack is not known gets grams alone.
//
// It fails for a need, a stock or a waste below nothing, a pack of nothing, and
// prices in two currencies.
func Plan(needs []Need, packs map[Item]shade.Pack, stock map[Item]measure.Mass, waste exact.Number) ([]Line, error) {
	if waste.Sign() < 0 {
		return nil, ErrWaste
	}
	lines, err := sum(needs)
	if err != nil {
		return nil, err
	}
	for i := range lines {
		l := &lines[i]
		pack, known := packs[l.Item]
		if known && pack.Size.Grams().Sign() <= 0 {
			return nil, fmt.Errorf("%s comes in packs of nothing; write what a pack holds, as in 60 g", l.Item)
		}
		l.Pack, l.Stock = pack, stock[l.Item]
		if err := l.fill(waste); err != nil {
			return nil, err
		}
	}
	if err := oneCurrency(lines); err != nil {
		return nil, err
	}
	return lines, nil
}

// sum adds up the needs of each item.
func sum(needs []Need) ([]Line, error) {
	var lines []Line
	at := map[Item]int{}
	for _, n := range needs {
		if n.Mass.Grams().Sign() < 0 {
			return nil, fmt.Errorf("%s of %s is less than nothing", n.Mass, n.Item)
		}
		i, seen := at[n.Item]
		if !seen {
			i = len(lines)
			at[n.Item] = i
			lines = append(lines, Line{Item: n.Item})
		}
		lines[i].Needed = lines[i].Needed.Add(n.Mass)
	}
	return lines, nil
}

// mostPacks bounds a line of an order, so that its cost can be counted.
const mostPacks = 1_000_000

// fill works out what to buy from what is needed, in stock and in a pack.
func (l *Line) fill(waste exact.Number) error {
	if l.Stock.Grams().Sign() < 0 {
		return fmt.Errorf("a stock of %s of %s is less than nothing", l.Stock, l.Item)
	}
	l.Spare = l.Needed.Times(waste)
	missing := l.Needed.Add(l.Spare).Sub(l.Stock)
	l.Buy = missing.Max(measure.Mass{})
	bought := l.Buy
	if !l.Pack.Size.IsZero() {
		packs, ok := l.Buy.Per(l.Pack.Size).Ceil(exact.One).Int64()
		if !ok || packs > mostPacks {
			return fmt.Errorf("%s of %s in packs of %s is more than an order holds", l.Buy, l.Item, l.Pack.Size)
		}
		l.Packs, bought = packs, l.Pack.Size.Times(exact.Int(packs))
		l.Cost = shade.Price{Hundredths: packs * l.Pack.Price.Hundredths, Currency: l.Pack.Price.Currency}
	}
	l.Left = bought.Sub(missing)
	return nil
}

// oneCurrency holds that all prices can be added up.
func oneCurrency(lines []Line) error {
	var first Line
	for _, l := range lines {
		currency := l.Pack.Price.Currency
		switch {
		case currency == "":
		case first.Pack.Price.Currency == "":
			first = l
		case currency != first.Pack.Price.Currency:
			return fmt.Errorf("%w: %s is priced in %s and %s in %s",
				ErrCurrency, first.Item, first.Pack.Price.Currency, l.Item, currency)
		}
	}
	return nil
}

// Cost returns the cost of all lines that have a price, and the items to buy that
// have none.
func Cost(lines []Line) (total shade.Price, unpriced []Item) {
	for _, l := range lines {
		switch {
		case l.Cost.Currency != "":
			total.Hundredths += l.Cost.Hundredths
			total.Currency = l.Cost.Currency
		case !l.Buy.IsZero():
			unpriced = append(unpriced, l.Item)
		}
	}
	return total, unpriced
}
