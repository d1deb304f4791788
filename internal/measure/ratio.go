package measure

import (
	"fmt"
	"strings"

	"plait/internal/exact"
)

// Ratio is a mixing ratio by weight, colour to developer. The zero Ratio is none.
type Ratio struct{ Colour, Developer exact.Number }

// NewRatio returns the ratio 1:developer of two weights; colour must not be zero.
func NewRatio(colour, developer Mass) Ratio {
	return Ratio{Colour: exact.One, Developer: developer.Per(colour)}
}

// ParseRatio reads "1:1.5" as colour to developer. A ratio whose first number is
// the larger ("2:1") is refused: books print demi ratios both ways round, and the
// wrong reading doubles the dye and halves the developer.
func ParseRatio(s string) (Ratio, error) {
	a, b, ok := strings.Cut(s, ":")
	if !ok || strings.TrimSpace(a) == "" || strings.TrimSpace(b) == "" {
		return Ratio{}, fmt.Errorf("%q is not a ratio; write colour:developer, as in 1:1.5", s)
	}
	colour, err := ParseNumber(a)
	if err != nil {
		return Ratio{}, err
	}
	developer, err := ParseNumber(b)
	if err != nil {
		return Ratio{}, err
	}
	switch {
	case colour.IsZero():
		return Ratio{}, fmt.Errorf("ratio %q has no colour in it; write colour:developer, as in 1:1.5", s)
	case developer.IsZero():
		return Ratio{}, fmt.Errorf("ratio %q has no developer in it; write developer: none for colour used as it is", s)
	case developer.Less(colour):
		return Ratio{}, fmt.Errorf("ratio %q is ambiguous: plait reads colour:developer, and colour is never the larger; if you mean %s of developer to %s of colour, write %s:%s", s, colour, developer, developer, colour)
	}
	return Ratio{Colour: colour, Developer: developer}, nil
}

// IsZero reports whether the ratio is none.
func (r Ratio) IsZero() bool { return r.Colour.IsZero() }

// PerColour returns grams of developer for one gram of colour.
func (r Ratio) PerColour() exact.Number { return r.Developer.Quo(r.Colour) }

// Equal reports whether both ratios mix the same bowl.
func (r Ratio) Equal(o Ratio) bool {
	return r.Colour.Mul(o.Developer).Equal(o.Colour.Mul(r.Developer))
}

// String prints the ratio with colour as one, "1:1.5"; a long fraction is cut to
// four places, "1:2.0435".
func (r Ratio) String() string {
	if r.IsZero() {
		return "none"
	}
	return "1:" + r.PerColour().Decimal(4)
}
