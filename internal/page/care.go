package page

import (
	"slices"

	"plait/internal/lesson"
	"plait/internal/shade"
)

// The usual cautions of the trade, in words of our own. They follow the safety
// advice of EU and UK authorities and training texts for oxidative colour: alert
// test 48 hours ahead, not under 16, not after a reaction or a black henna tattoo,
// gloves, air (Regulation (EC) No 1223/2009, annex III, label warnings; UK Health
// and Safety Executive, advice for hairdressers); what has no such source is common
// practice. A lesson brings them by what it uses and by its bowls, and nothing
// switches them off.

// A use is something in a lesson that calls for cautions.
type use string

const (
	useColour    use = "colour"
	useLightener use = "lightener"
	useHeat      use = "heat"
	useBlades    use = "blades"
)

var cautions = []struct {
	use   use
	items []CareItem
}{
	{useColour, []CareItem{
		{"Allergy alert test.", "At least 48 hours before every colour service, with the product that will be used and as its maker describes, also on somebody who has had it for years. Any reaction means no colour."},
		{"Ask first.", "No colour on a sore or broken scalp, after any earlier reaction to hair colour or to a black henna tattoo, or on anybody under 16."},
		{"Gloves and air.", "Gloves for mixing, applying and rinsing, a fresh pair for each client; a room with a through draught."},
		{"Strand test.", "The full mix for the full time on one strand first, wherever the hair’s history is not certain."},
		{"The clock.", "Never longer than the maker allows. Burning, swelling or a rash: rinse at once. Hard breathing or a swollen face: call for medical help."},
		{"Leftovers.", "Mixed colour is thrown away, never kept in a closed bottle."},
	}},
	{useLightener, []CareItem{
		{"Powder.", "Mix it away from the face. Its dust can bring on asthma: breathlessness means stop and get help."},
		{"Watch it.", "Look every few minutes from the first touch. Hair that stretches and does not come back is rinsed at once."},
		{"Not on", "hair with henna, metal salts or a recent relaxer: test a strand, ask, refer."},
	}},
	{useHeat, []CareItem{
		{"Heat.", "Only where the directions allow it, and with a shorter time set anew. Feel it on your own hand before it goes near a scalp."},
	}},
	{useBlades, []CareItem{
		{"Blades.", "Closed and laid down whenever they do not cut; clean between clients. A cut is covered before work goes on."},
	}},
}

// uses returns what a lesson uses: what its header says and its bowls show.
func uses(l *lesson.Lesson) []use {
	var found []use
	for _, t := range l.Uses {
		found = append(found, use(t.Value))
	}
	for _, f := range l.Formulas {
		if f.Kind.Value.Oxidative() && !f.Developer.None {
			found = append(found, useColour)
		}
		if f.Kind.Value == shade.Lightener {
			found = append(found, useLightener)
		}
	}
	return found
}

// care gathers the cautions of a lesson; nil where it calls for none.
func (b *builder) care(l *lesson.Lesson) *CareView {
	found := uses(l)
	v := &CareView{Title: "Before you begin"}
	if slices.Contains(found, useColour) {
		v.Title = "Before any colour"
	}
	for _, c := range cautions {
		if slices.Contains(found, c.use) {
			v.Items = append(v.Items, c.items...)
		}
	}
	if len(v.Items) == 0 {
		return nil
	}
	if p := b.page(safetyPage); p != nil {
		v.More = &Link{Text: "More on safety", Path: "../" + standingPath(p)}
	}
	return v
}
