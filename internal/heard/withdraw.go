package heard

import (
	"time"

	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/peroxide"
)

// window is how many words may lie between a fact and the one that corrects it.
const window = 45

// withdraw marks every fact that a later one of the same kind corrects: between the
// two stand words such as "sorry" or "I meant".
func (t *talk) withdraw() {
	for _, s := range t.kindSlips {
		t.rightKind(s)
	}
	for i, f := range t.facts {
		if t.swapped(i) {
			t.facts[i].Withdrawn = true
			if i+1 < len(t.facts) && t.facts[i+1].Kind == Shade && t.facts[i+1].Code == f.Of {
				t.facts[i+1].Withdrawn = true
			}
			continue
		}
		for j := i + 1; j < len(t.facts) && t.where[j]-t.where[i] <= window; j++ {
			if !f.sameQuantity(t.facts[j]) {
				continue
			}
			if f.Value() != t.facts[j].Value() && t.corrected(t.where[i], t.where[j]) {
				t.facts[i].Withdrawn = true
			}
			break
		}
	}
}

// swapReach is how many words may lie between a place or a shade and the one that is said in
// its stead.
const swapReach = 20

// swapped reports whether a place, or what is dosed, was a slip of which the right one follows:
// "two parts of 6N, no, sorry, two parts of 6G".
func (t *talk) swapped(i int) bool {
	f := t.facts[i]
	dosed := f.Kind == Parts || f.Kind == Weight
	if f.Kind != Section && !dosed {
		return false
	}
	for j := i + 1; j < len(t.facts) && t.where[j]-t.where[i] <= swapReach; j++ {
		o := t.facts[j]
		if o.Kind != f.Kind || o.Value() == f.Value() {
			continue
		}
		if dosed {
			return t.isCodeName(f.Of) && t.isCodeName(o.Of) && o.Of != f.Of && f.Number.Equal(o.Number) && t.sorry(t.where[i], t.where[j])
		}
		return t.sorry(t.where[i], min(t.where[i]+placeSlip, t.where[j]))
	}
	return false
}

// placeSlip is how soon behind a place a slip of it is admitted.
const placeSlip = 6

// sorry reports whether a slip is admitted between two words.
func (t *talk) sorry(from, to int) bool {
	for i := from + 1; i < to; i++ {
		if t.text(i) == "sorry" && (t.text(i-1) == "no" || t.words[i-1].ends || t.words[i-1].comma || t.words[i].comma) {
			return true
		}
	}
	return false
}

// meanReach is how far behind "I mean" the right value stands.
const meanReach = 5

// rightReach is how many words may lie between a value and the bare number that rights it.
const rightReach = 22

// rights reads a bare number that corrects the value just said: "thirty volume, no, twenty".
// The unit is that of the slip.
func (t *talk) rights(at int) (right Fact, ok bool) {
	number, isNumber := t.numberAt(at)
	last := len(t.facts) - 1
	if !isNumber || t.text(at) == "one" || last < 0 || t.words[at].code != "" || !t.closes(at) && !afterNumber[t.text(at+1)] {
		return right, false
	}
	slip := &t.facts[last]
	from := t.where[last]
	if slip.Withdrawn || at-from > rightReach || !t.corrected(from, at) || t.numbersWithin(from+factReach, at) {
		return right, false
	}
	right, ok = slip.withNumber(number)
	if !ok || right.Value() == slip.Value() {
		return right, false
	}
	slip.Withdrawn = true
	return right, true
}

// numbersWithin reports whether a number stands between two places: what comes behind corrects that
// one.
func (t *talk) numbersWithin(from, to int) bool {
	for i := from; i < to; i++ {
		if _, ok := t.numberAt(i); ok && t.text(i) != "one" {
			return true
		}
	}
	return false
}

// withNumber returns a fact with another number, in the unit of the fact. ok is false for what
// a number alone cannot say, or where it is beyond what can be meant.
func (f Fact) withNumber(n exact.Number) (with Fact, ok bool) {
	switch f.Kind {
	case Strength:
		if f.Percent {
			f.Strength, ok = peroxide.Percent(n), !mostPercent.Less(n)
		} else {
			f.Strength, ok = peroxide.Volumes(n), !mostVolumes.Less(n)
		}
	case Time:
		d := lasting(n, time.Minute)
		f.Time, ok = measure.Span{Min: d, Max: d}, d > 0
	case Weight, Parts:
		f.Number, ok = n, true
	case Level:
		f.Number, ok = n, isLevel(n)
	case Dry, White:
		f.Number, ok = n.Mul(hundredth), !exact.Int(100).Less(n)
	}
	return f, ok && !n.IsZero()
}

// sameQuantity reports whether two facts cannot both hold of one bowl.
func (f Fact) sameQuantity(o Fact) bool {
	switch {
	case f.Kind != o.Kind || f.Kind == Section || f.Kind == Shade:
		return false
	case f.Kind == Parts || f.Kind == Weight:
		return f.Of == o.Of && f.Tubes == o.Tubes
	case f.Kind == Strength:
		return f.Percent == o.Percent
	}
	return true
}

// corrected reports whether something between two words takes the first back.
func (t *talk) corrected(from, to int) bool {
	for i := from + 1; i < to; i++ {
		if t.isSettled(i) {
			continue
		}
		if admits[t.text(i)] {
			return true
		}
		switch t.text(i) {
		case "oops", "correction":
			return true
		case "i":
			if t.text(i+1) == "mean" && to-i <= meanReach { // else it only fills a pause
				return true
			}
		case "no":
			if t.words[i].comma || t.words[i].ends || (t.words[i-1].ends || t.words[i-1].comma) && openNo[t.text(i+1)] {
				return true
			}
		case "wait":
			if t.words[i-1].ends || openWait[t.text(i+1)] {
				return true
			}
		case "what":
			if t.follows(i+1, "am i saying", "am i talking about") > 0 {
				return true
			}
		case "hang", "hold":
			if t.text(i+1) == "on" {
				return true
			}
		case "scratch", "make", "strike":
			if t.text(i+1) == "that" {
				return true
			}
		case "should":
			if t.text(i+1) == "be" {
				return true
			}
		}
	}
	return false
}

// openNo is what follows "no" where it takes something back: "No it's four", and not "No
// shampoo".
var openNo = set("no its thats i im it that this wait sorry make not")

// admits are words that admit a slip.
var admits = set("sorry meant wrong mistake misspoke")

// openWait is what follows "wait" where it stops the speaker and not the client.
var openWait = set("let no i a that thats")
