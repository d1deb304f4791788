// Package shade knows levels, tones and the ranges of shades they are sold in.
//
// Only two things hold across the trade: the first number of a code is its level,
// and opposite hues of the colour wheel cancel. Which letter or digit is which
// tone, how strong a developer may be and how long it may stay is the maker's to
// say, so it all comes from a [Range]; a code without a meaning there is an error
// and never a guess.
package shade

import (
	"fmt"
	"slices"

	"plait/internal/measure"
)

// Kind is what a formula is, after what it does to hair.
type Kind string

// The kinds of colour. A toner is acid, which only deposits, or alkaline, which opens
// the hair as well; Toner is one whose maker does not say.
const (
	Permanent     Kind = "permanent"
	Demi          Kind = "demi"
	Toner         Kind = "toner"
	AcidToner     Kind = "acid toner"
	AlkalineToner Kind = "alkaline toner"
	HighLift      Kind = "high-lift"
	Lightener     Kind = "lightener"
	Filler        Kind = "filler"
	Direct        Kind = "direct"
)

// Kinds returns all kinds.
func Kinds() []Kind {
	return []Kind{Permanent, Demi, Toner, AcidToner, AlkalineToner, HighLift, Lightener, Filler, Direct}
}

// ParseKind reads the name of a kind.
func ParseKind(s string) (Kind, bool) {
	return Kind(s), slices.Contains(Kinds(), Kind(s))
}

// Oxidative reports whether the kind develops dye or lifts with peroxide, and so
// calls for the cautions of an oxidative colour.
func (k Kind) Oxidative() bool { return k != Direct }

// Tone is a reflect: what a letter or digit of a code means in one range.
type Tone struct {
	Code string
	Name string
	Base Hue // the hue of its dye, which cancels the opposite warmth; NoHue for natural
}

// Pack is what a product is sold in.
type Pack struct {
	Size  measure.Mass // zero: not stated
	Price Price
}

// Price is an amount of money in hundredths of a currency's unit.
type Price struct {
	Hundredths int64
	Currency   string // three letters (ISO 4217), "" for none
}

// String prints the price, "7.90 GBP".
func (p Price) String() string {
	if p.Currency == "" {
		return ""
	}
	return fmt.Sprintf("%d.%02d %s", p.Hundredths/100, p.Hundredths%100, p.Currency)
}

// Range is the set of shades of one maker with the maker's own rules.
type Range struct {
	ID        string // the file's name without its ending
	Name      string
	Checked   string // the date its rules were last checked, YYYY-MM-DD
	Grammar   Grammar
	Darkest   Level
	Lightest  Level
	Names     map[Level]string // captions only; a name is never turned into a number
	Tones     map[string]Tone
	Shades    []string // the codes that exist, in the maker's order
	Kinds     map[Kind]Terms
	Colour    Pack
	Developer Pack
	Powder    Pack          // of powder lightener; zero: not stated
	Warmth    map[Level]Hue // the maker's own table of underlying pigment, if any

	With        []string     // the ranges that the maker allows in one bowl with this one
	Ingredients []Ingredient // what the law limits in the maker's colours, where the maker tells
}

// Find returns the shade of a code, taken apart, under the code the maker lists it
// by: where 6.3 and 6/3 are one shade either finds it. The error says why it is
// none.
func (r *Range) Find(text string) (Code, error) {
	code, err := r.Grammar.Parse(text)
	if err != nil {
		return Code{}, err
	}
	if code.Level != 0 && (code.Level < r.Darkest || code.Level > r.Lightest) {
		return Code{}, fmt.Errorf("shade %q is level %d, and %s runs from %d to %d", text, code.Level, r.Name, r.Darkest, r.Lightest)
	}
	for _, t := range code.Tones {
		if _, ok := r.Tones[t]; !ok {
			return Code{}, fmt.Errorf("shade %q has the tone %q, which %s does not have", text, t, r.Name)
		}
	}
	listed, ok := r.listed(code)
	if !ok {
		return Code{}, fmt.Errorf("%s has no shade %q", r.Name, text)
	}
	code.Text, code.Range = listed, r.ID
	return code, nil
}

// listed returns the code under which the maker lists a shade.
func (r *Range) listed(c Code) (string, bool) {
	if slices.Contains(r.Shades, c.Text) || r.Grammar.plain(c.Text) {
		return c.Text, true
	}
	for _, text := range r.Shades {
		if other, err := r.Grammar.Parse(text); err == nil && other.Same(c) {
			return text, true
		}
	}
	return "", false
}

// OtherToners returns the toners that the maker gives directions for, where a kind is one
// that it gives none for.
func (r *Range) OtherToners(kind Kind) []Kind {
	toners := []Kind{Toner, AcidToner, AlkalineToner}
	if !slices.Contains(toners, kind) {
		return nil
	}
	return slices.DeleteFunc(toners, func(k Kind) bool {
		_, given := r.Kinds[k]
		return !given
	})
}

// Allows reports whether the maker allows shades of another range in one bowl with this
// one's.
func (r *Range) Allows(other *Range) bool { return slices.Contains(r.With, other.ID) }

// IsPowder reports whether a code is one of the maker's powder lighteners.
func (r *Range) IsPowder(c Code) bool { return slices.Contains(r.Grammar.Powder, c.Text) }

// Undertone returns the warmth found at a level by the maker's table, else by the
// usual one.
func (r *Range) Undertone(l Level) Hue {
	if h, ok := r.Warmth[l]; ok {
		return h
	}
	return Undertone(l)
}

// Bases returns the hues of a shade's tones, each once, in the order of the code.
func (r *Range) Bases(c Code) []Hue {
	var bases []Hue
	for _, t := range c.Tones {
		if b := r.Tones[t].Base; b != NoHue && !slices.Contains(bases, b) {
			bases = append(bases, b)
		}
	}
	return bases
}
