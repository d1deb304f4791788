package draft

import (
	"math"
	"strings"
	"time"

	"plait/internal/caption"
	"plait/internal/segment"
)

// Where steps begin is decided by three signs together: the talk changes its subject
// (package segment), the speaker says so ("next", "on to the"), or nobody speaks for
// a while. Each gap between two cues is given the sum of what speaks for it, and the
// gaps with the most become steps, as long as they are far enough apart. The weights
// were set on invented talks.
const (
	block    = 6   // cues compared on each side of a gap, fewer in a short film
	enough   = 1.2 // what a gap needs
	clearly  = 1.2 // the weight of words that announce a step
	perhaps  = 0.5 // of words that often begin one
	silence  = 1.2 // of a long pause
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
	scores := signs(cues)
	begins := map[int]bool{0: true}
	for {
		best := -1
		for i, s := range scores {
			if s >= enough && (best < 0 || s > scores[best]) && apart(cues, begins, i+1) {
				best = i
			}
		}
		if best < 0 {
			break
		}
		begins[best+1] = true
		scores[best] = 0
	}
	var out []int
	for i := range cues {
		if begins[i] {
			out = append(out, i)
		}
	}
	return out
}

// signs adds up what speaks for a step at each gap between two cues.
func signs(cues []caption.Cue) []float64 {
	units := make([][]string, len(cues))
	for i, c := range cues {
		units[i] = segment.Words(c.Text)
	}
	scores := deviations(segment.Depths(units, min(block, max(2, len(cues)/6))))
	for i := range scores {
		scores[i] += announced(cues[i+1].Text)
		switch gap := cues[i+1].From - cues[i].Until; {
		case gap >= long:
			scores[i] += silence
		case gap >= short:
			scores[i] += breather
		}
		if !endsSentence(cues[i].Text) && punctuated(cues) {
			scores[i] -= enough // a step does not begin in the middle of a sentence
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

// apart reports whether a step that begins with a cue is long enough on both sides.
func apart(cues []caption.Cue, begins map[int]bool, at int) bool {
	for i := range begins {
		if (cues[at].From - cues[i].From).Abs() < minimum {
			return false
		}
	}
	return cues[len(cues)-1].Until-cues[at].From >= minimum
}

// Words with which speakers announce a step, at the beginning of a cue behind any of
// the openers.
var (
	announcements = []string{
		"next", "step", "moving on", "on to", "onto", "lastly", "last thing", "finally", "first thing", "first section",
		"first bowl", "second bowl", "the second", "now for", "now the", "and then we", "then we", "let us", "lets go",
		"lets start", "lets check", "time is up", "away we go", "once thats", "i begin", "im going to start", "take a section",
		"that is all on", "so step", "so for the", "so formula", "while we", "while shes", "while its", "while that", "today", "sectioning", "i start", "away to", "back to the",
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
