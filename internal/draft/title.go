package draft

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Titles are words that were said: from a verb of the work to the end of its clause.

// verbs of the work, with which a step's title begins.
var verbs = strings.Fields(`mix weigh choose section divide split part clip apply paint place weave fold check read
	rinse shampoo wash tone cut comb dry rough-dry blow-dry blend connect finish style start begin set wait watch process
	develop show melt emulsify cover weave tint take bring work drop clean fix lay draw measure stir pull blow talk fill look use`)

// before stand in front of a verb that says what is done now.
var before = strings.Fields(`i we to lets us and then ill well just first next now so okay right gonna`)

// cuts end a clause where no comma does.
var cuts = strings.Fields(`because so which that but where when if as and or until then who while`)

// weak words end no title.
var weak = strings.Fields(`the a an and to of with my it its this that in on at for from into is are i we you by or
	straight just out up really some very`)

const mostWords = 8

// title returns the words that name a step.
func title(step []sentence) string {
	best := ""
	for i, s := range step {
		if i == 6 {
			break
		}
		if t := clause(s.text); t != "" && best == "" {
			best = t
		}
	}
	for _, s := range step[:min(len(step), 4)] {
		if best != "" {
			break
		}
		if words := opening(s.text); strings.Contains(words, " ") {
			best = words
		}
	}
	if best == "" && len(step) > 0 {
		best = opening(step[0].text)
	}
	if !strings.ContainsFunc(best, unicode.IsLetter) {
		return "Step" // no word was said
	}
	return capital(best)
}

// capital writes the first letter of a text large.
func capital(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[size:]
}

// clause returns what a sentence says is done, from its verb on.
func clause(text string) string {
	words := strings.Fields(text)
	for i, w := range words {
		if !slices.Contains(verbs, plainWord(w)) || i > 0 && !slices.Contains(before, plainWord(words[i-1])) {
			continue
		}
		if denied(words[:i]) {
			continue
		}
		if t := trimmed(words[i:]); len(t) > 1 {
			return strings.Join(t, " ")
		}
	}
	return ""
}

// denied reports whether the last words before a verb take it back.
func denied(words []string) bool {
	for _, w := range words[max(0, len(words)-4):] {
		switch plainWord(w) {
		case "not", "never", "dont", "didnt", "if", "would", "cant", "wouldnt", "want", "people", "you":
			return true
		}
	}
	return false
}

// opening returns the first words of a sentence behind those that only open it.
func opening(text string) string {
	words := strings.Fields(text)
	for len(words) > 1 {
		if n := 2; len(words) > n && plainWord(words[0]) == "all" && plainWord(words[1]) == "right" {
			words = words[n:]
		} else if contains(openers, plainWord(words[0])) {
			words = words[1:]
		} else {
			break
		}
	}
	return strings.Join(trimmed(words), " ")
}

// trimmed returns the words up to the end of the clause, at most as many as a title
// has, without weak ones at the end.
func trimmed(words []string) []string {
	var out []string
	for i, w := range words {
		if i > 1 && contains(cuts, plainWord(w)) && !pairs(words, i) || len(out) == mostWords {
			break
		}
		bare := strings.TrimRight(w, ".,;:!?…")
		out = append(out, bare)
		if bare != w {
			break
		}
	}
	for len(out) > 0 && contains(weak, plainWord(out[len(out)-1])) {
		out = out[:len(out)-1]
	}
	return out
}

// pairs reports whether "and" joins two things that are done: "lightening and toning".
func pairs(words []string, and int) bool {
	return plainWord(words[and]) == "and" && and+1 < len(words) &&
		strings.HasSuffix(plainWord(words[and-1]), "ing") && strings.HasSuffix(plainWord(words[and+1]), "ing")
}

// plainWord returns a word as it is compared; a hyphen stays.
func plainWord(w string) string {
	return strings.ReplaceAll(plain(strings.ReplaceAll(w, "-", "0hyphen0")), "0hyphen0", "-")
}
