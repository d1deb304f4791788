// Package measure holds the quantities a colourist reads off a scale, a jug or a
// clock: mass in grams, mixing ratios and spans of minutes. All are exact.
//
// Each quantity is a type of its own, so that grams and minutes cannot change
// places without the compiler noticing. Parsers accept what an author types
// ("30 g", "1:1.5", "30-45 min") and never guess a unit. Their errors say what is
// wrong and, behind the last semicolon, what to write instead.
package measure

import (
	"errors"
	"fmt"
	"strings"

	"plait/internal/exact"
)

// ParseNumber reads a plain number of zero or more, "1.5" or "20/3".
func ParseNumber(s string) (exact.Number, error) { return parseNumber(strings.TrimSpace(s)) }

// ParsePercent reads a share written with its sign, "30 %", as a fraction of one:
// 3/10.
func ParsePercent(s string) (exact.Number, error) {
	number, unit := CutUnit(s)
	if number == "" || unit != "%" && unit != "per cent" {
		return exact.Zero, fmt.Errorf("%q is not a share; write a number and the sign, as in 30 %%", s)
	}
	n, err := parseNumber(number)
	if err != nil {
		return exact.Zero, err
	}
	return n.Mul(exact.Of(1, 100)), nil
}

// CutUnit splits "30 g" into its number and its unit; neither is checked.
func CutUnit(s string) (number, unit string) {
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
	case errors.Is(err, exact.ErrRange):
		return exact.Zero, fmt.Errorf("%q has more digits than any scale shows; write it shorter", s)
	case err != nil && strings.Contains(s, ","):
		return exact.Zero, commaError(s)
	case err != nil:
		return exact.Zero, fmt.Errorf("%q is not a number; write digits, with a decimal point if need be, as in 1.5", s)
	case n.Sign() < 0:
		return exact.Zero, fmt.Errorf("%q is negative; write it without the minus, or leave it out", s)
	}
	return n, nil
}

// commaError says what to write for a number with a comma. A comma stands for the
// decimal point in some countries and between thousands in others, so a group of
// three digits behind it has two readings.
func commaError(s string) error {
	point := strings.Replace(s, ",", ".", 1)
	if _, err := exact.Parse(point); err != nil {
		return fmt.Errorf("%q has a comma; write numbers with a decimal point and nothing between thousands, as in 1.5 or 1000", s)
	}
	if _, behind, _ := strings.Cut(s, ","); len(behind) == 3 && s[0] != '0' {
		return fmt.Errorf("%q has a comma; write %s if it stands between thousands, %s if it is the decimal point", s, strings.Replace(s, ",", "", 1), point)
	}
	return fmt.Errorf("%q has a comma; write the decimal point, as in %s", s, point)
}
