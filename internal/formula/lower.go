package formula

import (
	"fmt"
	"slices"
	"strings"

	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/peroxide"
	"plait/internal/shade"
	"plait/internal/source"
)

// Lower decides what the block asks for, ready to be weighed, against the range
// its shades come from and the others of the course, which a shade may be said to be
// of. Without a range (nil) only the level of a code is known.
//
// Where more was typed than is needed, these decide: the shades' own grams, else
// the amount, else the developer's weight fix the size; the ratio typed, else the
// one of two typed weights, else the range's own fixes the developer. The rest are
// claims. The formula is usable only where no diagnostic is an error.
func (b *Block) Lower(rng *shade.Range, others ...*shade.Range) (mix.Formula, []diag.Diagnostic) {
	l := &lowering{block: b, rng: rng, others: others}
	if b.Broken {
		return mix.Formula{}, nil
	}
	f := mix.Formula{Shades: l.shades(), Developers: l.developers()}
	for _, a := range b.Additives {
		f.Additives = append(f.Additives, mix.Additive{Name: a.Name.Value, PerColour: a.PerColour, Mass: a.Mass})
	}
	f.Ratio = l.ratio()
	f.Size, f.SizeOf = l.size(f.Ratio)
	return f, l.found
}

type lowering struct {
	reader
	block  *Block
	rng    *shade.Range
	others []*shade.Range
}

func (l *lowering) shades() []mix.Shade {
	var out []mix.Shade
	seen := map[string]source.Span{}
	for _, it := range l.block.Colour {
		code, name := it.Code, it.Code.Value
		if it.Range.Value != "" {
			name += " of " + it.Range.Value
		}
		if first, twice := seen[name]; twice {
			l.found = append(l.found, diag.Errorf("formula/shade-twice", code.Span, "%s stands in this bowl twice", name).
				WithNote(first, "first here").WithHelp("add the two doses up"))
			continue
		}
		seen[name] = code.Span
		out = append(out, mix.Shade{Code: l.shade(it), Share: it.Value})
	}
	l.percentTotal()
	return out
}

// percentTotal checks that shares given in per cent make a whole.
func (l *lowering) percentTotal() {
	items := l.block.Colour
	if len(items) == 0 || items[0].Unit != Percent {
		return
	}
	sum := exact.Zero
	for _, it := range items {
		sum = sum.Add(it.Value)
	}
	if !sum.Equal(exact.Int(100)) {
		l.errorf("formula/percent", items[0].Span.To(items[len(items)-1].Span), "the shades add up to %s %%", sum.Decimal(2))
		l.help("shares of the colour make 100 %% together; for other proportions write parts")
	}
}

// shade takes the code of an item apart, in the range that it is said to be of, else in
// the bowl's own.
func (l *lowering) shade(it Item) shade.Code {
	rng := l.rng
	if it.Range.Value != "" {
		if rng = findRange(it.Range.Value, l.rng, l.others); rng == nil {
			l.noRange(it.Range)
			return shade.Code{}
		}
	}
	code := it.Code
	if rng == nil {
		return shade.Bare(code.Value)
	}
	c, err := rng.Find(code.Value)
	if err != nil {
		l.errorf("range/shade", code.Span, "%s", err)
		l.help("%s", l.shadeHelp(code.Value, rng))
	}
	return c
}

// findRange returns the range of a name, nil where there is none.
func findRange(name string, own *shade.Range, others []*shade.Range) *shade.Range {
	if own != nil && own.ID == name {
		return own
	}
	for _, r := range others {
		if r.ID == name {
			return r
		}
	}
	return nil
}

func (l *lowering) noRange(name source.Text) {
	l.errorf("range/unknown", name.Span, "there is no range %q", name.Value)
	var names []string
	for _, r := range l.others {
		names = append(names, r.ID)
	}
	switch near := diag.DidYouMean(name.Value, names); {
	case near != "":
		l.help("did you mean %q?", near)
	case len(names) > 0:
		l.help("the ranges are: %s", strings.Join(names, ", "))
	default:
		l.help("a shade is said to be of a range in a course that has one")
	}
}

// shadeHelp says what a code that the range does not have may be: a shade of another
// range, which has to be said, or a slip.
func (l *lowering) shadeHelp(code string, rng *shade.Range) string {
	for _, other := range l.others {
		if other == rng {
			continue
		}
		if c, err := other.Find(code); err == nil {
			return fmt.Sprintf("%s is a shade of %s: write range: %s for the whole bowl, or, if two ranges belong in it, %s of %s",
				c.Text, other.Name, other.ID, code, other.ID)
		}
	}
	list := "the shades are: " + strings.Join(rng.Shades, " ")
	if near := diag.DidYouMean(code, rng.Shades); near != "" {
		return "did you mean " + near + "? " + list
	}
	return list
}

func (l *lowering) developers() []mix.Developer {
	d := l.block.Developer
	switch {
	case d.None:
		return nil
	case len(d.From) == 2:
		strong, weak := d.From[0], d.From[1]
		a, b, err := peroxide.Blend(strong.Value, weak.Value, d.Strength.Value)
		if err != nil {
			l.errorf("formula/blend", d.Span, "%s", err)
			l.help("take two developers with the wanted strength between them")
			return nil
		}
		return []mix.Developer{{Strength: strong.Value, Share: a}, {Strength: weak.Value, Share: b}}
	}
	return []mix.Developer{{Strength: d.Strength.Value, Share: exact.One}}
}

// Terms returns the maker's directions for the block's kind of colour, zero where there
// are none; where shades are said to be of other ranges, what keeps to all of their
// makers, and what of it cannot be kept.
func (b *Block) Terms(rng *shade.Range, others ...*shade.Range) (shade.Terms, []shade.Apart) {
	if rng == nil {
		return shade.Terms{}, nil
	}
	terms := rng.Kinds[b.Kind.Value]
	var apart []shade.Apart
	for _, r := range b.Named(rng, others...) {
		var more []shade.Apart
		terms, more = shade.Strictest(terms, r.Kinds[b.Kind.Value])
		apart = append(apart, more...)
	}
	return terms, apart
}

// Named returns the ranges beside the bowl's own that its shades are said to be of, each
// once.
func (b *Block) Named(own *shade.Range, others ...*shade.Range) []*shade.Range {
	var named []*shade.Range
	for _, it := range b.Colour {
		if it.Range.Value == "" {
			continue
		}
		if r := findRange(it.Range.Value, own, others); r != nil && r != own && !slices.Contains(named, r) {
			named = append(named, r)
		}
	}
	return named
}

func (l *lowering) ratio() measure.Ratio {
	b := l.block
	if b.Developer.None {
		if b.Ratio.Set() {
			l.errorf("formula/ratio", b.Ratio.Span, "a ratio, but no developer")
			l.help("delete the ratio, or say which developer")
		}
		return measure.Ratio{}
	}
	if b.Ratio.Set() {
		return b.Ratio.Value
	}
	if colour, ok := b.ColourGrams(); ok && b.Developer.Weight.Set() {
		return measure.NewRatio(colour, b.Developer.Weight.Value)
	}
	terms, apart := b.Terms(l.rng, l.others...)
	if !terms.Ratio.IsZero() {
		return terms.Ratio
	}
	if slices.Contains(apart, shade.RatiosApart) {
		l.errorf("formula/ratio", b.Developer.Span, "a developer, but no ratio, and the makers of this bowl's shades mix %s at different ones", b.Kind.Value)
		l.help("keep to one range")
		return measure.Ratio{}
	}
	l.errorf("formula/ratio", b.Developer.Span, "a developer, but no ratio, and the range states none for this kind of colour")
	help := "write the ratio of colour to developer, as in 1:1.5"
	if l.rng != nil {
		for _, kind := range l.rng.OtherToners(b.Kind.Value) {
			help += "; the range has " + string(kind)
		}
	}
	l.help("%s", help)
	return measure.Ratio{}
}

// ColourGrams returns the weight of the colour where the shades are given in
// grams.
func (b *Block) ColourGrams() (measure.Mass, bool) {
	if len(b.Colour) == 0 || b.Colour[0].Unit != Grams {
		return measure.Mass{}, false
	}
	sum := exact.Zero
	for _, it := range b.Colour {
		sum = sum.Add(it.Value)
	}
	return measure.Grams(sum), true
}

// Sized returns the block with its amount by section worked out, as the weight of
// everything in the bowl.
func (b *Block) Sized(mixed measure.Mass) *Block {
	sized := *b
	sized.Amount.Mass = source.Stated[measure.Mass]{Value: mixed, Span: b.Amount.Span}
	sized.Amount.Of = mix.OfMixed
	return &sized
}

func (l *lowering) size(ratio measure.Ratio) (measure.Mass, mix.Size) {
	b := l.block
	if colour, ok := b.ColourGrams(); ok {
		return colour, mix.OfColour
	}
	switch {
	case b.Amount.Mass.Set():
		return b.Amount.Mass.Value, b.Amount.Of
	case b.Amount.BySection:
		l.errorf("formula/amount", b.Amount.Span, "an amount by section needs a head sheet with the sections of this bowl")
		l.help("say how much to mix, as in amount: 30 g colour")
	case b.Developer.Weight.Set() && !ratio.IsZero():
		return b.Developer.Weight.Value.Times(exact.One.Quo(ratio.PerColour())), mix.OfColour
	case b.Mixed.Set():
		l.errorf("formula/amount", b.Mixed.Span, "mixed is a check on what the amount comes to, and there is no amount")
		l.help("write amount: %s mixed", b.Mixed.Value)
	default:
		l.errorf("formula/amount", b.Span, "the bowl has no size")
		l.help("say how much to mix, as in amount: 30 g colour or amount: 90 g mixed")
	}
	return measure.Mass{}, mix.OfColour
}
