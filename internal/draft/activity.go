package draft

import "strings"

// activities are what is done in a service, with the words that tell of each: a step of a
// lesson is as a rule one of them. Words that tell of several stand with the one they tell of
// most. Common practice, from memory.
var activities = []string{
	// It begins.
	"hello welcome today name friend channel video",
	// The hair is looked at.
	`natural grey white porous test strand consultation wants wanted picture history level warmth brassy faded look looking
		see read swirl density`,
	// A bowl is mixed.
	"mix mixing bowl grams parts scale weigh squeeze tube stir whisk pour ratio volume powder developer peroxide cream",
	// It is sectioned.
	"section sections sectioning part parting clip clips divide quarters split diagonal horseshoe comb",
	// Colour goes on.
	"apply applying paint painting brush slice slices weave foil foils saturate saturated retouch overlap hairline bleed fold",
	// It takes its time.
	"wait waiting minutes timer clock check wipe processing process develop developing lifted lifting cooking tea coffee kettle set",
	// It is rinsed.
	"rinse rinsing water basin backwash sink shampoo wash suds towel conditioner emulsify treatment lather",
	// It is toned.
	"toner tone gloss glaze",
	// It is dried.
	"dry drying dryer dried blow style finish finished straighten round mirror",
	// It is cut.
	`cut cutting scissors shears guide elevation length line layer layers snip point finger fingers blunt taper clipper clippers
		guard outline fade trimmer trimmers sides top fringe perimeter`,
	// It ends.
	"bye thanks thank subscribe questions comments next week home",
}

// activityOf is the number of the activity that a word tells of.
var activityOf = func() map[string]int {
	of := map[string]int{}
	for i, words := range activities {
		for _, w := range strings.Fields(words) {
			of[w] = i
		}
	}
	return of
}()

// doing returns how much a text tells of each activity: each word counts, up to two.
func doing(text string) []float64 {
	fits := make([]float64, len(activities))
	for _, w := range strings.Fields(plain(text)) {
		if a, ok := activityOf[w]; ok {
			fits[a] = min(fits[a]+told, 2*told)
		}
	}
	return fits
}
