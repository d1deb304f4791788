package draft

import (
	"math"
	"strings"
	"time"

	"plait/internal/caption"
	"plait/internal/segment"
)

// Where steps begin is decided by what is done: a step is as a rule one activity, mixing or
// rinsing, and [segment.Chain] finds the row of activities that fits the words best. To begin a
// step costs so much that a word in passing does not, and costs less where the speaker announces
// one ("next", "on to the"), where nobody speaks for a while, and where the words change
// (package segment). The weights were set on invented talks.
const (
	block    = 6   // cues compared on each side of a gap, fewer in a short film
	told     = 0.5 // what a word tells of an activity
	another  = 2.0 // what it costs to begin a step
	mid      = 1.5 // and what more in the middle of a sentence
	subject  = 0.2 // the weight of a change of words
	clearly  = 1.9 // of words that announce a step
	perhaps  = 0.8 // of words that often begin one
	silence  = 1.4 // of a long pause
	breather = 0.3 // of a short one

	long    = 2500 * time.Millisecond
	short   = 1200 * time.Millisecond
	minimum = 10 * time.Second // the shortest chapter that films are given
)

// Steps returns the index of the cue with which each step of the talk begins. The
// first is always 0; there are none where nothing is said.
func Steps(cues []caption.Cue) []int {
	if len(cues) == 0 {
		return nil
	}
	fits := make([][]float64, len(cues))
	for i, c := range cues {
		fits[i] = doing(c.Text)
	}
	var out []int
	for _, at := range segment.Chain(fits, signs(cues)) {
		if at == 0 || apart(cues, out, at) {
			out = append(out, at)
		}
	}
	return out
}

// signs adds up what speaks for a step at each gap between two cues, less what one costs.
func signs(cues []caption.Cue) []float64 {
	units := make([][]string, len(cues))
	for i, c := range cues {
		units[i] = segment.Words(c.Text)
	}
	scores := deviations(segment.Depths(units, min(block, max(2, len(cues)/6))))
	stops := punctuated(cues)
	for i := range scores {
		scores[i] = subject*scores[i] + announced(cues[i+1].Text) - another
		switch gap := cues[i+1].From - cues[i].Until; {
		case gap >= long:
			scores[i] += silence
		case gap >= short:
			scores[i] += breather
		}
		if stops && !endsSentence(cues[i].Text) {
			scores[i] -= mid
		}
	}
	return scores
}

// deviations expresses depths in deviations from their mean, held between −1 and 1,
// so that talk with large valleys and talk with small ones are cut alike. (TextTiling
// sets its cut by mean and deviation as well.)
func deviations(depths []float64) []float64 {
	mean := 0.0
	for _, d := range depths {
		mean += d / float64(len(depths))
	}
	variance := 0.0
	for _, d := range depths {
		variance += float64((d-mean)*(d-mean)) / float64(len(depths))
	}
	out := make([]float64, len(depths))
	for i, d := range depths {
		if variance > 0 {
			out[i] = min(max((d-mean)/math.Sqrt(variance), -1), 1)
		}
	}
	return out
}

// apart reports whether a step that begins with a cue is long enough, and leaves the one before
// it long enough.
func apart(cues []caption.Cue, begins []int, at int) bool {
	before := begins[len(begins)-1]
	return cues[at].From-cues[before].From >= minimum && cues[len(cues)-1].Until-cues[at].From >= minimum
}

// Words with which speakers announce a step, at the beginning of a cue behind any of
// the openers.
var (
	announcements = []string{
		"next", "step", "moving on", "on to", "onto", "lastly", "last thing", "last of all", "finally", "first thing", "first section", "first job",
		"first bowl", "second bowl", "second pot", "last bowl", "the last bowl", "the second", "bowl two", "bowl three", "bowl b", "bowl c", "bowl number two", "bowls",
		"a second little bowl", "now for", "now the", "and then we", "then we", "we wait", "it sits", "it stays on", "let us", "lets go",
		"lets start", "lets check", "lets get", "lets talk", "away we go", "once thats", "i begin", "im going to start", "i section", "take a section",
		"time is up", "times up", "its time", "theres the timer", "theres the bell", "thats the bell", "thats the timer",
		"that is all on", "thats all on", "thats all in", "so step", "so for the", "so formula", "while we", "while shes", "while hes", "while its", "while that", "while thats", "while i",
		"today", "sectioning", "processing", "mixing", "rinsing", "i start", "away to", "back to the", "back at the", "over to the", "to the basin", "to the sink",
		"what am i looking", "what are we looking", "what have we got", "for my toner", "for the toner", "toner", "cross check", "so to the", "before i wet",
	}
	openers = []string{"right", "okay", "ok", "alright", "so", "now", "and", "well", "good"}
)

// announced weighs the words a cue begins with.
func announced(text string) float64 {
	words := plain(text)
	score := 0.0
	if first, _, _ := strings.Cut(words, " "); contains(verbs, first) {
		return perhaps // an order: "paint from the middle to the ends"
	}
	if named(text) {
		return clearly
	}
	for {
		for _, a := range announcements {
			if strings.HasPrefix(words, a+" ") {
				return clearly
			}
		}
		opener, rest, _ := strings.Cut(words, " ")
		if !contains(openers, opener) {
			return score
		}
		if opener != "and" {
			score = perhaps
		}
		words = rest
	}
}

// named reports whether a cue begins with a sentence that only names what comes: "Right, the
// sides." "Basin." "Bowl two."
func named(text string) bool {
	end := strings.IndexAny(text, ".!?")
	if end < 0 || text[end] != '.' {
		return false
	}
	words := strings.Fields(plain(text[:end]))
	for len(words) > 0 && contains(openers, words[0]) {
		words = words[1:]
	}
	if len(words) == 0 || len(words) > mostNamed {
		return false
	}
	for _, w := range words {
		if _, ok := activityOf[w]; ok {
			return true
		}
	}
	return false
}

// mostNamed is how many words name a step.
const mostNamed = 3

func contains(words []string, w string) bool {
	for _, o := range words {
		if o == w {
			return true
		}
	}
	return false
}

// plain returns a text in small letters, with single spaces and without any other
// character than letters and digits.
func plain(text string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(strings.NewReplacer("'", "", "’", "").Replace(text)) {
		if r < 'a' || r > 'z' {
			if r < '0' || r > '9' {
				r = ' '
			}
		}
		b.WriteRune(r)
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// punctuated reports whether the talk is written with full stops.
func punctuated(cues []caption.Cue) bool {
	stops := 0
	for _, c := range cues {
		if strings.ContainsAny(c.Text, ".!?") {
			stops++
		}
	}
	return 4*stops > len(cues)
}

func endsSentence(text string) bool {
	text = strings.TrimRight(text, " \n\"'”’)")
	return text == "" || strings.ContainsAny(text[len(text)-1:], ".!?") || strings.HasSuffix(text, "…")
}
