package formula

import (
	"strings"

	"plait/internal/diag"
	"plait/internal/measure"
	"plait/internal/peroxide"
	"plait/internal/shade"
	"plait/internal/source"
)

// ParseLine reads the short form of a bowl: the colour, the developer with its
// ratio, the amount, with commas between them,
//
//	2 parts 6N + 1 part 7B, 10 vol at 1:1.5, 45 g
//
// and optionally a kind of colour and a time. An amount without a word is the
// weight of the colour.
func ParseLine(t source.Text) (*Block, []diag.Diagnostic) {
	b, r := &Block{Span: t.Span}, &reader{}
	clauses := t.Split(",")
	b.Colour = r.colour(clauses[0])
	for _, c := range clauses[1:] {
		r.clause(b, c)
	}
	switch {
	case len(r.found) > 0:
	case !b.Developer.Span.Valid():
		r.errorf("formula/developer", t.Span, "this bowl has no developer")
		r.help("say the strength and the ratio, as in: %s, 20 vol at 1:1.5, 45 g\nor, for colour used as it is: %s, no developer, 45 g", clauses[0].Value, clauses[0].Value)
	case !b.Amount.Span.Valid() && b.Colour[0].Unit != Grams:
		r.errorf("formula/amount", t.Span, "this bowl has no size")
		r.help("say how much colour, as in: %s, 45 g", t.Value)
	}
	b.Broken = len(r.found) > 0
	return b, r.found
}

// clause reads one of the parts behind the colour; each is known by its form.
func (r *reader) clause(b *Block, t source.Text) {
	strength, ratio, withRatio := t.Cut(" at ")
	_, isKind := shade.ParseKind(t.Value)
	switch {
	case t.Value == "":
		r.errorf("formula/syntax", t.Span, "nothing stands between two commas")
	case isKind:
		b.Kind, _ = r.kind(t)
	case t.Value == "no developer":
		b.Developer = Developer{None: true, Span: t.Span}
	case withRatio || isStrength(t.Value):
		b.Developer, _ = r.developer(strength)
		if withRatio {
			b.Ratio, _ = parsed(r, "formula/ratio", ratio, measure.ParseRatio)
		}
	case strings.Contains(t.Value, "min"):
		b.Time, _ = r.time(t)
	default:
		b.Amount, _ = r.amount(t, true)
	}
}

func isStrength(s string) bool {
	_, err := peroxide.Parse(s)
	return err == nil || strings.Contains(s, "vol")
}

// Short prints the bowl in the short form, as far as it was typed; [ParseLine]
// reads it back.
func (b *Block) Short() string {
	clauses := []string{b.ShortColour()}
	if d := b.ShortDeveloper(); d != "" {
		clauses = append(clauses, d)
	}
	if b.Amount.Mass.Set() {
		of := " colour"
		if b.Amount.Of != 0 {
			of = " mixed"
		}
		clauses = append(clauses, grams(b.Amount.Mass.Value)+of)
	}
	return strings.Join(clauses, ", ")
}

// ShortColour prints the colour as it was dosed, "2 parts 8N + 1 part 8V".
func (b *Block) ShortColour() string {
	items := make([]string, len(b.Colour))
	for i, it := range b.Colour {
		items[i] = it.dose() + " " + it.Code.Value
	}
	return strings.Join(items, " + ")
}

func (it Item) dose() string {
	n := it.Value.String()
	switch {
	case it.Unit == Grams:
		return n + " g"
	case it.Unit == Percent:
		return n + " %"
	case n == "1":
		return "1 part"
	}
	return n + " parts"
}

func grams(m measure.Mass) string { return m.Grams().String() + " g" }

// ShortDeveloper prints the developer and the ratio typed with it, "6 vol at 1:2".
func (b *Block) ShortDeveloper() string {
	d := b.Developer
	if d.None {
		return "no developer"
	}
	if !d.Strength.Set() {
		return ""
	}
	out := shortStrength(d.Strength)
	if len(d.From) == 2 {
		out += " from " + shortStrength(d.From[0]) + " and " + shortStrength(d.From[1])
	}
	if d.Weight.Set() {
		out = grams(d.Weight.Value) + " of " + out
	}
	if b.Ratio.Set() {
		out += " at " + b.Ratio.Value.Colour.String() + ":" + b.Ratio.Value.Developer.String()
	}
	return out
}

// shortStrength prints a strength in the unit it was typed in.
func shortStrength(s Stated[peroxide.Strength]) string {
	if strings.Contains(s.Span.Text(), "%") {
		return s.Value.Percent().String() + " %"
	}
	return s.Value.Volumes().String() + " vol"
}
