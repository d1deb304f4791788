package browsertest

import "testing"

// glossPage is the demo lesson whose bowl the tests weigh: two parts of 8N and
// one part of 8V, 30 g of colour, 6 vol at 1:2. glossWeights is worked out by
// hand: 30 × 2/3, 30 × 1/3 and 30 × 2.
const glossPage = "lessons/brassy-gloss.html"

var glossWeights = []string{"20 g", "10 g", "60 g"}

// TestScriptsOff reads the lessons with scripts switched off: all there is to
// read is there, and no button pretends to work.
func TestScriptsOff(t *testing.T) {
	s := built(t)
	for _, name := range s.lessons() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			p := openPage(t, s, name, withoutScripts())
			if steps := p.shown("main h2"); len(steps) == 0 {
				t.Error("no step can be seen")
			}
			for _, dead := range p.shown("button") {
				t.Errorf("a button that cannot work is shown: %s", dead)
			}
		})
	}
	t.Run("bowl", func(t *testing.T) {
		p := openPage(t, s, glossPage, withoutScripts())
		expectWords(t, p.text("main"), glossWeights...)
	})
}
