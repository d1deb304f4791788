package check

import (
	"plait/internal/derive"
	"plait/internal/shade"
)

var rangePowder = Rule{
	ID:    "range/powder",
	Title: "powder lightener is mixed as a lightener, and without colour",
	Why: "A card that calls a powder by another kind is held against the wrong ratio, strengths and clock, and its page goes without the " +
		"cautions that lightener brings. Colour in the same bowl is wasted: what takes pigment out of hair destroys its dye as well.",
	Source: "the range file of the course; that lightener destroys oxidation dye: a hair-science textbook, ch. 4, p. 145",
	Before: "kind: permanent\ncolour: 30 g PW\ndeveloper: 20 vol\nratio: 1:2",
	After:  "kind: lightener\ncolour: 30 g PW\ndeveloper: 20 vol\nratio: 1:2",
	Since:  "1.0",
	ByKind: true,
	Formula: func(p *Pass, f *derive.Formula) {
		powder, dye := powderAndDye(f)
		if powder < 0 {
			return
		}
		item := f.Colour[powder]
		if f.Kind.Value != shade.Lightener {
			d := p.Reportf(item.Span, "write kind: lightener, or take another shade", "%s is a powder lightener, and this bowl is not one", item.Code.Value)
			*d = d.WithNote(f.Kind.Span, "the kind")
			return
		}
		if dye >= 0 {
			p.Warnf(f.Colour[dye].Span, "mix the colour in a bowl of its own, for after the lightener is rinsed out",
				"%s beside %s: lightener destroys dye", f.Colour[dye].Code.Value, item.Code.Value)
		}
	},
}

// powderAndDye returns where a formula lists its first powder and its first shade
// with a level or a tone, -1 for none.
func powderAndDye(f *derive.Formula) (powder, dye int) {
	powder, dye = -1, -1
	if f.Range == nil {
		return powder, dye
	}
	for i := range f.Colour {
		code := f.Bowl.Parts[i].Shade
		if powder < 0 && f.RangeOf(code).IsPowder(code) {
			powder = i
		}
		if dye < 0 && !code.IsClear() {
			dye = i
		}
	}
	return powder, dye
}
