// Package care holds the usual cautions of the trade, in words of our own.
//
// They follow the safety advice of EU and UK authorities and training texts for
// oxidative colour: alert test 48 hours ahead, not under 16, not after a reaction or
// a black henna tattoo, gloves, air (Regulation (EC) No 1223/2009, annex III, label
// warnings; UK Health and Safety Executive, advice for hairdressers); what has no
// such source is common practice. A lesson brings them by what it uses and by its
// bowls, and nothing switches them off. They promise nothing about a result on hair.
package care

import (
	"fmt"
	"slices"

	"plait/internal/timing"
)

// Use is something in a lesson that calls for cautions, by the word an author
// writes for it.
type Use string

// The uses that bring cautions.
const (
	Colour    Use = "colour" // oxidative colour: mixed with a developer
	Lightener Use = "lightener"
	Heat      Use = "heat"
	Blades    Use = "blades"
)

// Uses are all uses, in the order in which their cautions are read.
func Uses() []Use {
	out := make([]Use, len(cautions))
	for i, c := range cautions {
		out[i] = c.use
	}
	return out
}

// Caution is one thing to do or to know, with the words to catch the eye first.
type Caution struct {
	Lead, Text string
}

// For returns the cautions that some uses call for, each once and in the order in
// which they are to be read. A use that is not known calls for none.
func For(uses ...Use) []Caution {
	var out []Caution
	for _, c := range cautions {
		if slices.Contains(uses, c.use) {
			out = append(out, c.items...)
		}
	}
	return out
}

var cautions = []struct {
	use   Use
	items []Caution
}{
	{Colour, []Caution{
		{"Allergy alert test.", fmt.Sprintf("At least %d hours", int(timing.SkinTestWait.Hours())) + " before every colour service, with the product that will be used and as its maker describes, also on somebody who has had it for years. Any reaction means no colour."},
		{"Ask first.", "No colour on a sore or broken scalp, after any earlier reaction to hair colour or to a black henna tattoo, or on anybody under 16."},
		{"Gloves and air.", "Gloves for mixing, applying and rinsing, a fresh pair for each client; a room with a through draught."},
		{"Eyes.", "Never on lashes or brows. What gets into an eye is rinsed at once with plenty of water, and a doctor looks at it."},
		{"Strand test.", "The full mix for the full time on one strand first, wherever the hair’s history is not certain."},
		{"The clock.", "Never longer than the maker allows. Burning, swelling or a rash: rinse at once. Hard breathing or a swollen face: call for medical help."},
		{"Leftovers.", "Mixed colour is thrown away, never kept in a closed bottle."},
	}},
	{Lightener, []Caution{
		{"Powder.", "Mix it away from the face. Its dust can bring on asthma: breathlessness means stop and get help."},
		{"Watch it.", "Look every few minutes from the first touch. Hair that stretches and does not come back is rinsed at once."},
		{"No added heat", "unless the directions allow it: the mixture warms by itself, on the skin too."},
		{"Not on", "hair with henna, metal salts or a recent relaxer: test a strand, ask, refer."},
	}},
	{Heat, []Caution{
		{"Heat.", "Only where the directions allow it, and with a shorter time set anew. Feel it on your own hand before it goes near a scalp."},
	}},
	{Blades, []Caution{
		{"Blades.", "Closed and laid down whenever they do not cut, closed on the way to the hair, and never pointed at neck, ear or eye."},
		{"Clean tools.", "Hair is cleared off and the blades are disinfected between clients, as the product’s label says. A razor gets a new blade for each client; the used one goes into a sharps box."},
		{"A cut.", "Stop, gloves on, cover it before work goes on, and disinfect the blade. Nothing that has touched blood goes back onto the trolley."},
	}},
}
