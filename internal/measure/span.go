package measure

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"plait/internal/exact"
)

// Span is a stretch of time from Min to Max; where both are equal it is one time.
// The zero Span is none.
type Span struct{ Min, Max time.Duration }

// ParseSpan reads "15 min", "30-45 min", "up to 50 min" or "90 s".
func ParseSpan(s string) (Span, error) {
	body, upTo := strings.CutPrefix(strings.TrimSpace(s), "up to ")
	low, high, isSpan := strings.Cut(strings.ReplaceAll(body, "–", "-"), "-")
	switch {
	case isSpan && strings.TrimSpace(low) == "":
		return Span{}, fmt.Errorf("%q is a negative time; write it without the hyphen", s)
	case isSpan && upTo:
		return Span{}, fmt.Errorf("%q is both a span and an upper limit; write one of them", s)
	case !isSpan:
		high = low
	}
	_, unit := CutUnit(high)
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
		return Span{}, fmt.Errorf("%q ends before it begins; write the shorter time first, as in 30-45 min", s)
	}
	return Span{from, to}, nil
}

// longest is the longest time plait takes for one step of a service.
const longest = 24 * time.Hour

// parseDuration reads a number with the given unit where it carries none itself.
func parseDuration(s, unit string) (time.Duration, error) {
	s = strings.TrimSpace(s)
	number, own := CutUnit(s)
	if own != "" {
		unit = own
	}
	if number == "" {
		return 0, fmt.Errorf("%q is not a time; write a number and the unit, as in 15 min", s)
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
		return 0, fmt.Errorf("%q has no unit of time; write minutes, as in 15 min", s)
	}
	seconds := n.Mul(exact.Int(int64(each / time.Second)))
	if exact.Int(int64(longest / time.Second)).Less(seconds) {
		return 0, fmt.Errorf("%q is longer than a day; write minutes, as in 15 min", s)
	}
	whole, ok := seconds.Int64()
	if !ok {
		return 0, fmt.Errorf("%q is not a whole number of seconds; write whole minutes or seconds, as in 90 s", s)
	}
	return time.Duration(whole) * time.Second, nil
}

// IsZero reports whether the span is none.
func (s Span) IsZero() bool { return s == Span{} }

// Contains reports whether o lies within s.
func (s Span) Contains(o Span) bool { return s.Min <= o.Min && o.Max <= s.Max }

// String prints the span as an author writes it; [ParseSpan] reads it back.
func (s Span) String() string {
	low, high := Minutes(s.Min), Minutes(s.Max)
	switch {
	case s.Min == s.Max:
		return high
	case s.Min == 0:
		return "up to " + high
	case strings.HasSuffix(low, " min") && strings.HasSuffix(high, " min"):
		low = strings.TrimSuffix(low, " min")
	}
	return low + "-" + high
}

// Minutes prints a duration in minutes, "15 min", or in seconds, "90 s", where it
// is no whole number of minutes.
func Minutes(d time.Duration) string {
	if d%time.Minute == 0 {
		return strconv.Itoa(int(d/time.Minute)) + " min"
	}
	return fmt.Sprintf("%d s", d/time.Second)
}
