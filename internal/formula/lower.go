package formula

import (
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
// its shades come from. Without a range (nil) only the level of a code is known.
//
// Where more was typed than is needed, these decide: the shades' own grams, else
// the amount, else the developer's weight fix the size; the ratio typed, else the
// one of two typed weights, else the range's own fixes the developer. The rest are
// claims. The formula is usable only where no diagnostic is an error.
func (b *Block) Lower(rng *shade.Range) (mix.Formula, []diag.Diagnostic) {
	l := &lowering{block: b, rng: rng}
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
	block *Block
	rng   *shade.Range
}

func (l *lowering) shades() []mix.Shade {
	var out []mix.Shade
	seen := map[string]source.Span{}
	for _, it := range l.block.Colour {
		code := it.Code
		if first, twice := seen[code.Value]; twice {
			l.found = append(l.found, diag.Errorf("formula/shade-twice", code.Span, "%s stands in this bowl twice", code.Value).
				WithNote(first, "first here").WithHelp("add the two doses up"))
			continue
		}
		seen[code.Value] = code.Span
		out = append(out, mix.Shade{Code: l.shade(code), Share: it.Value})
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

func (l *lowering) shade(code source.Text) shade.Code {
	if l.rng == nil {
		return shade.Bare(code.Value)
	}
	c, err := l.rng.Find(code.Value)
	if err != nil {
		l.errorf("range/shade", code.Span, "%s", err)
		if near := diag.DidYouMean(code.Value, l.rng.Shades); near != "" {
			l.help("did you mean %s? the shades are: %s", near, strings.Join(l.rng.Shades, " "))
		} else {
			l.help("the shades are: %s", strings.Join(l.rng.Shades, " "))
		}
	}
	return c
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

// Terms returns the maker's directions for the block's kind of colour, zero where
// there are none.
func (b *Block) Terms(rng *shade.Range) shade.Terms {
	if rng == nil {
		return shade.Terms{}
	}
	return rng.Kinds[b.Kind.Value]
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
	if own := b.Terms(l.rng).Ratio; !own.IsZero() {
		return own
	}
	l.errorf("formula/ratio", b.Developer.Span, "a developer, but no ratio, and the range states none for this kind of colour")
	l.help("write the ratio of colour to developer, as in 1:1.5")
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
