package derive

import (
	"cmp"
	"slices"

	"plait/internal/amount"
	"plait/internal/course"
	"plait/internal/exact"
	"plait/internal/lesson"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/peroxide"
	"plait/internal/shade"
)

// Order is what to buy so that a class can work the bowls of some lessons, each bowl
// once for each head.
type Order struct {
	Heads    int
	Waste    exact.Number     // on top, a fraction of one
	Lessons  []*lesson.Lesson // whose bowls are counted
	Lines    []OrderLine      // by range, shade in the maker's order, and strength; additives last
	Totals   []shade.Price    // one for each currency
	Unpriced []OrderLine      // what is to be bought and has no price
}

// OrderLine is a line of an order with what it is.
type OrderLine struct {
	amount.Line
	Range    *shade.Range // nil for an additive
	Role     mix.Role
	Strength peroxide.Strength // of a developer
}

// Name returns what to ask for: "8V", "6 vol (1.8 %)".
func (l OrderLine) Name() string {
	if l.Role == mix.DeveloperRole {
		return l.Strength.Name() + " (" + l.Strength.Other() + ")"
	}
	return l.Item.Name
}

// Order returns what to buy for a number of heads, with a share of waste on top and
// less what is in the house. Weights are exact; packs are rounded up once, after
// everything of an item is summed. It fails for an order that is too large to count.
func (d *Derived) Order(c *course.Course, lessons []*lesson.Lesson, heads int, waste exact.Number) (*Order, error) {
	o := &Order{Heads: heads, Waste: waste}
	g := gathering{items: map[amount.Item]OrderLine{}}
	for _, l := range lessons {
		if g.lesson(d, l, heads) {
			o.Lessons = append(o.Lessons, l)
		}
	}
	stock := map[amount.Item]measure.Mass{}
	for _, s := range c.Stock {
		stock[s.Item] = s.Mass
	}
	for _, r := range c.Ranges {
		if err := o.add(g.of(r.Range), stock); err != nil {
			return nil, err
		}
	}
	return o, o.add(g.of(nil), stock)
}

// gathering is what some lessons need, with what each item is.
type gathering struct {
	needs []amount.Need
	items map[amount.Item]OrderLine
}

// lesson adds what the bowls of a lesson need, and reports whether it has any.
func (g *gathering) lesson(d *Derived, l *lesson.Lesson, heads int) bool {
	any := false
	for _, f := range l.Formulas {
		of := d.Of(f)
		if of == nil || !of.OK || of.Range == nil {
			continue
		}
		any = true
		for i, n := range amount.NeedsOf(of.Range.ID, of.Bowl, heads) {
			part := of.Bowl.Parts[i]
			line := OrderLine{Range: of.Range, Role: part.Role, Strength: part.Strength}
			switch part.Role {
			case mix.ColourRole:
				line.Range = of.RangeOf(part.Shade)
			case mix.AdditiveRole:
				line.Range = nil
			}
			g.items[n.Item] = line
			g.needs = append(g.needs, n)
		}
	}
	return any
}

// rangeNeeds is what is needed of one range, or of additives where it is nil.
type rangeNeeds struct {
	gathering
	rng *shade.Range
}

// of returns what is needed of a range, in the order in which it is listed.
func (g *gathering) of(rng *shade.Range) rangeNeeds {
	out := rangeNeeds{gathering{items: g.items}, rng}
	for _, n := range g.needs {
		if g.items[n.Item].Range == rng {
			out.needs = append(out.needs, n)
		}
	}
	slices.SortStableFunc(out.needs, out.compare)
	return out
}

func (n rangeNeeds) compare(a, b amount.Need) int {
	x, y := n.items[a.Item], n.items[b.Item]
	return cmp.Or(
		cmp.Compare(x.Role, y.Role),
		x.Strength.Cmp(y.Strength),
		cmp.Compare(n.place(x, a.Item), n.place(y, b.Item)),
		cmp.Compare(a.Item.Name, b.Item.Name),
	)
}

// place returns where the maker lists a shade.
func (n rangeNeeds) place(l OrderLine, item amount.Item) int {
	if l.Role != mix.ColourRole {
		return 0
	}
	return slices.Index(n.rng.Shades, item.Name)
}

// packs returns what the items are sold in, as far as the range tells.
func (n rangeNeeds) packs() map[amount.Item]shade.Pack {
	out := map[amount.Item]shade.Pack{}
	if n.rng == nil {
		return out
	}
	for _, need := range n.needs {
		pack := n.rng.Colour
		switch {
		case n.items[need.Item].Role == mix.DeveloperRole:
			pack = n.rng.Developer
		case slices.Contains(n.rng.Grammar.Powder, need.Item.Name):
			pack = n.rng.Powder
		}
		if !pack.Size.IsZero() {
			out[need.Item] = pack
		}
	}
	return out
}

// add plans the order of one range. Ranges are planned apart because each has a
// currency of its own.
func (o *Order) add(n rangeNeeds, stock map[amount.Item]measure.Mass) error {
	lines, err := amount.Plan(n.needs, n.packs(), stock, o.Waste)
	if err != nil {
		return err
	}
	for _, l := range lines {
		line := n.items[l.Item]
		line.Line = l
		o.Lines = append(o.Lines, line)
		if l.Cost.Currency == "" && !l.Buy.IsZero() {
			o.Unpriced = append(o.Unpriced, line)
		}
	}
	o.addTotal(lines)
	return nil
}

func (o *Order) addTotal(lines []amount.Line) {
	cost, _ := amount.Cost(lines)
	if cost.Currency == "" {
		return
	}
	for i := range o.Totals {
		if o.Totals[i].Currency == cost.Currency {
			o.Totals[i].Hundredths += cost.Hundredths
			return
		}
	}
	o.Totals = append(o.Totals, cost)
}
