package heard

import (
	"time"

	"plait/internal/exact"
	"plait/internal/peroxide"
)

// A slip is told of in so many words, at times minutes after it: "did I say thirty
// volume before? I meant twenty", "I said 9V, it's 8V, my bad", "I told you ten and that's
// wrong".

// recantReach is how many words behind the slip may admit it.
const recantReach = 14

// lookBack is how many words a slip may lie back: about half an hour of talk.
const lookBack = 5000

// takesBack is how a sentence begins that takes a value back: what it needs behind the value to
// do so.
type takesBack uint8

const (
	nothing   takesBack = iota
	retells             // "I told you ten": a word that admits the slip, or the right value
	denies              // "it was not ten": the right value
	dismisses           // "scratch the ten": nothing
)

// recants reads such a sentence up to the slip, takes back what was said before and
// returns how many words that takes; 0 where nothing is taken back, as in "did I say
// six percent? I did".
func (t *talk) recants(at int) (words int) {
	how, n := t.opens(at)
	if how == nothing {
		return 0
	}
	for i := at + n; i < min(at+n+slipReach, len(t.words)); i++ {
		slip, n := t.slip(i)
		if n == 0 {
			continue
		}
		behind := i + n
		right, instead := t.instead(behind, slip)
		proven := instead || how == dismisses || how == retells && (t.admitted(behind) || t.announced(at))
		if !proven || !t.takeBack(at, slip) {
			return 0
		}
		t.settle(at, behind)
		if right > 0 && !t.saidAgain(right) { // "I meant fifteen" says a number and leaves its unit out
			if with, ok := slip.withNumber(t.words[right].value); ok {
				t.add(with, right, right+1)
			}
			return right + 1 - at
		}
		return behind - at
	}
	return 0
}

// settle notes the words that took a slip back by its name: what else fell before is not
// corrected by them.
func (t *talk) settle(from, behind int) {
	to := behind
	for to < min(behind+recantReach, len(t.words)) && !t.words[to-1].ends {
		to++
	}
	t.settled = append(t.settled, [2]int{from, to})
}

// isSettled reports whether a word belongs to what took a slip back by its name.
func (t *talk) isSettled(at int) bool {
	for _, s := range t.settled {
		if s[0] <= at && at < s[1] {
			return true
		}
	}
	return false
}

// kindSlip is a slip that is named by what it was about: "what I told you before about the clock
// was wrong".
type kindSlip struct {
	kind Kind
	at   int
}

// kindWords are the words for what a slip was about.
var kindWords = map[string]Kind{
	"clock": Time, "time": Time, "timing": Time, "minutes": Time, "ratio": Ratio, "developer": Strength, "peroxide": Strength,
	"volume": Strength, "strength": Strength, "level": Level,
}

// tellsOfKind notes such a slip, where one begins at a word.
func (t *talk) tellsOfKind(at int) {
	n := t.follows(at, "what i told you", "what i said", "what i gave you")
	if n == 0 {
		return
	}
	for i := at + n; i < min(at+n+recantReach, len(t.words)); i++ {
		kind, ok := kindWords[t.text(i)]
		if ok && t.admitted(i+1) {
			t.kindSlips = append(t.kindSlips, kindSlip{kind, i})
			return
		}
		if t.words[i].ends {
			return
		}
	}
}

// rightKind takes back what such a slip was about: the last value of its kind before it, of a bowl
// that stays on where there is one. What is said of it next is right.
func (t *talk) rightKind(s kindSlip) {
	slip := -1
	for i, f := range t.facts {
		if f.Kind != s.kind || f.Withdrawn {
			continue
		}
		if t.where[i] > s.at {
			if slip >= 0 && t.where[i]-s.at <= window && t.facts[slip].Value() != f.Value() {
				t.facts[slip].Withdrawn = true
			}
			return
		}
		if slip < 0 || f.OfBowl || !t.facts[slip].OfBowl {
			slip = i
		}
	}
}

// slipReach is how many words may lie between "I told you" and the slip.
const slipReach = 6

// opens reports how what begins at a word takes a value back, and how many words that is told
// in before the value.
func (t *talk) opens(at int) (how takesBack, words int) {
	if n := t.retold(at); n > 0 {
		return retells, n
	}
	switch before, w := t.text(at-1), t.text(at); {
	case dismissing[w] && t.text(at+1) == "the":
		return dismisses, 1
	case (w == "cross" || w == "strike") && t.text(at+1) == "out" && t.text(at+2) == "the":
		return dismisses, 2
	case w == "wasnt" || w == "isnt" || w == "not" && denied[before]:
		return denies, 1
	}
	return nothing, 0
}

var (
	// dismissing begin what takes a value back by itself: "scratch the one point nine".
	dismissing = set("scratch scrap forget ignore strike")
	// denied stand before "not" where a value is denied: "it was not twelve minutes, it was
	// eighteen".
	denied = set("was is its thats")
	// listeners are told things.
	listeners = set("you yall ye youse everyone everybody them folks")
)

// retold returns how many words take up again what was said before: "I told you", and of "the
// three I gave you" the one before the value.
func (t *talk) retold(at int) int {
	if w := t.text(at); w == "the" || w == "that" {
		if _, ok := t.numberAt(at + 1); ok && t.tells(at+2) > 0 {
			return 1
		}
	}
	return t.tells(at)
}

// tells returns how many words "I told you", "I said" or "did I say" takes.
func (t *talk) tells(at int) int {
	switch w, next := t.text(at), t.text(at+1); {
	case w == "did" && next == "i" && t.text(at+2) == "say":
		return 3
	case w == "i" && next == "said":
		return 2
	case (w == "i" || w == "ive") && (next == "told" || next == "gave") && listeners[t.text(at+2)]:
		return 3
	}
	return 0
}

// saidAgain reports whether the number at a place is said once more behind it, in full:
// "it's twenty. Twenty grams of powder".
func (t *talk) saidAgain(at int) bool {
	n, _ := t.numberAt(at)
	again, ok := t.numberAt(at + 1)
	return ok && again.Equal(n)
}

// slip reads what is said to have been said, and how many words that takes. Of what fell
// before its number is enough: "I said four percent", "I said one and a half", "I told you
// twenty on those".
func (t *talk) slip(at int) (f Fact, words int) {
	if facts, n := t.find(at, true); len(facts) > 0 {
		return facts[0], n
	}
	number, ok := t.numberAt(at)
	if !ok {
		return f, 0
	}
	last := t.lastMention(at, number)
	for i := len(t.facts) - 1; i >= 0 && at-t.where[i] <= lookBack; i-- {
		switch f := t.facts[i]; {
		case f.Withdrawn:
		case f.Kind == Strength && f.Percent && t.text(at+1) == "percent" && f.Strength.Cmp(peroxide.Percent(number)) == 0:
			return f, 2
		case f.short(number) && t.where[i] <= last && last <= t.where[i]+factReach:
			return f, 1
		}
	}
	return f, 0
}

// factReach is how many words behind the first of a fact its number may stand.
const factReach = 4

// lastMention returns where a number fell last before a place, −1 if it did not. What fell
// of something else meanwhile ("four centimetres") is what the number stands for now.
func (t *talk) lastMention(at int, number exact.Number) int {
	for i := at - 1; i >= max(0, at-lookBack); i-- {
		if n, ok := t.numberAt(i); ok && n.Equal(number) {
			return i
		}
	}
	return -1
}

// short reports whether a number alone can stand for what a fact says.
func (f Fact) short(number exact.Number) bool {
	switch f.Kind {
	case Ratio:
		return f.Ratio.PerColour().Equal(number)
	case Time:
		return f.Time.Max == lasting(number, time.Minute)
	case Strength:
		return !f.Percent && f.Strength.Cmp(peroxide.Volumes(number)) == 0
	case Dry, White:
		return f.Number.Equal(number.Mul(hundredth))
	case Parts, Weight, Level:
		return f.Number.Equal(number)
	}
	return false
}

// announced reports whether the words before a place say that something was told wrong.
func (t *talk) announced(at int) bool {
	for i := max(0, at-recantReach/2); i < at; i++ {
		if admits[t.text(i)] {
			return true
		}
	}
	return false
}

// takeBack marks the last fact that says the same. What is dosed of a shade goes with
// the shade.
func (t *talk) takeBack(at int, slip Fact) bool {
	for i := len(t.facts) - 1; i >= 0 && at-t.where[i] <= lookBack; i-- {
		f := &t.facts[i]
		if f.Withdrawn || f.Kind != slip.Kind || f.Value() != slip.Value() && !f.vaguely(slip) {
			continue
		}
		f.Withdrawn = true
		if f.Kind != Shade {
			return true
		}
		for j := range t.facts {
			if d := &t.facts[j]; d.Cue == f.Cue && d.Of == f.Code && (d.Kind == Parts || d.Kind == Weight) {
				d.Withdrawn = true
			}
		}
		return true
	}
	return false
}

// vaguely reports whether a slip says the dose of a fact and leaves out of what: "I said
// twenty-five grams of the second one".
func (f Fact) vaguely(slip Fact) bool {
	dose := f.Kind == Parts || f.Kind == Weight
	return dose && slip.Of == "" && f.Tubes == slip.Tubes && f.Number.Cmp(slip.Number) == 0
}

// admitted reports whether the words from a place on call what stands before a slip.
func (t *talk) admitted(at int) bool {
	for i := at; i < at+recantReach; i++ {
		if admits[t.text(i)] {
			return true
		}
		switch t.text(i) {
		case "mean", "bad", "isnt", "wasnt", "nonsense", "rubbish":
			return true
		case "forget":
			return true
		case "its", "thats":
			if next := t.text(i + 1); next == "not" || next == "too" || next == "low" || next == "high" {
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

// leadsTo stand before the right value.
var leadsTo = set("its meant mean was thats to")

// numbered reports whether a number alone can be the right value of a slip.
func (f Fact) numbered() bool {
	return f.Kind == Weight || f.Kind == Parts || f.Kind == Time || f.Kind == Dry || f.Kind == White
}

// instead looks for the right value behind a slip: "it's eight V". Where only its number
// is said ("I meant fifteen.") it returns the word of that.
func (t *talk) instead(at int, slip Fact) (number int, found bool) {
	for i := at; i < min(at+recantReach, len(t.words)); i++ {
		before := t.text(i - 1)
		if !leadsTo[before] && (before != "it" || t.text(i-2) != "make") {
			continue
		}
		if facts, _ := t.find(i, true); len(facts) > 0 {
			return 0, facts[0].Kind == slip.Kind && facts[0].Value() != slip.Value()
		}
		if n, ok := t.numberAt(i); ok && (t.closes(i) || afterNumber[t.text(i+1)]) && slip.numbered() && !slip.short(n) {
			return i, true
		}
	}
	return 0, false
}
