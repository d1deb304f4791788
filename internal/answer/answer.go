// Package answer reads what a learner types and judges it.
//
// An answer is a number with its unit, a ratio, a time of day or a word. Its value is
// exact, and [Key.Accepts] asks whether it lies within a tolerance of the truth: how it
// is spelled does not matter. "67,5", "67.5 g", "67 1/2 grams" and "135/2" are one
// weight, "1:1.5", "1 to 1½" and "2:3" one ratio.
//
// The script of the pages judges the same way: both are run on the same vectors in a
// test.
package answer

import (
	"errors"
	"fmt"
	"regexp"
	"strings"
	"sync"

	"plait/internal/exact"
)

// Unit says what kind of answer is asked for, and in what it is counted.
type Unit string

// The units of answers. Time counts minutes, Moment minutes after midnight, Ratio
// developer for one of colour.
const (
	Bare       Unit = ""
	Level      Unit = "level"
	Gram       Unit = "g"
	Percent    Unit = "%"
	Volume     Unit = "vol"
	Time       Unit = "min"
	Hour       Unit = "h"
	Centimetre Unit = "cm"
	Area       Unit = "cm²"
	Degree     Unit = "°"
	Pack       Unit = "packs"
	Ratio      Unit = "ratio"
	Moment     Unit = "clock"
	Word       Unit = "word"
)

// scale is how many of a unit one of a spelling is.
type scale map[string]exact.Number

// spellings are the ways to write each unit that counts, with what one of them is
// worth. None written means the unit asked for.
var spellings = map[Unit]scale{
	Bare:       {},
	Level:      same("level", "levels"),
	Gram:       same("g", "gr", "gram", "grams", "gramme", "grammes").and("kg", exact.Int(1000)),
	Percent:    same("%", "per cent", "percent"),
	Volume:     same("vol", "vols", "vol.", "volume", "volumes"),
	Time:       same("min", "mins", "min.", "minute", "minutes").and("h", exact.Int(60)).and("hour", exact.Int(60)).and("hours", exact.Int(60)),
	Hour:       same("h", "hour", "hours").and("min", exact.Of(1, 60)).and("minutes", exact.Of(1, 60)),
	Centimetre: same("cm", "centimetre", "centimetres").and("mm", exact.Of(1, 10)),
	Area:       same("cm2", "cm^2", "sq cm"),
	Degree:     same("°", "degree", "degrees", "deg"),
	Pack:       same("pack", "packs", "tube", "tubes", "bottle", "bottles", "tub", "tubs"),
}

func same(words ...string) scale {
	s := scale{}
	for _, w := range words {
		s[w] = exact.One
	}
	return s
}

func (s scale) and(word string, worth exact.Number) scale {
	s[word] = worth
	return s
}

// ParseUnit returns the unit that a spelling names.
func ParseUnit(s string) (u Unit, ok bool) {
	for unit, words := range spellings {
		if worth, ok := words[tidy(s)]; ok && worth.Equal(exact.One) {
			return unit, true
		}
	}
	return Bare, s == ""
}

// Value is an answer that was understood: a number of its unit, or a word.
type Value struct {
	Number exact.Number
	Word   string
}

// ErrEmpty is returned for an answer without anything in it.
var ErrEmpty = errors.New("nothing was answered")

// longest bounds what is looked at: no answer needs more.
const longest = 80

// Parse reads an answer that is asked for in a unit. Its errors say what to write.
func Parse(text string, u Unit) (Value, error) {
	if len(text) > longest {
		return Value{}, fmt.Errorf("that is too long; write %s", example(u))
	}
	s := tidy(text)
	switch {
	case s == "":
		return Value{}, ErrEmpty
	case u == Word:
		return Value{Word: s}, nil
	case u == Ratio:
		return parseRatio(s)
	case u == Moment:
		return parseMoment(s)
	}
	return parseNumber(s, u)
}

// Guess reads an answer whose unit is told by the way it is written: "48 h", "1:1.5",
// "09:30" with two digits before the colon, "8" for a bare number.
func Guess(text string) (Unit, Value, error) {
	s := tidy(text)
	switch {
	case s == "":
		return Bare, Value{}, ErrEmpty
	case len(text) > longest:
		return Bare, Value{}, errors.New("that is too long")
	case len(s) >= 5 && s[2] == ':' && forms().moment.MatchString(s):
		v, err := parseMoment(s)
		return Moment, v, err
	case strings.Contains(s, ":"):
		v, err := parseRatio(s)
		return Ratio, v, err
	}
	m := forms().number.FindStringSubmatch(s)
	if m == nil {
		return Bare, Value{}, errors.New("that is not a number")
	}
	unit, ok := ParseUnit(m[7])
	if strings.HasPrefix(s, "level ") {
		unit = Level
	}
	if !ok {
		return Bare, Value{}, fmt.Errorf("%q is no unit of answers", m[7])
	}
	v, err := parseNumber(s, unit)
	return unit, v, err
}

// fractions are the signs that stand for a fraction. One that follows a digit adds to it.
var fractions = strings.NewReplacer("½", " 1/2", "⅓", " 1/3", "¼", " 1/4", "⅔", " 2/3", "¾", " 3/4")

// signs are spellings of one sign: spaces that do not break, the long minus, and the
// small two of an area.
var signs = strings.NewReplacer("\u00a0", " ", "\u202f", " ", "\u2009", " ", "\t", " ", "−", "-", "²", "2", "=", " ", "≈", " ")

// tidy brings an answer to one form: small letters, single spaces, plain signs. Only
// the letters A to Z are made small, which every language does alike.
func tidy(s string) string {
	s = signs.Replace(fractions.Replace(s))
	s = strings.Map(func(r rune) rune {
		if r >= 'A' && r <= 'Z' {
			return r + 'a' - 'A'
		}
		return r
	}, s)
	s = strings.Join(strings.FieldsFunc(s, func(r rune) bool { return r == ' ' }), " ")
	if rest, negative := strings.CutPrefix(s, "- "); negative {
		return "-" + rest
	}
	return s
}

// The forms of a number: 67, 67.5, 67,5, 135/2, 67 1/2. The script has the same.
const (
	numberForm = `(\d{1,9})(?:[.,](\d{1,6})| ?/ ?(\d{1,9})| (\d{1,9})/(\d{1,9}))?`
	ratioForm  = `^` + numberForm + ` ?(?::|to) ?` + numberForm + `$`
	momentForm = `^(\d{1,2})[:.h](\d{2}) ?(am|pm)?$`
)

var forms = sync.OnceValue(func() (f struct{ number, ratio, moment *regexp.Regexp }) {
	f.number = regexp.MustCompile(`^(?:level )?(-?)` + numberForm + ` ?(.*)$`)
	f.ratio = regexp.MustCompile(ratioForm)
	f.moment = regexp.MustCompile(momentForm)
	return f
})

func parseNumber(s string, u Unit) (Value, error) {
	m := forms().number.FindStringSubmatch(s)
	if m == nil {
		return Value{}, fmt.Errorf("that is not a number; write %s", example(u))
	}
	n, err := number(m[2:7])
	if err != nil {
		return Value{}, err
	}
	if m[1] != "" {
		n = n.Neg()
	}
	if m[7] == "" {
		return Value{Number: n}, nil
	}
	worth, ok := spellings[u][m[7]]
	if !ok {
		return Value{}, fmt.Errorf("%q is not what is asked for; write %s", m[7], example(u))
	}
	return Value{Number: n.Mul(worth)}, nil
}

func parseRatio(s string) (Value, error) {
	m := forms().ratio.FindStringSubmatch(s)
	if m == nil {
		return Value{}, fmt.Errorf("that is not a ratio; write %s", example(Ratio))
	}
	colour, err := number(m[1:6])
	if err != nil {
		return Value{}, err
	}
	developer, err := number(m[6:11])
	if err != nil {
		return Value{}, err
	}
	if colour.IsZero() {
		return Value{}, fmt.Errorf("a ratio begins with more than nothing; write %s", example(Ratio))
	}
	return Value{Number: developer.Quo(colour)}, nil
}

func parseMoment(s string) (Value, error) {
	m := forms().moment.FindStringSubmatch(s)
	if m == nil {
		return Value{}, fmt.Errorf("that is not a time of day; write %s", example(Moment))
	}
	hour, minute := digits(m[1]), digits(m[2])
	if hour > 23 || minute > 59 || m[3] != "" && (hour < 1 || hour > 12) {
		return Value{}, fmt.Errorf("there is no such time of day; write %s", example(Moment))
	}
	if m[3] != "" {
		hour %= 12
		if m[3] == "pm" {
			hour += 12
		}
	}
	return Value{Number: exact.Int(hour*60 + minute)}, nil
}

// number makes a number of the parts that [numberForm] found: the whole, the decimal
// places, the divisor, or the top and bottom of a fraction behind the whole.
func number(part []string) (exact.Number, error) {
	whole := exact.Int(digits(part[0]))
	switch {
	case part[1] != "":
		places := exact.One
		for range part[1] {
			places = places.Mul(exact.Of(1, 10))
		}
		return whole.Add(places.Mul(exact.Int(digits(part[1])))), nil
	case part[2] != "":
		return over(whole, part[2])
	case part[3] != "":
		fraction, err := over(exact.Int(digits(part[3])), part[4])
		return whole.Add(fraction), err
	}
	return whole, nil
}

func over(top exact.Number, bottom string) (exact.Number, error) {
	b := digits(bottom)
	if b == 0 {
		return exact.Zero, errors.New("nothing can be divided by nothing")
	}
	return top.Quo(exact.Int(b)), nil
}

// digits reads up to nine ASCII digits.
func digits(s string) int64 {
	var n int64
	for i := range len(s) {
		n = n*10 + int64(s[i]-'0')
	}
	return n
}

// example is how an answer in a unit may look.
func example(u Unit) string {
	switch u {
	case Ratio:
		return "a ratio, such as 1:1.5"
	case Moment:
		return "a time of day, such as 10:52"
	case Bare, Level:
		return "a number, such as 6.5"
	}
	return "a number, such as 67.5 " + string(u)
}
