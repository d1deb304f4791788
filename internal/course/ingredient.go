package course

import (
	"strings"

	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/law"
	"plait/internal/measure"
	"plait/internal/shade"
	"plait/internal/source"
	"plait/internal/yamlpos"
)

// ingredients reads what the law limits in the maker's colours: the share in the
// tube, the limit after mixing, a group that shares one limit, and the day the limit
// was checked where that is not the range's own.
func (r *rangeReader) ingredients(pairs []yamlpos.Pair) {
	for _, p := range pairs {
		f := r.Fields(p.Value, "an ingredient", "content", "limit", "group", "checked")
		i := shade.Ingredient{Name: p.Key.Value, Checked: r.out.Checked}
		content, ok := f.Need("content")
		if !ok {
			continue
		}
		i.Content, ok = r.share(content)
		if !ok || !r.limit(f, &i, p.Key) {
			continue
		}
		if t, ok := f.Text("group"); ok {
			i.Group = t.Value
		}
		if t, ok := f.Text("checked"); ok {
			i.Checked = r.date(t)
		}
		r.out.Ingredients = append(r.out.Ingredients, i)
	}
}

// share reads a share of more than nothing and at most all.
func (r *rangeReader) share(t source.Text) (exact.Number, bool) {
	n, err := measure.ParsePercent(t.Value)
	switch {
	case err != nil:
		r.Report(diag.FromError("range/ingredient", t.Span, err))
		return n, false
	case n.IsZero() || exact.One.Less(n):
		r.errorf("range/ingredient", t.Span, "write the share as the maker's papers give it, as in 1.8 %", "%s is no share of a colour", t.Value)
		return n, false
	}
	return n, true
}

// limit reads the limit of an ingredient; where none is given the law's holds.
func (r *rangeReader) limit(f *yamlpos.Fields, i *shade.Ingredient, name source.Text) bool {
	t, stated := f.Text("limit")
	if stated {
		own, ok := r.share(t)
		if ok {
			i.Limit = own
			r.file.limits = append(r.file.limits, t)
		}
		return ok
	}
	if f.Has("limit") {
		return false
	}
	if _, known := law.Strictest().Limit(i.Name); !known {
		r.errorf("range/ingredient", name.Span, "write the limit after mixing beside the content, as in limit: 2 %",
			"no limit is known for %s", strings.TrimSpace(i.Name))
		return false
	}
	r.file.limits = append(r.file.limits, source.Text{})
	return true
}

// limits holds the limits that ranges state against those of the law.
func (k *linker) limits() {
	for _, r := range k.Ranges {
		for n, t := range r.limits {
			i := r.Ingredients[n]
			legal, known := k.Limits().Limit(i.Name)
			if !known || t.Value == "" || !legal.Share.Less(i.Limit) {
				continue
			}
			k.report(diag.Errorf("law/limit", t.Span, "the law stops %s at %s %% after mixing, not at %s (%s)",
				i.Name, legal.Share.Mul(exact.Int(100)).Decimal(2), t.Value, k.Limits().Cite(legal)).
				WithHelp("write the law's limit or a stricter one"))
		}
	}
}
