package check

import (
	"strings"

	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/hair"
	"plait/internal/shade"
	"plait/internal/timing"
)

var formulaZoneOrder = Rule{
	ID:    "formula/zone-order",
	Title: "natural hair that goes lighter gets its roots last",
	Why: "The scalp warms the hair beside it, and warm hair lightens sooner. On hair that was never coloured the lengths therefore go first and " +
		"the roots last; the other way round they come out lighter than all the rest. Going darker, the work runs from the roots to the ends.",
	Source:   "Hair Colour for Hairstylists: Level 2, BCcampus 2021, ch. 4.5 (lightening); going darker is common practice, no source",
	Severity: diag.Warning,
	Before:   "on: [roots, lengths]\nkind: lightener\ncolour: 30 g PW\ndeveloper: 20 vol\nratio: 1:2\napply: {roots: 6 min, lengths: 12 min}\nhair: 6 natural",
	After:    "on: [roots, lengths]\nkind: lightener\ncolour: 30 g PW\ndeveloper: 20 vol\nratio: 1:2\napply: {lengths: 12 min, wait: 5 min, roots: 6 min}\nhair: 6 natural",
	Since:    "1.0",
	ByKind:   true,
	Formula: func(p *Pass, f *derive.Formula) {
		if len(f.Apply.Sections) < 2 || !onNatural(f) {
			return
		}
		wanted, aimed := liftWanted(f)
		lighter := f.Kind.Value == shade.Lightener || wanted > 0
		darker := aimed && f.Target.Value.Level < f.Hair.Value.Level
		if !lighter && !darker {
			return
		}
		at := 0
		order := timing.Order(lighter)
		for _, s := range f.Apply.Sections {
			place := zonePlace(s.Name.Value, order)
			if place < 0 {
				continue
			}
			if place < at {
				p.Reportf(s.Name.Span, "work in the order "+zoneList(order), "%s after %s: natural hair that goes %s is covered in another order (common practice)",
					order[place], order[at], map[bool]string{true: "lighter", false: "darker"}[lighter])
				return
			}
			at = place
		}
	},
}

// zonePlace returns where the zone that a section's name speaks of stands in an order, -1
// where it speaks of none.
func zonePlace(name string, order []hair.Zone) int {
	for i, zone := range order {
		for word := range strings.FieldsSeq(strings.ToLower(name)) {
			if word == string(zone) || word == strings.TrimSuffix(string(zone), "s") {
				return i
			}
		}
	}
	return -1
}

func zoneList(order []hair.Zone) string {
	words := make([]string, len(order))
	for i, zone := range order {
		words[i] = string(zone)
	}
	return strings.Join(words, ", ")
}
