// Package measure holds the quantities a colourist reads off a scale, a jug or a
// clock: mass in grams, mixing ratios and spans of minutes. All are exact.
//
// Each quantity is a type of its own, so that grams and minutes cannot change
// places without the compiler noticing. Parsers accept what an author types
// ("30 g", "1:1.5", "30-45 min") and return an error that says what is wrong with
// it and what to write instead; they never guess a unit.
package measure

import (
	"fmt"
	"strings"
	"time"

	"plait/internal/exact"
)

// Mass is a weight in grams.
type Mass struct{ grams exact.Number }

// Grams returns a mass of n grams.
func Grams(n exact.Number) Mass { return Mass{n} }

// Grams returns the mass as a number of grams.
func (m Mass) Grams() exact.Number { return m.grams }

// Add returns m + n.
func (m Mass) Add(n Mass) Mass { return Mass{m.grams.Add(n.grams)} }

// Sub returns m − n.
func (m Mass) Sub(n Mass) Mass { return Mass{m.grams.Sub(n.grams)} }

// Times returns the mass multiplied by a number.
func (m Mass) Times(n exact.Number) Mass { return Mass{m.grams.Mul(n)} }

// Per returns how many times n goes into m; n must not be zero.
func (m Mass) Per(n Mass) exact.Number { return m.grams.Quo(n.grams) }

// Cmp returns −1, 0 or +1 as m is lighter than, equal to or heavier than n.
func (m Mass) Cmp(n Mass) int { return m.grams.Cmp(n.grams) }

// IsZero reports whether the mass is nothing.
func (m Mass) IsZero() bool { return m.grams.IsZero() }

// String prints the mass to at most two decimal places, "23.33 g".
func (m Mass) String() string { return m.grams.Decimal(2) + " g" }

// Total returns the sum of all masses.
func Total(masses ...Mass) Mass {
	var sum Mass
	for _, m := range masses {
		sum = sum.Add(m)
	}
	return sum
}

// ParseMass reads a weight in grams or kilograms: "30 g", "0.5 kg".
//
// Ounces are refused with the readings they could have (a mass, a US or a UK
// fluid ounce: 28.35 g, 29.57 mL, 28.41 mL), millilitres because a scale weighs.
func ParseMass(s string) (Mass, error) {
	number, unit := cutUnit(s)
	n, err := parseNumber(number)
	if err != nil {
		return Mass{}, err
	}
	switch strings.ToLower(unit) {
	case "g", "gram", "grams":
		return Grams(n), nil
	case "kg":
		return Grams(n.Mul(exact.Int(1000))), nil
	case "":
		return Mass{}, fmt.Errorf("%q has no unit; write %s g", s, number)
	case "oz", "ounce", "ounces", "fl oz", "floz":
		return Mass{}, fmt.Errorf("%q could be a mass (1 oz is 28.35 g), a US fluid ounce (29.57 mL) or a UK one (28.41 mL); weigh it and write grams", s)
	case "ml", "l", "cc":
		return Mass{}, fmt.Errorf("%q is a volume and bowls are weighed; write grams (creams are near 1 g per mL)", s)
	}
	return Mass{}, fmt.Errorf("%q has no unit plait knows; write grams, as in 30 g", s)
}

// cutUnit splits "30 g" into its number and its unit.
func cutUnit(s string) (number, unit string) {
	s = strings.TrimSpace(s)
	i := strings.IndexFunc(s, func(r rune) bool { return !strings.ContainsRune("-0123456789.,/", r) })
	if i < 0 {
		return s, ""
	}
	return strings.TrimSpace(s[:i]), strings.TrimSpace(s[i:])
}

// parseNumber reads a number of zero or more and explains a decimal comma.
func parseNumber(s string) (exact.Number, error) {
	n, err := exact.Parse(s)
	switch {
	case err == exact.ErrRange:
		return exact.Zero, fmt.Errorf("%q has more digits than any scale shows", s)
	case err != nil && strings.Contains(s, ","):
		return exact.Zero, fmt.Errorf("%q has a comma; write the decimal point, as in %s", s, strings.Replace(s, ",", ".", 1))
	case err != nil:
		return exact.Zero, fmt.Errorf("%q is not a number", s)
	case n.Sign() < 0:
		return exact.Zero, fmt.Errorf("%q is negative", s)
	}
	return n, nil
}

// ParseNumber reads a plain number of zero or more, "1.5" or "20/3".
func ParseNumber(s string) (exact.Number, error) { return parseNumber(strings.TrimSpace(s)) }

// ParsePercent reads a share written with its sign, "30 %", as a fraction of one:
// 3/10.
func ParsePercent(s string) (exact.Number, error) {
	number, unit := cutUnit(s)
	if unit != "%" && unit != "per cent" {
		return exact.Zero, fmt.Errorf("%q is not a share; write a number and the sign, as in 30 %%", s)
	}
	n, err := parseNumber(number)
	if err != nil {
		return exact.Zero, err
	}
	return n.Mul(exact.Of(1, 100)), nil
}

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
	if !ok {
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
		return Ratio{}, fmt.Errorf("ratio %q has no colour in it", s)
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

// Span is a stretch of time from Min to Max; where both are equal it is one time.
type Span struct{ Min, Max time.Duration }

// ParseSpan reads "15 min", "30-45 min", "up to 50 min" or "90 s".
func ParseSpan(s string) (Span, error) {
	body, upTo := strings.CutPrefix(strings.TrimSpace(s), "up to ")
	low, high, isSpan := strings.Cut(strings.ReplaceAll(body, "–", "-"), "-")
	switch {
	case isSpan && strings.TrimSpace(low) == "":
		return Span{}, fmt.Errorf("%q is a negative time", s)
	case isSpan && upTo:
		return Span{}, fmt.Errorf("%q is both a span and an upper limit; write one of them", s)
	case !isSpan:
		high = low
	}
	_, unit := cutUnit(high)
	to, err := parseDuration(high, unit)
	if err != nil {
		return Span{}, err
	}
	if upTo {
		return Span{Max: to}, nil
	}
	from, err := parseDuration(low, unit)
	if err != nil {
		return Span{}, err
	}
	if from > to {
		return Span{}, fmt.Errorf("%q ends before it begins", s)
	}
	return Span{from, to}, nil
}

// longest is the longest time plait takes for one step of a service.
const longest = 24 * time.Hour

// parseDuration reads a number with the given unit where it carries none itself.
func parseDuration(s, unit string) (time.Duration, error) {
	number, own := cutUnit(s)
	if own != "" {
		unit = own
	}
	n, err := parseNumber(number)
	if err != nil {
		return 0, err
	}
	var each time.Duration
	switch strings.ToLower(unit) {
	case "min", "minute", "minutes":
		each = time.Minute
	case "s", "sec", "second", "seconds":
		each = time.Second
	case "h", "hour", "hours":
		each = time.Hour
	default:
		return 0, fmt.Errorf("%q has no unit of time; write minutes, as in 15 min", strings.TrimSpace(s))
	}
	ns := n.Mul(exact.Int(int64(each)))
	if exact.Int(int64(longest)).Less(ns) {
		return 0, fmt.Errorf("%q is longer than a day", strings.TrimSpace(s))
	}
	whole, ok := ns.Int64()
	if !ok || whole%int64(time.Second) != 0 {
		return 0, fmt.Errorf("%q is not a whole number of seconds", strings.TrimSpace(s))
	}
	return time.Duration(whole), nil
}

// Contains reports whether o lies within s.
func (s Span) Contains(o Span) bool { return s.Min <= o.Min && o.Max <= s.Max }

// String prints the span as an author writes it.
func (s Span) String() string {
	switch {
	case s.Min == s.Max:
		return Minutes(s.Max)
	case s.Min == 0:
		return "up to " + Minutes(s.Max)
	}
	return strings.TrimSuffix(Minutes(s.Min), " min") + "-" + Minutes(s.Max)
}

// Minutes prints a duration in minutes, "15 min", or in seconds where it is
// shorter than a minute or not whole minutes.
func Minutes(d time.Duration) string {
	if d%time.Minute == 0 {
		return fmt.Sprintf("%d min", d/time.Minute)
	}
	if d < time.Minute {
		return fmt.Sprintf("%d s", d/time.Second)
	}
	return exact.Of(int64(d/time.Second), 60).Decimal(2) + " min"
}
