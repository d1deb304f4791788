package check

import (
	"slices"
	"strings"

	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/hair"
	"plait/internal/lesson"
	"plait/internal/shade"
	"plait/internal/source"
)

var formulaBase = Rule{
	ID:    "formula/base",
	Title: "the base of the shades answers the warmth of the hair",
	Why: "Warmth that the hair has, or that lifting opens, is cancelled by the hue across the wheel: green against red, blue against " +
		"orange, violet against yellow. A cool target without that base stays warm; a gold or copper base adds to it; and blue over yellow " +
		"turns green. How much is left depends on how much dye meets how much warmth, so this names a direction and no result.",
	Source:   "the colour wheel: Hair Colour for Hairstylists: Level 2, BCcampus 2021, ch. 1.1; the warmth of each level differs from source to source; common practice",
	Severity: diag.Warning,
	Before:   "kind: demi\ncolour: 20 g 8N + 10 g 8G\ndeveloper: 6 vol\nhair: 8 lightened\ntarget: 8 cool",
	After:    "kind: demi\ncolour: 20 g 8N + 10 g 8V\ndeveloper: 6 vol\nhair: 8 lightened\ntarget: 8 cool",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		warmth := warmthOf(f)
		if warmth == shade.NoHue || f.Range == nil || f.Kind.Value == shade.Lightener || f.Kind.Value == shade.Filler || filledBefore(f) {
			return
		}
		bases := basesOf(f)
		for _, b := range bases {
			if hair.TurnsGreen(b.hue, warmth) {
				p.Reportf(f.Colour[b.item].Span, "violet is what faces yellow",
					"the %s base of %s over %s hair turns green (common practice)", b.hue, f.Colour[b.item].Code.Value, warmth)
				return
			}
		}
		if wantsCool(f) {
			p.coolTarget(f, warmth, bases)
		}
	},
}

// filledBefore reports whether an earlier bowl of the lesson fills the same places: the hair then
// has the warmth of the filler, and no longer its own.
func filledBefore(f *derive.Formula) bool {
	if f.Lesson == nil { // a bowl that is weighed by itself
		return false
	}
	for _, o := range f.Lesson.Formulas {
		if o == f.Formula {
			return false
		}
		if o.Kind.Value != shade.Filler {
			continue
		}
		shared := slices.ContainsFunc(o.On, func(t source.Text) bool {
			return slices.ContainsFunc(f.On, func(own source.Text) bool { return own.Value == t.Value })
		})
		if shared || len(o.On) == 0 || len(f.On) == 0 {
			return true
		}
	}
	return false
}

// coolWords are the tones of a target that ask for warmth to be taken out.
var coolWords = []string{"cool", "cold", "ash", "ashy", "neutral"}

// wantsCool reports whether one of the words of a target asks for warmth to be taken out.
func wantsCool(f *derive.Formula) bool {
	return slices.ContainsFunc(strings.FieldsFunc(f.Target.Value.Tone, notInWord), func(word string) bool { return slices.Contains(coolWords, word) })
}

// coolTarget says what in a bowl works for and against a cool target.
func (p *Pass) coolTarget(f *derive.Formula, warmth shade.Hue, bases []based) {
	cancels, adds := -1, -1
	for _, b := range bases {
		if hair.Cancels(b.hue, warmth) {
			cancels = b.item
		}
		if b.hue.Near(warmth) {
			adds = b.item
		}
	}
	tone, across := f.Target.Value.Tone, warmth.Opposite()
	switch {
	case adds >= 0:
		d := p.Reportf(f.Colour[adds].Span, "leave it out, or change the target",
			"%s lies on the side of the warmth, %s, and works against a target that is %s (common practice)", f.Colour[adds].Code.Value, warmth, tone)
		*d = d.WithNote(f.Target.Span, "the target")
	case cancels >= 0:
	case tone == "neutral":
		p.Notef(f.Target.Span, "a "+across.String()+" base faces it",
			"nothing in this bowl cancels the %s of this hair; a natural shade cools it only in part (common practice)", warmth)
	default:
		p.Reportf(f.Target.Span, "add a shade with a "+across.String()+" base, or change the target",
			"nothing in this bowl cancels the %s of this hair, and the target is %s (common practice)", warmth, tone)
	}
}

// based is the hue of a tone in a bowl and the shade it comes from.
type based struct {
	hue  shade.Hue
	item int
}

func basesOf(f *derive.Formula) []based {
	var out []based
	for i := range f.Colour {
		code := f.Bowl.Parts[i].Shade
		for _, h := range f.RangeOf(code).Bases(code) {
			out = append(out, based{h, i})
		}
	}
	return out
}

// warmthOf returns the warmth that a colour meets: what lifting opens of natural hair,
// what lightened hair was lifted to, or what the lesson says of its model. It is none
// where nothing is known: natural hair that is not lifted shows no warmth.
func warmthOf(f *derive.Formula) shade.Hue {
	if !f.Hair.Set() {
		return shade.NoHue
	}
	if onNatural(f) {
		if wanted, ok := liftWanted(f); ok && wanted > 0 && liftsHair(f.Kind.Value) {
			return undertone(f, f.Target.Value.Level)
		}
		return shade.NoHue
	}
	if seen := warmthSeen(f); seen != shade.NoHue {
		return seen
	}
	if f.Hair.Value.State == hair.Lightened {
		return undertone(f, f.Hair.Value.Level)
	}
	return shade.NoHue
}

// warmthSeen returns the warmth that the lesson's header says of its model, where the
// formula goes on that model's hair.
func warmthSeen(f *derive.Formula) shade.Hue {
	if f.Lesson == nil {
		return shade.NoHue
	}
	h := f.Hair.Value
	described := slices.ContainsFunc(f.Lesson.Hair.Zones, func(z lesson.Zone) bool {
		return z.Hair.Value.Level == h.Level && z.Hair.Value.State == h.State
	})
	if !described {
		return shade.NoHue
	}
	hue, _ := shade.ParseHue(f.Lesson.Hair.Warmth.Value)
	return hue
}
