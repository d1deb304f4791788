// Package exact holds rational numbers that never lose a part of a gram.
//
// Weights, ratios and strengths in plait are checked by people with a scale and
// a pencil, so they are computed without rounding: 70 g at 1:2 is 70/3 g of
// colour, not 23.33. A [Number] is an immutable value. Small numbers live in one
// machine word; one that outgrows it moves to math/big by itself, so no operation
// overflows and none rounds. Rounding happens in named functions
// ([Number.Floor], [Number.Round], [Number.Decimal]) and nowhere else.
package exact

import (
	"cmp"
	"errors"
	"math"
	"math/big"
	"math/bits"
	"strconv"
	"strings"
)

// Number is a rational number. The zero value is 0.
//
// Invariant: where big is nil the value is num/(den+1) in lowest terms with
// den ≥ 0 (stored one less, so that the zero value is valid); where big is set
// the value does not fit that form. A course holds numbers by the hundred thousand,
// and those of a bowl have a few digits.
type Number struct {
	num int32
	den int32 // denominator − 1
	big *big.Rat
}

// Common numbers.
var (
	Zero = Int(0)
	One  = Int(1)
	Half = Of(1, 2)
)

// Int returns n as a Number.
func Int(n int64) Number { return lowest(n, 1) }

// Of returns num/den in lowest terms. It panics when den is zero: a divisor
// written in the program is the program's own business.
func Of(num, den int64) Number {
	if den == 0 {
		panic("exact: division by zero")
	}
	if den > 0 {
		if n, ok := reduced(num, den); ok {
			return n
		}
	}
	return fromBig(new(big.Rat).SetFrac64(num, den))
}

// lowest wraps a fraction that is in lowest terms already; den > 0.
func lowest(num, den int64) Number {
	if n, ok := small(num, den); ok {
		return n
	}
	return Number{big: big.NewRat(num, den)}
}

// small is lowest for what fits a machine word.
func small(num, den int64) (n Number, ok bool) {
	n = Number{num: int32(num), den: int32(den - 1)}
	return n, int64(n.num) == num && int64(n.den) == den-1
}

func fromBig(r *big.Rat) Number {
	if r.Num().IsInt64() && r.Denom().IsInt64() {
		if n, ok := small(r.Num().Int64(), r.Denom().Int64()); ok {
			return n
		}
	}
	return Number{big: r}
}

func (a Number) rat() *big.Rat {
	if a.big != nil {
		return a.big
	}
	return big.NewRat(a.fraction())
}

// fraction returns numerator and denominator of a small number. Products of two of them
// cannot overflow, nor can the sum of two such products.
func (a Number) fraction() (num, den int64) { return int64(a.num), int64(a.den) + 1 }

// Add returns a + b.
func (a Number) Add(b Number) Number {
	if a.big == nil && b.big == nil {
		x, d := a.fraction()
		y, e := b.fraction()
		sum, den := x+y, d
		if d != e { // not the usual case: whole numbers, or tenths with tenths
			sum, den = x*e+y*d, d*e
		}
		if n, ok := reduced(sum, den); ok {
			return n
		}
	}
	return fromBig(new(big.Rat).Add(a.rat(), b.rat()))
}

// Neg returns −a.
func (a Number) Neg() Number {
	if a.big == nil {
		num, den := a.fraction()
		return lowest(-num, den)
	}
	return fromBig(new(big.Rat).Neg(a.big))
}

// Sub returns a − b.
func (a Number) Sub(b Number) Number { return a.Add(b.Neg()) }

// Mul returns a · b.
func (a Number) Mul(b Number) Number {
	if a.big == nil && b.big == nil {
		// Cancelling crosswise first leaves the result in lowest terms.
		x, d := a.fraction()
		y, e := b.fraction()
		g1, g2 := gcd(abs(x), e), gcd(abs(y), d)
		return lowest((x/g1)*(y/g2), (d/g2)*(e/g1))
	}
	return fromBig(new(big.Rat).Mul(a.rat(), b.rat()))
}

// Quo returns a ÷ b. It panics when b is zero; callers check divisors that come
// from an author before they get here.
func (a Number) Quo(b Number) Number { return a.Mul(b.inverse()) }

func (a Number) inverse() Number {
	switch {
	case a.IsZero():
		panic("exact: division by zero")
	case a.big != nil:
		return fromBig(new(big.Rat).Inv(a.big))
	}
	num, den := a.fraction()
	if num < 0 {
		return lowest(-den, -num)
	}
	return lowest(den, num)
}

// Cmp returns −1, 0 or +1 as a is less than, equal to or greater than b.
func (a Number) Cmp(b Number) int {
	if a.big == nil && b.big == nil {
		x, d := a.fraction()
		y, e := b.fraction()
		return cmp.Compare(x*e, y*d)
	}
	return a.rat().Cmp(b.rat())
}

// Equal reports whether a and b are the same number.
func (a Number) Equal(b Number) bool { return a.Cmp(b) == 0 }

// Less reports whether a is smaller than b.
func (a Number) Less(b Number) bool { return a.Cmp(b) < 0 }

// Sign returns −1, 0 or +1.
func (a Number) Sign() int {
	if a.big != nil {
		return a.big.Sign()
	}
	return cmp.Compare(a.num, 0)
}

// IsZero reports whether a is 0.
func (a Number) IsZero() bool { return a.Sign() == 0 }

// IsInt reports whether a is a whole number.
func (a Number) IsInt() bool {
	if a.big != nil {
		return a.big.IsInt()
	}
	return a.den == 0
}

// Abs returns the magnitude of a.
func (a Number) Abs() Number {
	if a.Sign() < 0 {
		return a.Neg()
	}
	return a
}

// Max returns the larger of a and b.
func Max(a, b Number) Number {
	if a.Less(b) {
		return b
	}
	return a
}

// Sum returns the sum of all numbers, 0 for none.
func Sum(numbers ...Number) Number {
	total := Zero
	for _, n := range numbers {
		total = total.Add(n)
	}
	return total
}

// Floor returns the largest multiple of step that is not above a; step must be
// positive.
func (a Number) Floor(step Number) Number {
	return step.Mul(a.Quo(step).floor())
}

// Ceil returns the smallest multiple of step that is not below a; step must be
// positive.
func (a Number) Ceil(step Number) Number {
	return a.Neg().Floor(step).Neg()
}

// Round returns the multiple of step nearest to a, halves away from zero, as a
// person rounds on paper; step must be positive.
func (a Number) Round(step Number) Number {
	if a.Sign() < 0 {
		return a.Neg().Round(step).Neg()
	}
	return a.Add(step.Mul(Half)).Floor(step)
}

// floor returns the largest whole number not above a.
func (a Number) floor() Number {
	if a.big == nil {
		num, den := a.fraction()
		q := num / den
		if num%den < 0 {
			q--
		}
		return lowest(q, 1)
	}
	// big.Int.Div is Euclidean, which for a positive divisor is the floor.
	return fromBig(new(big.Rat).SetInt(new(big.Int).Div(a.big.Num(), a.big.Denom())))
}

// Int64 returns a as a whole number; ok is false where a is none or does not fit.
func (a Number) Int64() (n int64, ok bool) {
	if a.big != nil {
		return a.big.Num().Int64(), a.big.IsInt() && a.big.Num().IsInt64()
	}
	return int64(a.num), a.den == 0
}

// Float returns the float64 nearest to a: for drawing and for proportions on a
// page, never for a weight.
func (a Number) Float() float64 {
	if a.big == nil { // both are float64s, and their quotient is rounded once
		num, den := a.fraction()
		return float64(num) / float64(den)
	}
	f, _ := a.rat().Float64()
	return f
}

// String prints a as a decimal where that ends within three places ("67.5"),
// else as a fraction in lowest terms ("70/3"). [Parse] reads both.
func (a Number) String() string {
	if a.EndsWithin(3) {
		return a.Decimal(3)
	}
	if a.big == nil {
		num, den := a.fraction()
		return strconv.FormatInt(num, 10) + "/" + strconv.FormatInt(den, 10)
	}
	return a.rat().RatString()
}

// EndsWithin reports whether a, written as a decimal, ends within so many places.
func (a Number) EndsWithin(places int) bool {
	if a.big == nil && places < len(tens) {
		_, den := a.fraction()
		return tens[places]%den == 0 // it is in lowest terms
	}
	return fromBig(new(big.Rat).Mul(a.rat(), new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil)))).IsInt()
}

// tens are the powers of ten that fit a machine word.
var tens = func() (powers [19]int64) {
	powers[0] = 1
	for i := range powers[1:] {
		powers[i+1] = 10 * powers[i]
	}
	return powers
}()

// Decimal prints a rounded to the given number of decimal places, halves away
// from zero, without trailing zeros: "23.3", "18", "−" is an ASCII hyphen.
func (a Number) Decimal(places int) string { return a.With("", places) }

// With is Decimal with a unit behind it, "23.3 g". Both are written at once: a page has
// hundreds of them.
func (a Number) With(unit string, places int) string {
	var memory [64]byte
	if text, ok := a.appendShort(memory[:0], places); ok {
		return string(append(text, unit...))
	}
	s := a.rat().FloatString(places)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		s = "0"
	}
	return s + unit
}

// appendShort appends what Decimal prints in machine words, which is what nearly every
// number on a page fits; ok is false where it does not.
func (a Number) appendShort(text []byte, places int) (longer []byte, ok bool) {
	if a.big != nil || places >= len(tens) {
		return text, false
	}
	scale := tens[places]
	num, d := a.fraction()
	whole, rest := abs(num)/d, abs(num)%d
	scaled, ok := mulInt(rest, scale)
	if !ok {
		return text, false
	}
	part := scaled / d
	if scaled%d >= d-scaled%d {
		part++
	}
	if part == scale {
		whole, part = whole+1, 0
	}
	if a.num < 0 && whole+part > 0 {
		text = append(text, '-')
	}
	text = strconv.AppendInt(text, whole, 10)
	if part > 0 {
		text = append(text, '.')
		for scale /= 10; part > 0; scale /= 10 {
			text = append(text, byte('0'+part/scale))
			part %= scale
		}
	}
	return text, true
}

// Limits of what an author may type as a number. A bowl weighs less than a tonne
// and no scale in a salon reads below a tenth of a milligram.
const (
	maxWholeDigits    = 9
	maxFractionDigits = 6
)

// ErrSyntax is returned by [Parse] for text that is not a plain decimal or
// fraction.
var ErrSyntax = errors.New("not a number")

// ErrRange is returned by [Parse] for a number with more digits than any weight
// has.
var ErrRange = errors.New("a number with too many digits")

// Parse reads digits with an optional point ("1.5"), or two whole numbers with a
// stroke between them ("20/3"), with an optional leading minus. Nothing else: no
// exponent, no comma (a decimal comma is the caller's to explain), no spaces.
func Parse(s string) (Number, error) {
	body, negative := strings.CutPrefix(s, "-")
	n, err := parseUnsigned(body)
	if err != nil {
		return Zero, err
	}
	if negative {
		n = n.Neg()
	}
	return n, nil
}

func parseUnsigned(s string) (Number, error) {
	if num, den, ok := strings.Cut(s, "/"); ok {
		a, err := parseDigits(num)
		if err != nil {
			return Zero, err
		}
		b, err := parseDigits(den)
		if err != nil {
			return Zero, err
		}
		if b == 0 {
			return Zero, ErrSyntax
		}
		return Of(a, b), nil
	}
	whole, fraction, point := strings.Cut(s, ".")
	if point && (len(fraction) == 0 || len(fraction) > maxFractionDigits) {
		if len(fraction) == 0 {
			return Zero, ErrSyntax
		}
		return Zero, ErrRange
	}
	w, err := parseDigits(whole)
	if err != nil {
		return Zero, err
	}
	n := Int(w)
	if point {
		f, err := parseDigits(fraction)
		if err != nil {
			return Zero, err
		}
		scale := int64(1)
		for range fraction {
			scale *= 10
		}
		n = n.Add(Of(f, scale))
	}
	return n, nil
}

// parseDigits reads one to nine ASCII digits, after any leading zeros.
func parseDigits(s string) (int64, error) {
	if s == "" {
		return 0, ErrSyntax
	}
	var n int64
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return 0, ErrSyntax
		}
	}
	s = strings.TrimLeft(s, "0")
	if len(s) > maxWholeDigits {
		return 0, ErrRange
	}
	for i := range len(s) {
		n = n*10 + int64(s[i]-'0')
	}
	return n, nil
}

func reduced(num, den int64) (Number, bool) {
	if num == math.MinInt64 {
		return Zero, false
	}
	g := gcd(abs(num), den)
	return lowest(num/g, den/g), true
}

// gcd returns the greatest common divisor; b > 0, and gcd(0, b) is b.
func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func abs(n int64) int64 {
	if n < 0 {
		return -n
	}
	return n
}

// mulInt multiplies two values that are not math.MinInt64.
func mulInt(a, b int64) (int64, bool) {
	hi, lo := bits.Mul64(uint64(abs(a)), uint64(abs(b)))
	if hi != 0 || lo > math.MaxInt64 {
		return 0, false
	}
	if (a < 0) != (b < 0) {
		return -int64(lo), true
	}
	return int64(lo), true
}
