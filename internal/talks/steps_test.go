package talks

import (
	"math"
	"testing"
	"time"

	"plait/internal/caption"
	"plait/internal/draft"
)

// boundaries marks each of n units that begins a segment, the first left out.
func boundaries(n int, begins []int) []bool {
	out := make([]bool, n)
	for _, b := range begins {
		out[b] = b > 0
	}
	return out
}

// window is half the mean length of the true segments, as both measures want it, and
// at least 2.
func window(n int, begins []int) int {
	return max(2, int(math.Round(float64(n)/float64(len(begins))/2)))
}

// between counts the boundaries behind unit i up to unit i+k.
func between(b []bool, i, k int) int {
	n := 0
	for j := i + 1; j <= i+k; j++ {
		if b[j] {
			n++
		}
	}
	return n
}

// pk is the probability that two units k apart are wrongly taken for one segment or
// for two (D. Beeferman, A. Berger, J. Lafferty, "Statistical models for text
// segmentation", Machine Learning 34, 1999).
func pk(truth, guess []bool, k int) float64 {
	wrong := 0
	for i := 0; i+k < len(truth); i++ {
		if (between(truth, i, k) > 0) != (between(guess, i, k) > 0) {
			wrong++
		}
	}
	return share(wrong, len(truth)-k)
}

// windowDiff is the share of windows of k that hold different numbers of boundaries
// (L. Pevzner, M. A. Hearst, "A critique and improvement of an evaluation metric for
// text segmentation", Computational Linguistics 28(1), 2002).
func windowDiff(truth, guess []bool, k int) float64 {
	wrong := 0
	for i := 0; i+k < len(truth); i++ {
		if between(truth, i, k) != between(guess, i, k) {
			wrong++
		}
	}
	return share(wrong, len(truth)-k)
}

// expectErrors measures a guess against the truth, both as the units that begin a
// segment, out of n.
func expectErrors(t *testing.T, n int, truth, guess []int, k int, wantPk, wantDiff float64) {
	t.Helper()
	a, b := boundaries(n, truth), boundaries(n, guess)
	if p, d := pk(a, b, k), windowDiff(a, b, k); math.Abs(p-wantPk) > 1e-12 || math.Abs(d-wantDiff) > 1e-12 {
		t.Errorf("%v for %v of %d: Pk %v, WindowDiff %v, want %v and %v", guess, truth, n, p, d, wantPk, wantDiff)
	}
}

// Worked by hand: ten units, windows of k begin at units 0 to 9−k.
func TestMeasures(t *testing.T) {
	expectErrors(t, 10, []int{0, 5}, []int{0, 5}, 2, 0, 0)
	// Nothing found: the windows from 3 and 4 span the boundary at 5, 2 of 8.
	expectErrors(t, 10, []int{0, 5}, []int{0}, 2, 2.0/8, 2.0/8)
	// One too late: the window from 3 spans 5 alone, the one from 5 spans 6 alone wait for it,
	// the one from 4 spans both places, 2 of 8.
	expectErrors(t, 10, []int{0, 5}, []int{0, 6}, 2, 2.0/8, 2.0/8)
	// A second boundary right behind the true one: windows from 3 (one each), 4 (one against
	// two) and 5 (none against one). Pk sees only the last, WindowDiff the last two.
	expectErrors(t, 10, []int{0, 5}, []int{0, 5, 6}, 2, 1.0/8, 2.0/8)
	// A boundary before every unit, windows of 3: those that span 5 agree in Pk (from 2, 3 and 4)
	// and hold three against one; the other four are wrong in both.
	expectErrors(t, 10, []int{0, 5}, []int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}, 3, 4.0/7, 7.0/7)
}

// errors sums up the measures of a set.
type errors struct{ pk, diff float64 }

// A segmentation that means nothing is wrong about half the time in Pk; these bounds
// hold what is reached on talks that nothing was tuned to.
func TestSteps(t *testing.T) {
	for _, set := range []string{"tune", "test", "blind", "final", "third", "fourth", "fifth", "sixth"} {
		paused, flat := measure(t, set, pauses), measure(t, set, noPauses)
		t.Logf("%-14s Pk %.3f WindowDiff %.3f; with all pauses taken out Pk %.3f WindowDiff %.3f", set+", mean", paused.pk, paused.diff, flat.pk, flat.diff)
		if most := reached[set]; paused.pk > most.paused || flat.pk > most.flat {
			t.Errorf("%s: steps are found with Pk %.3f, %.3f without pauses", set, paused.pk, flat.pk)
		}
	}
}

// reached is the Pk that is held for each set, with pauses and without. The talks of
// strangers to the program are harder: they say what comes next in words that nobody
// foresaw, and most of them pause inside their steps too.
var reached = map[string]struct{ paused, flat float64 }{
	"tune": {0.15, 0.30}, "test": {0.15, 0.20}, "blind": {0.25, 0.40}, "final": {0.28, 0.42}, "third": {0.28, 0.32},
	"fourth": {0.28, 0.36}, "fifth": {0.32, 0.40}, "sixth": {0.25, 0.42},
}

// The talks pause before most of their steps, which real ones do less; so they are
// measured without their pauses as well.
func pauses(cues []caption.Cue) []caption.Cue { return cues }

func noPauses(cues []caption.Cue) []caption.Cue {
	out := append([]caption.Cue(nil), cues...)
	for i := 1; i < len(out); i++ {
		length := out[i].Until - out[i].From
		out[i].From = out[i-1].Until + 150*time.Millisecond
		out[i].Until = out[i].From + length
	}
	return out
}

func measure(t *testing.T, set string, change func([]caption.Cue) []caption.Cue) errors {
	t.Helper()
	var mean errors
	talks := load(t, set)
	for _, k := range talks {
		n, guess := len(k.cues), draft.Steps(change(k.cues))
		size := window(n, k.steps)
		truth, found := boundaries(n, k.steps), boundaries(n, guess)
		p, d := pk(truth, found, size), windowDiff(truth, found, size)
		t.Logf("%-14s Pk %.3f WindowDiff %.3f (%d steps, %d found)", k.name, p, d, len(k.steps), len(guess))
		mean.pk += p / float64(len(talks))
		mean.diff += d / float64(len(talks))
	}
	return mean
}
