package caption

import (
	"strconv"
	"strings"
	"time"
)

// stamp is a time as it stands in a captions file.
type stamp struct {
	at     time.Duration
	strict bool // written as WebVTT wants it, so that a browser reads it too
}

// cutStamp reads the time that s begins with: hours may be missing, a comma may
// stand for the dot, and the fraction may have fewer than three digits or be left
// out. A number of seconds above 59 is no time, and neither is one of minutes
// behind hours.
func cutStamp(s string) (st stamp, rest string, ok bool) {
	first, rest := cutDigits(s)
	second, rest, ok := cutPart(rest)
	if !ok || len(first) == 0 || len(first) > 5 {
		return stamp{}, s, false
	}
	strict := len(first) == 2 && first < "60"
	hours, minutes, seconds := "0", first, second
	if third, after, ok := cutPart(rest); ok {
		hours, minutes, seconds, rest = first, second, third, after
		strict = len(second) == 2
		if number(minutes) > 59 {
			return stamp{}, s, false
		}
	}
	if number(seconds) > 59 {
		return stamp{}, s, false
	}
	total := (number(hours)*60+number(minutes))*60 + number(seconds)
	ms, rest, dotted := cutFraction(rest)
	return stamp{
		at:     time.Duration(total)*time.Second + time.Duration(ms)*time.Millisecond,
		strict: strict && len(seconds) == 2 && dotted,
	}, rest, true
}

// cutPart reads a colon and one or two digits.
func cutPart(s string) (digits, rest string, ok bool) {
	after, ok := strings.CutPrefix(s, ":")
	if !ok {
		return "", s, false
	}
	digits, rest = cutDigits(after)
	if len(digits) == 0 || len(digits) > 2 {
		return "", s, false
	}
	return digits, rest, true
}

// cutFraction reads a dot or comma and digits as milliseconds; what is finer is
// dropped. Dotted says that it is a dot and three digits.
func cutFraction(s string) (ms int, rest string, dotted bool) {
	if s == "" || s[0] != '.' && s[0] != ',' {
		return 0, s, false
	}
	digits, rest := cutDigits(s[1:])
	if digits == "" {
		return 0, s, false
	}
	return number((digits + "00")[:3]), rest, s[0] == '.' && len(digits) == 3
}

func cutDigits(s string) (digits, rest string) {
	n := 0
	for n < len(s) && isDigit(s[n]) {
		n++
	}
	return s[:n], s[n:]
}

// number reads at most five digits, which never fails.
func number(digits string) int {
	n, _ := strconv.Atoi(digits)
	return n
}

// timing is the line of a cue that says when.
type timing struct {
	from, until time.Duration
	strict      bool
}

const spaces = " \t\f"

// readTiming reads "00:00:42.000 --> 00:00:45.500"; what follows is where the cue
// stands on the picture, which is not kept.
func readTiming(line string) (timing, bool) {
	from, rest, ok := cutStamp(strings.TrimLeft(line, spaces))
	if !ok {
		return timing{}, false
	}
	rest, ok = strings.CutPrefix(strings.TrimLeft(rest, spaces), arrow)
	if !ok {
		return timing{}, false
	}
	until, _, ok := cutStamp(strings.TrimLeft(rest, spaces))
	return timing{from.at, until.at, from.strict && until.strict}, ok
}
