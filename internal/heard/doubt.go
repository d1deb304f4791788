package heard

// A fact is doubted where the words before it deny it, suppose it, or tell it of
// somebody else. Each of these reaches from its word to the end of what it governs:
// the sentence, or where no full stop is written a number of words.

// reach is how many words a doubt governs in talk without punctuation.
const (
	denialReach  = 8
	noneReach    = 5 // of "no", which denies a thing and not all that is said of it
	supposeReach = 18
)

var (
	denials = set(`not never dont doesnt didnt isnt arent wasnt wont cant cannot without neither nor shouldnt wouldnt
		couldnt`)
	suppositions = set(`if unless suppose imagine might could would id wed youd theyd shed hed itd`)
	others       = set(`people somebody someone coworker colleague neighbour neighbor boss sister cousin daughter son mum mom mother dad father husband wife
		aunt uncle nan gran granny grandmother grandad grandfather`)

	// liked makes of "would" a wish or a way of speaking, which supposes nothing.
	liked = set(`like love say call allow want`)

	// openers begin a new sentence where no full stop is written.
	openers = set(`okay ok alright so now oh anyway`)

	// turns end what is denied and begin what holds.
	turns = set(`but its thats because so then im were is are`)

	// subjectsOf begin a clause behind "and".
	subjectsOf = set(`i we you she he it then`)

	// leadsOn stand before an "i" that goes on with what was begun.
	leadsOn = set(`what how when where why as until till if that than think like do did am`)

	// limits turn a denial into an upper limit: no longer than, not more than.
	limits = set(`longer more over past`)
)

// doubted reports whether what begins at a word is no fact.
func (t *talk) doubted(at int) bool {
	start := t.sentence(at)
	for i := at - 1; i >= start; i-- {
		away := at - i
		switch w := t.words[i].text; {
		case (denials[w] || w == "no" && !t.closes(i)) && !t.hedges(i):
			if away <= t.denialReach(i) && !t.turned(i, at) && !t.limited(i, at) && !t.pastNone(i, at) {
				return true
			}
		case w == "instead" || w == "rather" && t.text(i+1) == "than":
			if away <= 4 {
				return true
			}
		case suppositions[w] && !liked[t.text(i+1)] && !t.aside(i) && !t.wonders(i):
			if t.governs(i, at) {
				return true
			}
		case others[w]:
			if t.governs(i, at) && !t.ownAgain(i, at) {
				return true
			}
		case t.remembered(i):
			if t.governs(i, at) && !t.returns(i, at) {
				return true
			}
		}
	}
	return t.questioned(at)
}

// denialReach returns how many words a denial governs.
func (t *talk) denialReach(at int) int {
	if t.text(at) == "no" && !t.punctuated {
		return noneReach
	}
	return denialReach
}

// sentence returns the first word of the sentence that holds a word, or of as much
// before it as a doubt can reach.
func (t *talk) sentence(at int) int {
	start := at
	for start > 0 && at-start < 40 && !t.words[start-1].ends {
		start--
	}
	return start
}

// governs reports whether a supposition reaches as far as a word.
func (t *talk) governs(from, at int) bool {
	if t.punctuated {
		return true // the sentence is the limit, and both stand in it
	}
	if at-from > supposeReach {
		return false
	}
	for i := from + 1; i < at; i++ {
		w, next := t.words[i].text, t.text(i+1)
		if openers[w] || w == "and" && (next == "i" || next == "we" || next == "then") || w == "thats" && next == "why" {
			return false
		}
	}
	return true
}

// turned reports whether a new clause begins between a denial and a word.
func (t *talk) turned(from, at int) bool {
	for i := from; i < at; i++ {
		if t.beginsClause(from, i) || t.words[i].comma {
			return true
		}
	}
	return false
}

// pastNone reports whether what there is none of is over before a word: "there's no line and
// the mid-lengths are a nine".
func (t *talk) pastNone(from, at int) bool {
	if t.text(from) != "no" {
		return false
	}
	for i := from + 2; i < at; i++ {
		if t.text(i) == "and" && articles[t.text(i+1)] {
			return true
		}
	}
	return false
}

var articles = set("the her his my this that")

// beginsClause reports whether a word behind a doubt begins a new clause without a comma.
func (t *talk) beginsClause(from, at int) bool {
	w := t.words[at].text
	return at > from && (turns[w] || w == "and" && subjectsOf[t.text(at+1)] ||
		!t.punctuated && (openers[w] || w == "i" && at > from+2 && !leadsOn[t.text(at-1)]))
}

// ownAgain reports whether talk of somebody else ends before a word: a new clause begins, and
// not only an apposition ("went white at thirty, all of it, a hundred percent").
func (t *talk) ownAgain(from, at int) bool {
	if t.punctuated && t.text(from) == "people" {
		return false // "people write to me saying, mine is always one to one"
	}
	for i := from; i < at; i++ {
		next := t.text(i + 1)
		if t.words[i].comma && (subjectsOf[next] || turns[next] || openers[next] || ownClause[next]) || t.beginsClause(from, i) {
			return true
		}
	}
	return false
}

// ownClause begin a clause about the head that is worked on.
var ownClause = set("this today here im ill ive hers my the")

// returns reports whether talk comes back from what it remembers: "I had a lady who sat for
// fifty, but this one gets ten". Neither a comma nor who it was about ends the story.
func (t *talk) returns(from, at int) bool {
	for i := from; i < at; i++ {
		if w := t.words[i].text; w == "but" || w == "today" || !t.punctuated && openers[w] {
			return true
		}
	}
	return false
}

// aside reports whether "if" only speaks to whoever listens: "if you read the label", "if
// you're counting", "if I'm honest".
func (t *talk) aside(at int) bool {
	if t.text(at) != "if" {
		return false
	}
	switch next, then := t.text(at+1), t.text(at+2); next {
	case "you":
		return listening[then]
	case "youre", "youve":
		return listens[then]
	case "im":
		return then == "honest" || then == "being" || then == "right" || then == "not" && t.text(at+3) == "mistaken"
	case "anyones", "anybodys", "anyone", "anybody":
		return true
	}
	return false
}

// What whoever listens is spoken to of: "if you remember", "if you're writing it down".
var (
	listening = set("read like will ask remember recall look listen see notice hear please")
	listens   = set("counting wondering writing following watching listening asking keeping noting taking learning paying new")
)

// wonders reports whether "would" only weighs what follows: "she's, what would you say, about
// eighty percent".
func (t *talk) wonders(at int) bool {
	return t.text(at) == "would" && t.text(at+1) == "you" && liked[t.text(at+2)]
}

// hedges reports whether a denial is only "I don't know", said in thinking, or "no worries".
func (t *talk) hedges(at int) bool {
	if t.text(at) == "no" && polite[t.text(at+1)] {
		return true
	}
	return t.words[at].text == "dont" && t.text(at-1) == "i" && t.text(at+1) == "know"
}

// polite follow a "no" that denies nothing.
var polite = set("offense offence worries problem kidding joke doubt wonder")

// limited reports whether a denial is one of "no longer than", or says how large something
// is: "no bigger".
func (t *talk) limited(from, at int) bool {
	for i := from + 1; i < at; i++ {
		if limits[t.words[i].text] {
			return true
		}
	}
	return sizes[t.text(from+1)]
}

// sizes follow a denial that sets a bound to a size.
var sizes = set("bigger wider thicker deeper higher larger closer tighter finer")

// remembered reports whether another head or another time is told of from a word on.
func (t *talk) remembered(at int) bool {
	switch t.text(at) {
	case "i":
		next := t.text(at + 1)
		if t.follows(at+1, "did think about", "thought about", "considered", "nearly", "almost", "was tempted", "was going to") > 0 {
			return true
		}
		return next == "once" || next == "had" && t.text(at+2) == "a" || next == "saw" && t.text(at+2) == "a" || next == "was" && t.text(at+2) == "training"
	case "last":
		return t.text(at+1) == "time"
	case "one":
		before := t.text(at - 1)
		return t.text(at+1) == "time" && (at == t.sentence(at) || t.closes(at-1) || before == "this" || before == "and" || before == "was")
	case "once":
		return t.words[at].comma && at == t.sentence(at)
	case "in":
		return t.text(at+1) == "my" && t.text(at+2) == "day" || t.text(at+1) == "the" && t.text(at+2) == "year"
	case "back":
		return t.text(at+1) == "when"
	case "years":
		return t.text(at+1) == "ago"
	case "next":
		next := t.text(at + 1)
		return next == "time" || next == "week" || next == "month" || next == "year"
	case "used":
		return t.text(at+1) == "to"
	}
	return false
}

// questioned reports whether a word stands in a question: one that is written as
// such, or "did I say".
func (t *talk) questioned(at int) bool {
	for i := at; i < len(t.words) && i < at+15; i++ {
		if t.words[i].ends {
			if t.words[i].asked && !t.tagged(at, i) {
				return true
			}
			break
		}
	}
	for i := max(t.sentence(at), at-6); i < at; i++ {
		if t.text(i) == "did" && t.text(i+1) == "i" && t.text(i+2) == "say" && !t.meant(i, at) {
			return true
		}
	}
	return false
}

// tagLength is how many words behind a comma only ask for a nod.
const tagLength = 3

// tagged reports whether what is asked at the end of a sentence is only a nod: "it swirls
// at the nape, see that?"
func (t *talk) tagged(at, end int) bool {
	if asking[t.text(t.sentence(at))] {
		return false
	}
	for i := max(at, end-tagLength); i < end; i++ {
		if t.words[i].comma {
			return true
		}
	}
	return false
}

// asking begin a question.
var asking = set(`is are do does did can could will would should what when where which who why how have has was were`)

// meant reports whether what was meant follows what was said by mistake.
func (t *talk) meant(from, at int) bool {
	for i := from; i < at; i++ {
		if w := t.text(i); w == "meant" || w == "mean" || w == "should" {
			return true
		}
	}
	return false
}
