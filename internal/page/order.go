package page

import (
	"fmt"

	"plait/internal/amount"
	"plait/internal/derive"
	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/shade"
)

const (
	orderPage  = "order.html"
	orderTitle = "What to buy for the class"
)

// hasOrder reports whether the course says for how many heads to buy.
func (b *builder) hasOrder() bool { return b.course.Class.Heads.Set() }

// order makes the page of what the class of the course has to buy.
func (b *builder) order(out []byte) ([]byte, error) {
	class := b.course.Class
	o, err := b.derived.Order(b.course, b.course.Lessons, class.Heads.Value, b.waste())
	if err != nil {
		return nil, err
	}
	v := OrderView{
		Frame: b.frame(orderPage, "standing", orderTitle, "What a class needs to work the bowls of this course."),
		Lead: fmt.Sprintf("For %d heads, every bowl of the course once a head, with %s %% on top for waste. Packs are rounded up once, after all is added up.",
			o.Heads, o.Waste.Mul(exact.Int(100)).Decimal(1)),
	}
	var last *shade.Range
	for i, l := range o.Lines {
		if i == 0 || l.Range != last {
			v.Groups = append(v.Groups, OrderGroup{Title: rangeTitle(l.Range)})
			last = l.Range
		}
		g := &v.Groups[len(v.Groups)-1]
		g.Lines = append(g.Lines, orderRow(l))
	}
	for _, p := range o.Totals {
		v.Totals = append(v.Totals, spaced(p.String()))
	}
	for _, l := range o.Unpriced {
		v.Unpriced = append(v.Unpriced, l.Name())
	}
	return b.templates.page(out, "order", v)
}

func rangeTitle(r *shade.Range) string {
	if r == nil {
		return "Additives"
	}
	return r.Name
}

func orderRow(l derive.OrderLine) OrderRow {
	row := OrderRow{
		Name: spaced(l.Name()), Needed: grams(l.Needed), Spare: weightOrDash(l.Spare),
		Stock: weightOrDash(l.Stock), Buy: weightOrDash(l.Buy), Packs: "–", Cost: "–",
	}
	if l.Packs > 0 {
		row.Packs = fmt.Sprintf("%d × %s", l.Packs, grams(l.Pack.Size))
	}
	if l.Packs > 0 && l.Cost.Currency != "" {
		row.Cost = spaced(l.Cost.String())
	}
	return row
}

func weightOrDash(m measure.Mass) string {
	if m.IsZero() {
		return "–"
	}
	return grams(m)
}

// waste is what the course adds for waste, the usual share where it says none.
func (b *builder) waste() exact.Number {
	if w := b.course.Class.Waste; w.Set() {
		return w.Value
	}
	return amount.UsualWaste
}
