package segment

import (
	"strings"
	"unicode"
)

// Words returns the words of a text that can carry its subject: in small letters,
// without the words that stand in any talk (common), and with a plural brought back
// to its singular, so that two foils and a foil are one subject.
func Words(text string) []string {
	var out []string
	for _, w := range strings.FieldsFunc(strings.ToLower(text), between) {
		w = strings.ReplaceAll(strings.ReplaceAll(w, "'", ""), "’", "")
		if len(w) < 3 || common[w] {
			continue
		}
		out = append(out, singular(w))
	}
	return out
}

// between reports whether a character stands between words. An apostrophe stands in
// one.
func between(r rune) bool {
	return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '\'' && r != '’'
}

// singular takes the usual ending of a plural off a word.
func singular(w string) string {
	if len(w) > 3 && strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") && !strings.HasSuffix(w, "us") {
		return w[:len(w)-1]
	}
	return w
}

// common is the words of English talk that say nothing of its subject, with and
// without their apostrophes: articles, pronouns, small verbs, fillers.
var common = func() map[string]bool {
	words := map[string]bool{}
	for _, w := range strings.Fields(`
		a about actually after again all almost alright also always am an and another any anything are arent around as
		ask at away back be because been before being below better between big bit both but by call came can cannot cant
		come comes could day did didnt do does doesnt doing done dont down each easy else enough even ever every
		everybody everything far few find fine first for from get gets getting give gives glad go goes going gone gonna
		good got great had has hasnt have havent he hello her here heres hers hes hey hi him his honest honestly how i id if ill im in
		into is isnt it itll its ive just keep kind know last later least less let lets like little long look looks lot
		made make makes many maybe me mean more most much must my need never new next no nobody not nothing now of off
		often oh okay on once one only or other others our out over own people per please put quite rather really right
		said same saw say says see seen set shall she shes should show simple since so some somebody something
		sometimes somewhere soon sorry start still stop such sure take takes tell than thank thanks that thats the their
		them then there theres these they theyre thing things think this those though three through till to today
		together told too took two under until up upon us use used using usually very wait want wants was wasnt way we
		welcome well went were what whatever whats when where whether which while who whole why will with without wont
		work would wouldnt yeah year years yes yet you youd youll your youre`) {
		words[w] = true
	}
	return words
}()
