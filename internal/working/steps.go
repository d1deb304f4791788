package working

import (
	"strconv"
	"strings"

	"plait/internal/exact"
	"plait/internal/formula"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/peroxide"
)

// colour works out the weight of the colour from what the author gave.
func (w *writer) colour() {
	b := w.block
	switch {
	case b.Colour[0].Unit == formula.Grams:
		w.mass(w.what, sumOf(w.masses(mix.ColourRole)), w.bowl.Colour)
	case w.recipe.SizeOf == mix.OfMixed:
		w.mass(w.what, w.fromMixed(), w.bowl.Colour)
	case !b.Amount.Mass.Set() && b.Developer.Weight.Set():
		w.mass(w.what, b.Developer.Weight.Value.String()+" ÷ "+number(w.bowl.Ratio.PerColour()), w.bowl.Colour)
	default:
		w.mass(w.what, "", w.bowl.Colour)
	}
}

// fromMixed is how the colour follows from the weight of the whole bowl: what has a
// weight of its own is taken off, and the rest is as many parts as go with one of
// colour.
func (w *writer) fromMixed() string {
	rest := w.recipe.Size.String()
	parts := []string{"1"}
	for _, a := range w.recipe.Additives {
		if !a.Mass.IsZero() {
			rest += " − " + a.Mass.String()
		}
		if !a.PerColour.IsZero() {
			parts = append(parts, number(a.PerColour))
		}
	}
	if strings.Contains(rest, "−") {
		rest = "(" + rest + ")"
	}
	if len(w.recipe.Developers) > 0 {
		parts = append(parts, number(w.bowl.Ratio.PerColour()))
	}
	if len(parts) == 1 {
		return rest
	}
	return rest + " ÷ (" + strings.Join(parts, " + ") + ")"
}

// shades works out every shade from its parts or its share. Weights that were given
// are summed up already.
func (w *writer) shades() {
	items := w.block.Colour
	switch {
	case items[0].Unit == formula.Grams || len(items) == 1:
		return
	case items[0].Unit == formula.Percent:
		for i, p := range w.parts(mix.ColourRole) {
			w.mass(p.Name, w.bowl.Colour.String()+" × "+number(items[i].Value)+" %", p.Exact)
		}
		return
	}
	total := exact.Zero
	doses := make([]string, len(items))
	for i, it := range items {
		doses[i] = number(it.Value)
		total = total.Add(it.Value)
	}
	colour, all := w.bowl.Colour.String(), number(total)
	w.add("parts", strings.Join(doses, " + "), all, true)
	one := w.bowl.Colour.Times(exact.One.Quo(total))
	w.mass("one part", colour+" ÷ "+all, one)
	for i, p := range w.parts(mix.ColourRole) {
		// Dividing last keeps a rounded part out of the sum: 2 × 6.67 is not 13.33.
		w.mass(p.Name, colour+" × "+doses[i]+" ÷ "+all, p.Exact)
	}
}

func (w *writer) additives() {
	for i, p := range w.parts(mix.AdditiveRole) {
		share := w.recipe.Additives[i].PerColour
		if share.IsZero() {
			w.mass(p.Name, "", p.Exact)
			continue
		}
		w.mass(p.Name, w.bowl.Colour.String()+" × "+number(share.Mul(exact.Int(100)))+" %", p.Exact)
	}
}

// developer works out the developer from the ratio and, where it is blended, what
// goes in of each bottle: as far as the wanted strength lies from the other one.
func (w *writer) developer() {
	if w.bowl.Developer.IsZero() {
		return
	}
	w.mass("developer", w.bowl.Colour.String()+" × "+number(w.bowl.Ratio.PerColour()), w.bowl.Developer)
	bottles := w.parts(mix.DeveloperRole)
	if len(bottles) != 2 {
		return
	}
	for i, p := range bottles {
		sum := w.bowl.Developer.String() + " × " + alligation(w.bowl.Bottle, p.Strength, bottles[1-i].Strength)
		w.mass(p.Strength.Name(), sum, p.Exact)
	}
}

// alligation is the share of a developer in a blend, in volumes: how far the wanted
// strength lies from the other one, of how far the two lie apart.
func alligation(wanted, own, other peroxide.Strength) string {
	return crossed(wanted.Volumes(), own.Volumes(), other.Volumes())
}

// percentages is [alligation] in per cent.
func percentages(wanted, own, other peroxide.Strength) string {
	return crossed(wanted.Percent(), own.Percent(), other.Percent())
}

func crossed(wanted, own, other exact.Number) string {
	want, of, from := number(wanted), number(own), number(other)
	if other.Less(own) {
		return "(" + want + " − " + from + ") ÷ (" + of + " − " + from + ")"
	}
	return "(" + from + " − " + want + ") ÷ (" + from + " − " + of + ")"
}

func (w *writer) total() {
	groups := []measure.Mass{w.bowl.Colour}
	for _, m := range []measure.Mass{w.bowl.Additives, w.bowl.Developer} {
		if !m.IsZero() {
			groups = append(groups, m)
		}
	}
	if len(groups) > 1 {
		w.mass("in the bowl", sumOf(groups), w.bowl.Mixed)
	}
}

func (w *writer) strength() {
	if w.bowl.Developer.IsZero() {
		return
	}
	sum := w.bowl.Bottle.String() + " × " + w.bowl.Developer.String() + " ÷ " + w.bowl.Mixed.String()
	w.percent("strength", sum, w.bowl.Strength)
}

// level works out the average level over the shades that have one, each weighted as
// it was dosed.
func (w *writer) level() {
	if !w.bowl.HasLevel {
		return
	}
	terms := make([]string, 0, len(w.recipe.Shades))
	total := exact.Zero
	for _, s := range w.recipe.Shades {
		if s.Code.Level == 0 {
			continue
		}
		terms = append(terms, number(s.Share)+" × "+strconv.Itoa(int(s.Code.Level)))
		total = total.Add(s.Share)
	}
	mean := w.bowl.Level.Mean
	sum := "(" + strings.Join(terms, " + ") + ") ÷ " + number(total)
	w.add("average level", sum, mean.Decimal(massPlaces), mean.EndsWithin(massPlaces))
}

// scale says what the display shows, part after part, and what it adds up to.
func (w *writer) scale() {
	weights := make([]measure.Mass, len(w.bowl.Parts))
	for i := range w.bowl.Parts {
		weights[i] = w.bowl.Parts[i].Weighed
	}
	w.mass("on the scale, in steps of "+w.bowl.Step.String(), sumOf(weights), w.bowl.WeighedTotal())
	if !w.bowl.Weighed.IsZero() && !w.bowl.Weighed.Equal(w.bowl.Ratio) {
		colour, developer := w.bowl.WeighedTotal(mix.ColourRole), w.bowl.WeighedTotal(mix.DeveloperRole)
		per := w.bowl.Weighed.PerColour()
		w.add("ratio on the scale", developer.String()+" ÷ "+colour.String(), "1:"+per.Decimal(4), per.EndsWithin(4))
	}
}

// parts returns the parts of a role.
func (w *writer) parts(role mix.Role) []*mix.Part {
	var out []*mix.Part
	for i := range w.bowl.Parts {
		if p := &w.bowl.Parts[i]; p.Role == role {
			out = append(out, p)
		}
	}
	return out
}

func (w *writer) masses(role mix.Role) []measure.Mass {
	var out []measure.Mass
	for _, p := range w.parts(role) {
		out = append(out, p.Exact)
	}
	return out
}

// sumOf prints a sum of weights; a single weight is given and no sum.
func sumOf(masses []measure.Mass) string {
	if len(masses) == 1 {
		return ""
	}
	terms := make([]string, len(masses))
	for i, m := range masses {
		terms[i] = m.String()
	}
	return strings.Join(terms, " + ")
}

// number prints a number as it is reckoned with: 1.5, 20/3.
func number(n exact.Number) string { return n.String() }
