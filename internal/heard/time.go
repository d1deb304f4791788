package heard

import (
	"time"

	"plait/internal/exact"
	"plait/internal/measure"
)

// longest is the longest time that is taken for one of a service.
const longest = 4 * time.Hour

// minutes reads "thirty-five minutes", "thirty to forty minutes", "up to 45 min" and
// "half an hour".
func minutes(t *talk, at int) ([]Fact, int) {
	span, n := t.span(at)
	if n == 0 || t.looksIn(at, at+n) {
		return nil, n
	}
	return []Fact{t.timed(span, at, at+n)}, n
}

// span reads a length of time with its unit.
func (t *talk) span(at int) (s measure.Span, words int) {
	if d, n := t.partOfHour(at); n > 0 {
		return measure.Span{Min: d, Max: d}, n
	}
	if t.text(at) == "a" && t.text(at+1) == "minutes" && (t.text(at-1) == "for" || about[t.text(at-1)] || t.closes(at-1) && t.text(at+2) == "on") {
		return measure.Span{Min: time.Minute, Max: time.Minute}, 2
	}
	if d, n := t.hourLong(at); n > 0 {
		return measure.Span{Min: d, Max: d}, n
	}
	low, ok := t.numberAt(at)
	if !ok || t.words[at].ends {
		return s, 0
	}
	high, n := low, 1
	if next := t.text(at + 1); next == "to" || next == "or" {
		if v, ok := t.numberAt(at + 2); ok && low.Less(v) {
			high, n = v, 3
		}
	}
	if fills[t.text(at+n)] && !t.words[at+n-1].comma {
		n++ // "ten more minutes"
	}
	each := time.Minute
	switch t.text(at + n) {
	case "minutes":
	case "hours":
		each = time.Hour
	default:
		return s, 0
	}
	s.Min, s.Max = lasting(low, each), lasting(high, each)
	if s.Max == 0 || s.Max > longest {
		return measure.Span{}, 0
	}
	return s, n + 1
}

// fills may stand between a number and its minutes.
var fills = set("more extra odd full good solid whole straight")

// partOfHour reads "half an hour", "a quarter of an hour" and "three quarters of an hour".
func (t *talk) partOfHour(at int) (d time.Duration, words int) {
	quarters := 1
	i := at
	switch w := t.text(i); {
	case w == "half" && t.follows(i+1, "an hours") > 0:
		return 30 * time.Minute, 3
	case w == "quarter":
	case w == "three" && (t.text(i+1) == "quarters" || t.text(i+1) == "quarter"):
		quarters, i = 3, i+1
	default:
		return 0, 0
	}
	n := t.follows(i+1, "of an hours")
	if n == 0 {
		return 0, 0
	}
	return time.Duration(quarters) * 15 * time.Minute, i + 1 + n - at
}

// hourLong reads "an hour", "an hour and a half" and "an hour and ten" where that is how long
// something takes.
func (t *talk) hourLong(at int) (d time.Duration, words int) {
	i := at - 1
	for about[t.text(i)] || t.text(i) == "it" || t.text(i) == "that" {
		i--
	}
	if w := t.text(at); w != "an" && w != "one" || t.text(at+1) != "hours" || !lasts[t.text(i)] {
		return 0, 0
	}
	if t.words[at+1].ends || t.text(at+2) != "and" {
		return time.Hour, 2
	}
	if part := t.follows(at+3, "a half", "half"); part > 0 {
		return 90 * time.Minute, 3 + part
	}
	if part := t.follows(at+3, "a quarter", "quarter"); part > 0 {
		return 75 * time.Minute, 3 + part
	}
	n, ok := t.numberAt(at + 3)
	more := lasting(n, time.Minute)
	if !ok || more == 0 || more >= time.Hour || t.counts(at+3) && t.text(at+4) != "minutes" {
		return time.Hour, 2
	}
	if t.text(at+4) == "minutes" {
		return time.Hour + more, 5
	}
	return time.Hour + more, 4
}

// lasts stand before a time that something takes.
var lasts = set("for takes took take taking allow allows book books is its be needs need leave leaves left give gives")

// lasting returns a number of units of time, to the second below; 0 for what is too
// long to be one.
func lasting(n exact.Number, each time.Duration) time.Duration {
	seconds, ok := n.Mul(exact.Int(int64(each / time.Second))).Floor(exact.One).Int64()
	if !ok || seconds > int64(longest/time.Second) {
		return 0
	}
	return time.Duration(seconds) * time.Second
}

// looksIn reports whether a time says when something happens and not how long it
// takes: "every two minutes", "after half an hour", "ten minutes ago".
func (t *talk) looksIn(from, to int) bool {
	i := from - 1
	for about[t.text(i)] {
		i--
	}
	switch t.text(i) {
	case "at":
		return t.text(i-1) != "looking" // "we're looking at five minutes"
	case "every", "after", "in", "within", "nearly", "an":
		return true
	case "last":
		return !t.lastOf(i)
	}
	switch t.text(to) {
	case "ago", "later", "late", "early", "hed", "shed", "theyd": // "twenty minutes he'd stand there"
		return true
	}
	return false
}

// lastOf reports whether "last" stands before minutes that are still to come: "it's having
// its last ten minutes", "I leave this for the last five".
func (t *talk) lastOf(at int) bool {
	before := t.text(at - 1)
	return owned[before] || before == "the" && (t.text(at-2) == "for" || gets[t.text(at-2)])
}

var owned = set("its her his their your")

var about = set("about around like maybe roughly a the another first")

// timed completes a time by the words around it.
func (t *talk) timed(s measure.Span, from, to int) Fact {
	if t.atMost(from, to) {
		s.Min = 0
	}
	f := Fact{Kind: Time, Time: s}
	for i := t.sentence(from); i < from; i++ {
		switch w := t.text(i); {
		case applying[w]:
			f.Clock = Applies
		case staying[w]:
			f.OfBowl = f.OfBowl || t.bowlBefore(i)
		case w == "when" || w == "once":
			f.Ended = f.Ended || t.lastOn(i) // "when the last section is covered, start the clock"
		}
	}
	for i := to; i < len(t.words) && i < to+12; i++ {
		switch t.text(i) {
		case "apply":
			f.Clock = Applies
		case "get":
			if t.text(i+1) == "through" {
				f.Clock = Applies
			}
		case "put":
			if t.text(i+1) == "on" {
				f.Clock = Applies
			}
		case "not":
			return f // "from the last section, not from the first touch"
		case "from", "once", "when":
			f.Touch = f.Touch || t.touches(i)
			f.Ended = f.Ended || !f.Touch && t.lastOn(i)
		}
		if t.words[i].ends {
			break
		}
	}
	return f
}

var (
	applying = set("takes took take")
	staying  = set("stays stay sits sit processes develops")
)

// bowlBefore reports whether what stays on is a bowl, by its name: "this bowl now stays".
func (t *talk) bowlBefore(at int) bool {
	for i := at - 1; i >= max(t.sentence(at), at-3); i-- {
		if w := t.text(i); w == "bowl" || w == "filler" || w == "demi" || w == "glaze" || subjects[w] != "" && subjects[w] != Developer {
			return true
		}
	}
	return false
}

// touches reports whether "from the first touch" or its like follows.
func (t *talk) touches(at int) bool {
	for i := at + 1; i <= at+4; i++ {
		if t.text(i) == "first" {
			return true
		}
	}
	return false
}

// lastOn reports whether "from the last section" or "once it is all on" follows.
func (t *talk) lastOn(at int) bool {
	for i := at + 1; i <= at+5; i++ {
		if w := t.text(i); w == "last" || w == "end" || w == "all" {
			return true
		}
	}
	return false
}

// atMost reports whether a time is said as an upper limit.
func (t *talk) atMost(from, to int) bool {
	i := from - 1
	for about[t.text(i)] {
		i--
	}
	switch t.text(i) {
	case "to":
		return t.text(i-1) == "up"
	case "than":
		return limits[t.text(i-1)]
	case "maximum":
		return true
	}
	for i := to; i < to+4; i++ {
		if w := t.text(i); w == "most" || w == "maximum" || w == "tops" || w == "max" {
			return true
		}
		if i < len(t.words) && t.words[i].ends {
			break
		}
	}
	return false
}

// bareMinutes reads a number whose minutes were said a little before: "ten at the
// most", "up to twenty", "and the sides took five".
func bareMinutes(t *talk, at int) ([]Fact, int) {
	number, ok := t.numberAt(at)
	given := ok && t.givenTime(at, number)
	if !ok || !given && !t.timedLately(at) || t.counts(at) || t.words[at].code != "" || number.Less(exact.Int(2)) {
		return nil, 0
	}
	next := t.text(at + 1)
	if next == "to" || next == "of" || next == "past" || next == "parts" || t.noun(at+1) {
		return nil, 0
	}
	limit := t.atMost(at, at+1)
	switch before := t.text(at - 1); {
	case limit, given:
	case before == "took" || before == "takes":
	case before == "for" && t.text(at-2) == "go":
	case t.placeGets(at):
	default:
		return nil, 0
	}
	d := lasting(number, time.Minute)
	if d == 0 {
		return nil, 0
	}
	return []Fact{t.timed(measure.Span{Min: d, Max: d}, at, at+1)}, 1
}

// leastGiven and mostGiven bound the minutes that are given without their unit.
var leastGiven, mostGiven = exact.Int(5), exact.Int(60)

// givenTime reports whether a number is what something is left for: "leave it on for
// thirty-five", "give it another ten".
func (t *talk) givenTime(at int, n exact.Number) bool {
	if n.Less(leastGiven) || mostGiven.Less(n) || !n.IsInt() || !t.closes(at) && !afterNumber[t.text(at+1)] {
		return false
	}
	i := at - 1
	for about[t.text(i)] || fills[t.text(i)] {
		i--
	}
	if t.text(i) == "for" && sits[t.text(i-1)] {
		return true
	}
	for t.text(i) == "for" || t.text(i) == "on" {
		i--
	}
	if !left[t.text(i)] {
		return false
	}
	verb := t.text(i - 1)
	return leaving[verb] || verb == "give" || verb == "gives" || verb == "giving" || verb == "gave"
}

// sits is what colour does for its time: "it sits for thirty".
var sits = set("sit sits sitting process processes processing develop develops developing stay stays on")

// left is what is left on the hair.
var left = set("it that this them these everything")

// placeGets reports whether a number is what a place of the head gets, where the one before
// got minutes: "the sides get ten", "the mid-lengths about twenty-five".
func (t *talk) placeGets(at int) bool {
	n := len(t.facts)
	if n < 2 || t.facts[n-1].Kind != Section {
		return false
	}
	i := at - 1
	for about[t.text(i)] {
		i--
	}
	if gets[t.text(i)] {
		i--
	}
	place := t.where[n-1]
	_, words := t.placeName(place)
	if i != place+words-1 {
		return false
	}
	for j := n - 2; j >= 0 && at-t.where[j] <= 30; j-- {
		switch t.facts[j].Kind {
		case Time:
			return true
		case Section:
		default:
			return false
		}
	}
	return false
}

// gets stand between a place and its minutes.
var gets = set("get gets got need needs want wants has have had was were is are")

// noun reports whether the word behind a bare number may be what it counts.
func (t *talk) noun(at int) bool {
	if t.closes(at - 1) {
		return false
	}
	return !afterNumber[t.text(at)]
}

// afterNumber is what may follow a number that stands for minutes.
var afterNumber = set("and at but because in on if so then thats its the from once i you when or with as")

// timedLately reports whether minutes were spoken of shortly before a place.
func (t *talk) timedLately(at int) bool {
	for i := max(0, at-30); i < at; i++ {
		if t.text(i) == "minutes" {
			return true
		}
	}
	return false
}
