package course

import (
	"slices"

	"plait/internal/amount"
	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/peroxide"
	"plait/internal/shade"
	"plait/internal/source"
	"plait/internal/yamlpos"
)

// Class is who a course is taught to at once: what has to be bought follows from it.
type Class struct {
	Heads source.Stated[int]          // on each of which every bowl is mixed once
	Waste source.Stated[exact.Number] // on top, a fraction of one
}

// MostHeads bounds a class.
const MostHeads = 1000

// Stocked is something that is in the house already.
type Stocked struct {
	Range source.Text // the name of its range; empty for an additive
	Name  source.Text // a shade, the strength of a developer or an additive
	Mass  measure.Mass
	Item  amount.Item // what it is in an order, set where the course is linked
}

func (s *Settings) readClass(node *yamlpos.Node, r *yamlpos.Reader) {
	if node == nil {
		return
	}
	f := r.Fields(node, "`class`", "heads", "waste")
	if heads, ok := f.Whole("heads", 1, MostHeads); ok {
		s.Class.Heads = source.Stated[int]{Value: heads, Span: f.Node("heads").Span}
	}
	if t, ok := f.Text("waste"); ok {
		waste, err := amount.ParseWaste(t.Value)
		if err != nil {
			r.Report(diag.FromError("course/class", t.Span, err))
			return
		}
		s.Class.Waste = source.Stated[exact.Number]{Value: waste, Span: t.Span}
	}
}

// readStock reads what is in the house: a map for each range, and additives by
// their names.
func (s *Settings) readStock(pairs []yamlpos.Pair, r *yamlpos.Reader) {
	for _, p := range pairs {
		if p.Value != nil && p.Value.Kind == yamlpos.Scalar {
			s.readStocked(source.Text{}, p, r)
			continue
		}
		for _, item := range r.Entries(p.Value, "the stock of "+p.Key.Value) {
			s.readStocked(p.Key, item, r)
		}
	}
}

func (s *Settings) readStocked(rng source.Text, p yamlpos.Pair, r *yamlpos.Reader) {
	t, ok := r.Text(p.Value, "the stock of "+p.Key.Value)
	if !ok {
		return
	}
	m, err := measure.ParseMass(t.Value)
	if err != nil {
		r.Report(diag.FromError("course/stock", t.Span, err))
		return
	}
	s.Stock = append(s.Stock, Stocked{Range: rng, Name: p.Key, Mass: m})
}

// stock finds out what each thing in the house is, and reports what no order could
// ever use.
func (k *linker) stock() {
	first := map[amount.Item]source.Span{}
	stock := slices.Clone(k.Stock)
	for i := range stock {
		s := &stock[i]
		k.knownRange(s.Range)
		if s.Range.Value != "" && findRange(k.Ranges, s.Range.Value) == nil {
			continue
		}
		item, ok := k.item(s)
		if !ok {
			continue
		}
		if at, twice := first[item]; twice {
			k.report(diag.Errorf("course/stock", s.Name.Span, "%s is in stock twice", s.Name.Value).
				WithNote(at, "first here").WithHelp("add the two up"))
			continue
		}
		first[item] = s.Name.Span
		s.Item = item
	}
	k.Stock = stock
}

// item returns what something in stock is in an order.
func (k *linker) item(s *Stocked) (amount.Item, bool) {
	if s.Range.Value == "" {
		return amount.Item{Name: s.Name.Value}, true
	}
	rng := findRange(k.Ranges, s.Range.Value).Range
	if code, err := rng.Find(s.Name.Value); err == nil {
		return amount.Item{Range: rng.ID, Name: code.Text}, true
	}
	if strength, err := peroxide.Parse(s.Name.Value); err == nil {
		return amount.DeveloperItem(rng.ID, strength), true
	}
	k.report(diag.Errorf("course/stock", s.Name.Span, "%q is neither a shade of %s nor the strength of a developer", s.Name.Value, rng.Name).
		WithHelp("%s", stockHelp(s.Name.Value, rng)))
	return amount.Item{}, false
}

func stockHelp(name string, rng *shade.Range) string {
	if near := diag.DidYouMean(name, rng.Shades); near != "" {
		return "did you mean " + near + "?"
	}
	return "write a shade as the range does, or a strength such as 6 vol; what belongs to no range stands beside the ranges"
}
