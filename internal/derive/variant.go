package derive

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"plait/internal/diag"
	"plait/internal/question"
	"plait/internal/source"
)

// variants works the question out for every combination of values that are not its own.
func (s *solver) variants(first *Solution, vary []question.Vary) []Variant {
	if len(vary) == 0 {
		return nil
	}
	for _, v := range vary {
		typed, _ := first.Given.Entry(v.Key.Value)
		if _, ok := replaceWord(first.Ask, typed.Value, ""); !ok {
			s.fault("question/vary", v.Key.Span, "write it in the question letter for letter as in given: "+typed.Value,
				"the question does not say %q, so its variants would all ask the same", typed.Value)
			return nil
		}
	}
	var out []Variant
	for _, texts := range combinations(vary) {
		ask, same := first.Ask, true
		for key, t := range texts {
			typed, _ := first.Given.Entry(key)
			ask, _ = replaceWord(ask, typed.Value, t.Value)
			same = same && t.Value == typed.Value
		}
		if same {
			continue
		}
		given, found := first.Given.With(texts)
		s.found = append(s.found, found...)
		if diag.HasErrors(s.found) {
			return nil
		}
		sol := s.variant(&given, ask)
		if diag.HasErrors(s.found) {
			return nil
		}
		out = append(out, Variant{Index: len(out), Solution: sol})
	}
	return out
}

// variant solves the question anew. What the author typed of the answer, a claim or a
// slip that is a figure, belongs to the first figures alone.
func (s *solver) variant(given *question.Given, ask string) Solution {
	named := *s.block
	named.Slips = nil
	for _, slip := range s.block.Slips {
		if slip.Named != "" || len(s.block.Choose.Options) > 0 {
			named.Slips = append(named.Slips, slip)
		}
	}
	anew := &solver{derived: s.derived, course: s.course, lesson: s.lesson, block: &named}
	sol := anew.solve(given, ask)
	s.found = append(s.found, anew.found...)
	return sol
}

// combinations lists one text for each key, the last key changing fastest.
func combinations(vary []question.Vary) []map[string]source.Text {
	out := []map[string]source.Text{{}}
	for _, v := range vary {
		var next []map[string]source.Text
		for _, before := range out {
			for _, t := range v.Values {
				m := map[string]source.Text{v.Key.Value: t}
				for key, text := range before {
					m[key] = text
				}
				next = append(next, m)
			}
		}
		out = next
	}
	return out
}

// replaceWord puts one text in the place of another where it stands by itself: the "5 g"
// of "25 g" is left alone. ok is false where it stands nowhere.
func replaceWord(s, old, with string) (out string, ok bool) {
	if old == "" {
		return s, false
	}
	for at := 0; ; {
		i := strings.Index(s[at:], old)
		if i < 0 {
			return s, ok
		}
		i += at
		if before, _ := utf8.DecodeLastRuneInString(s[:i]); joins(before) {
			at = i + len(old)
			continue
		}
		if goesOn(s[i+len(old):]) {
			at = i + len(old)
			continue
		}
		s, ok = s[:i]+with+s[i+len(old):], true
		at = i + len(with)
	}
}

// goesOn reports whether a text carries the word or number before it on. A full stop
// does so only before a digit.
func goesOn(s string) bool {
	r, size := utf8.DecodeRuneInString(s)
	if r == '.' || r == ':' {
		next, _ := utf8.DecodeRuneInString(s[size:])
		return unicode.IsDigit(next)
	}
	return joins(r)
}

// joins reports whether a character belongs to the word or the number beside it.
func joins(r rune) bool {
	return unicode.IsLetter(r) || unicode.IsDigit(r) || r == '.' || r == ':'
}

// shownVariants is how many variants a page offers for practice at most.
const shownVariants = 6

// Practice returns the variants that pages offer, and [Question.Kept] those that no page
// ever shows: papers draw from these, so nobody has seen their figures. They take turns,
// and a question with fewer than three variants keeps none back.
func (q *Question) Practice() []Variant {
	practice, _ := q.share()
	return practice
}

// Kept returns the variants that no page shows.
func (q *Question) Kept() []Variant {
	_, kept := q.share()
	return kept
}

func (q *Question) share() (practice, kept []Variant) {
	for _, v := range q.Variants {
		if len(q.Variants) >= 3 && v.Index%2 == 1 || len(practice) == shownVariants {
			kept = append(kept, v)
		} else {
			practice = append(practice, v)
		}
	}
	return practice, kept
}
