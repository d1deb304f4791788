package heard

// window is how many words may lie between a fact and the one that corrects it.
const window = 45

// withdraw marks every fact that a later one of the same kind corrects: between the
// two stand words such as "sorry" or "I meant".
func (t *talk) withdraw() {
	for i, f := range t.facts {
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
		if admits[t.text(i)] {
			return true
		}
		switch t.text(i) {
		case "oops", "correction":
			return true
		case "i":
			if t.text(i+1) == "mean" {
				return true
			}
		case "no":
			if t.words[i].comma || t.words[i].ends || t.words[i-1].ends && openNo[t.text(i+1)] {
				return true
			}
		case "wait":
			if t.words[i-1].ends || openWait[t.text(i+1)] {
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
