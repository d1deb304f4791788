package draft

import (
	"slices"
	"strings"
	"time"

	"plait/internal/caption"
)

// sentence is one sentence of the talk, or one cue where no full stops are written.
type sentence struct {
	cue  int // in which it begins
	at   time.Duration
	text string
}

// sentences takes the talk apart.
func sentences(cues []caption.Cue) []sentence {
	stops := punctuated(cues)
	var out []sentence
	open := false
	for i, c := range cues {
		rest := strings.Join(slices.DeleteFunc(strings.Fields(c.Text), isFiller), " ")
		for rest != "" {
			part, behind := rest, ""
			if stops {
				part, behind = cutSentence(rest)
			}
			if open {
				last := &out[len(out)-1]
				last.text += " " + part
			} else {
				out = append(out, sentence{cue: i, at: c.From, text: part})
			}
			open = stops && !endsSentence(part)
			rest = behind
		}
	}
	return out
}

// isFiller reports whether a word is a sound of thinking and no word.
func isFiller(w string) bool {
	switch plain(w) {
	case "um", "uh", "er", "erm":
		return true
	}
	return false
}

// cutSentence cuts a text behind its first sentence. A full stop inside a number or
// a code has no space behind it.
func cutSentence(text string) (first, rest string) {
	for i := 0; i+1 < len(text); i++ {
		if strings.IndexByte(".!?", text[i]) >= 0 && text[i+1] == ' ' {
			return text[:i+1], text[i+2:]
		}
	}
	return text, ""
}

// of returns the sentences that begin in the cues from up to to.
func (d *drafter) of(from, to int) []sentence {
	var out []sentence
	for _, s := range d.sentences {
		if s.cue >= from && s.cue < to {
			out = append(out, s)
		}
	}
	return out
}

// around returns the clause that holds a cue's words, as plain words, with the first
// word of the clause behind it: "level 7, natural".
func (d *drafter) around(cue int, said string) string {
	words := plain(said)
	for i := len(d.sentences) - 1; i >= 0; i-- {
		s := d.sentences[i]
		if s.cue > cue {
			continue
		}
		clauses := strings.FieldsFunc(s.text, func(r rune) bool { return r == ',' || r == ';' })
		for j, c := range clauses {
			text := plain(c)
			if !strings.Contains(text, words) {
				continue
			}
			if j+1 < len(clauses) {
				next, _, _ := strings.Cut(plain(clauses[j+1]), " ")
				text += " " + next
			}
			return text
		}
		if s.cue < cue-3 {
			break
		}
	}
	return ""
}
