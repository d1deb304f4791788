package page

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"plait/internal/course"
)

// words makes the word list.
func (b *builder) words(out []byte) ([]byte, error) {
	v := WordsView{Frame: b.frame("words.html", "words", "Word list", "What the words of this course mean.")}
	list := slices.Clone(b.course.Words)
	slices.SortStableFunc(list, func(x, y course.Word) int { return strings.Compare(sortKey(x.Term.Value), sortKey(y.Term.Value)) })
	for _, w := range list {
		letter := initial(w.Term.Value)
		if n := len(v.Letters); n == 0 || v.Letters[n-1].Letter != letter {
			v.Letters = append(v.Letters, LetterView{ID: fmt.Sprintf("letter_%d", n+1), Letter: letter})
		}
		last := &v.Letters[len(v.Letters)-1]
		word := WordView{ID: wordID(w.Term.Value), Term: w.Term.Value, Meaning: w.Meaning.Value}
		for _, see := range w.See {
			word.See = append(word.See, Link{Text: see.Value, Path: "#" + wordID(see.Value)})
		}
		last.Words = append(last.Words, word)
	}
	return b.templates.page(out, "words", v)
}

// wordID is the id of a word in the word list. Ids of headings have no low lines,
// so the ids of our own that do never meet them.
func wordID(term string) string { return "word_" + strings.ReplaceAll(term, " ", "_") }

// sortKey sorts without regard to case and accents.
func sortKey(s string) string {
	return strings.ToLower(strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return r
	}, norm.NFD.String(s)))
}

// initial is the letter a word is listed under; words that begin with none stand
// under a sign of their own.
func initial(s string) string {
	first, _ := utf8.DecodeRuneInString(sortKey(s))
	if unicode.IsLetter(first) {
		return string(unicode.ToUpper(first))
	}
	return "0–9"
}
