package heard

import (
	"plait/internal/exact"
)

// The words of numbers.
var (
	ones = map[string]int64{
		"zero": 0, "nought": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
		"nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16,
		"seventeen": 17, "eighteen": 18, "nineteen": 19,
	}
	tens = map[string]int64{
		"twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80,
		"ninety": 90,
	}
	glyphs = map[string]exact.Number{"½": exact.Half, "¼": exact.Of(1, 4), "¾": exact.Of(3, 4)}
)

// join makes one word of every number that takes several: "thirty five", "a hundred
// and twenty", "one and a half", "seven point nought".
func join(words []word) []word {
	out := words[:0]
	for i := 0; i < len(words); {
		w, n := numberFrom(words[i:])
		if n == 0 {
			out = append(out, words[i])
			i++
			continue
		}
		last := words[i+n-1]
		w.cue, w.from, w.end, w.to = words[i].cue, words[i].from, last.end, last.to
		w.text, w.code = words[i].text, words[i].code
		w.comma, w.ends, w.asked = last.comma, last.ends, last.asked
		out = append(out, w)
		i += n
	}
	return out
}

// numberFrom reads a number at the beginning of some words and returns how many it
// takes, 0 for none.
func numberFrom(words []word) (w word, n int) {
	value, n := whole(words)
	if n == 0 {
		return w, 0
	}
	w.number, w.value, w.digits = true, value, value.String()
	if words[0].number && n == 1 {
		w.digits = words[0].digits
	}
	if broken(words, n) {
		return w, n
	}
	if words[n].text == "point" {
		if digits, used := decimals(words[n+1:]); used > 0 {
			if v, err := exact.Parse(w.digits + "." + digits); err == nil {
				w.value, w.digits = v, w.digits+"."+digits
				n += 1 + used
			}
		}
	}
	if part, used := andAPart(words, n); used > 0 {
		w.value = w.value.Add(part)
		w.digits = "" // "seven and a half" is no code
		n += used
	}
	return w, n
}

// broken reports whether something stands between the first n words and the next.
func broken(words []word, n int) bool {
	return n >= len(words) || words[n-1].comma || words[n-1].ends
}

// whole reads a number without a fraction, in digits or in words.
func whole(words []word) (value exact.Number, n int) {
	if len(words) == 0 {
		return exact.Zero, 0
	}
	if words[0].number {
		return words[0].value, 1
	}
	small, n := belowHundred(words)
	hundred := n
	if n == 0 && words[0].text == "a" {
		small, hundred = 1, 1
	}
	if hundred > 0 && !broken(words, hundred) && words[hundred].text == "hundred" {
		total, used := small*100, hundred+1
		rest := used
		if !broken(words, used) && words[used].text == "and" {
			rest++
		}
		if rest < len(words) && !broken(words, used) {
			if more, m := belowHundred(words[rest:]); m > 0 {
				return exact.Int(total + more), rest + m
			}
		}
		return exact.Int(total), used
	}
	return exact.Int(small), n
}

// belowHundred reads "five", "thirty" or "thirty five".
func belowHundred(words []word) (value int64, n int) {
	if v, ok := ones[words[0].text]; ok {
		return v, 1
	}
	v, ok := tens[words[0].text]
	if !ok {
		return 0, 0
	}
	if !broken(words, 1) {
		if one, ok := ones[words[1].text]; ok && one > 0 && one < 10 {
			return v + one, 2
		}
	}
	return v, 1
}

// decimals reads the figures behind a point: "eight", "nought one", or digits.
func decimals(words []word) (digits string, n int) {
	for n < len(words) && n < 3 {
		w := words[n]
		v, ok := ones[w.text]
		switch {
		case w.text == "oh" || w.text == "o":
			digits += "0"
		case ok && v < 10:
			digits += exact.Int(v).String()
		case w.number && n == 0:
			return w.digits, 1
		default:
			return digits, n
		}
		n++
		if w.comma || w.ends {
			break
		}
	}
	return digits, n
}

// andAPart reads "and a half" behind n words.
func andAPart(words []word, n int) (part exact.Number, used int) {
	if broken(words, n) || n+1 >= len(words) {
		return exact.Zero, 0
	}
	at := n
	if words[at].text == "and" {
		at++
		if words[at].text == "a" && at+1 < len(words) {
			at++
		}
		switch words[at].text {
		case "half":
			return exact.Half, at - n + 1
		case "quarter":
			return exact.Of(1, 4), at - n + 1
		}
		return exact.Zero, 0
	}
	if p, ok := glyphs[words[at].text]; ok {
		return p, 1
	}
	return exact.Zero, 0
}
