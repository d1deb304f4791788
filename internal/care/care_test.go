package care

import (
	"slices"
	"strings"
	"testing"
)

// expectLeads checks which cautions some uses call for, by their first words.
func expectLeads(t *testing.T, want string, uses ...Use) {
	t.Helper()
	var leads []string
	for _, c := range For(uses...) {
		leads = append(leads, c.Lead)
	}
	if got := strings.Join(leads, " "); got != want {
		t.Errorf("%v calls for %q, want %q", uses, got, want)
	}
}

func TestFor(t *testing.T) {
	colour := "Allergy alert test. Ask first. Gloves and air. Eyes. Strand test. The clock. Leftovers."
	expectLeads(t, "")
	expectLeads(t, "", "glitter")
	expectLeads(t, colour, Colour)
	expectLeads(t, "Heat. Blades. Clean tools. A cut.", Blades, Heat)
	expectLeads(t, colour+" Powder. Watch it. No added heat Not on", Lightener, Colour, Lightener)
}

// Every use brings cautions; one that brought none would leave a page without them.
func TestEveryUseBringsCautions(t *testing.T) {
	for _, use := range Uses() {
		list := For(use)
		if len(list) == 0 || slices.Contains(list, Caution{}) {
			t.Errorf("%s calls for %v", use, list)
		}
	}
}

// The 48 hours and the age stand on the label of every oxidative hair colour
// (Regulation (EC) No 1223/2009, annex III, entries for hair dye substances; the 48
// hours in the makers' directions that the label refers to).
func TestColourKeepsTheLabelWarnings(t *testing.T) {
	var all strings.Builder
	for _, c := range For(Colour) {
		all.WriteString(c.Text)
	}
	for _, want := range []string{"48 hours", "under 16", "black henna tattoo", "Gloves", "Any reaction means no colour"} {
		if !strings.Contains(all.String(), want) {
			t.Errorf("the cautions for colour do not say %q", want)
		}
	}
}
