package draft

import (
	"fmt"
	"slices"
	"strings"

	"plait/internal/heard"
	"plait/internal/measure"
)

// SheetFile is the head sheet that stands beside the lesson of a cut.
const SheetFile = "plan.head.yaml"

// cut is what was heard of how the hair is cut in one step.
type cut struct {
	step                        int
	elevations, guides, lengths []heard.CutFact
}

// findCuts gives what was heard of a cut to the step it was said in. Talk in which a
// bowl is mixed has none: what is parted there is parted for the colour.
func (d *drafter) findCuts() {
	if len(d.bowls) > 0 || d.Foreign {
		return
	}
	for _, f := range heard.Cuts(d.Cues) {
		switch f.Kind {
		case heard.Parting:
			if !slices.ContainsFunc(d.partings, func(p heard.CutFact) bool { return p.Parting == f.Parting }) {
				d.partings = append(d.partings, f)
			}
		case heard.Measure:
			d.measures = append(d.measures, f)
		default:
			d.cutIn(d.stepOf(f.Cue)).take(f)
		}
	}
}

// cutIn returns the cut of a step.
func (d *drafter) cutIn(step int) *cut {
	if n := len(d.cuts); n > 0 && d.cuts[n-1].step == step {
		return d.cuts[n-1]
	}
	c := &cut{step: step}
	d.cuts = append(d.cuts, c)
	return c
}

func (c *cut) take(f heard.CutFact) {
	switch f.Kind {
	case heard.Elevation:
		c.elevations = append(c.elevations, f)
	case heard.Length:
		c.lengths = append(c.lengths, f)
	default:
		c.guides = append(c.guides, f)
	}
}

// cutting reports whether there is something for a head sheet.
func (d *drafter) cutting() bool { return len(d.partings)+len(d.cuts) > 0 }

// sheetStep is the step that shows the head sheet: the one in which the hair is parted,
// else the first in which it is cut.
func (d *drafter) sheetStep() int {
	if len(d.partings) > 0 {
		return d.stepOf(d.partings[0].Cue)
	}
	return d.cuts[0].step
}

// sheet writes the head sheet of a cut.
func (d *drafter) sheet() string {
	if !d.cutting() {
		return ""
	}
	var w strings.Builder
	w.WriteString("# A draft. Each value has the time and the words it came from; a question mark is for you to answer.\n")
	w.WriteString("title: ?   # what the sheet shows\n")
	d.writePartings(&w)
	if len(d.cuts) > 0 {
		w.WriteString("cut:\n")
	}
	for _, c := range d.cuts {
		d.writeCut(&w, c)
	}
	return w.String()
}

// Options of partings that have to be said, each with the question for it.
var partingOptions = map[string]string{
	"triangle": "point: ?   # where does its point lie?",
	"side":     "on: ?   # left or right?",
}

// writePartings writes the partings in the order they were named. Each divides all there
// is unless it is said what; only of the two that quarter a head that goes without saying.
func (d *drafter) writePartings(w *strings.Builder) {
	if len(d.partings) == 0 {
		w.WriteString("sections: ?   # no parting was heard\n")
		return
	}
	w.WriteString("sections:\n")
	quarters := true
	for i, p := range d.partings {
		quarters = quarters && (p.Parting == "centre" || p.Parting == "ear to ear")
		fmt.Fprintf(w, "  - part: %s   # %s\n", p.Parting, quoted(p.At, p.Said))
		if i > 0 && !quarters {
			w.WriteString("    of: ?   # which sections does it divide?\n")
		}
		if option := partingOptions[p.Parting]; option != "" {
			fmt.Fprintf(w, "    %s\n", option)
		}
	}
}

// writeCut writes what was heard of the cut of one step.
func (d *drafter) writeCut(w *strings.Builder, c *cut) {
	fmt.Fprintf(w, "  - of: ?   # %s\n", d.placesOf(c.step))
	fmt.Fprintf(w, "    elevation: %s\n", c.elevation())
	if f, ok := agreedCut(c.elevations); ok && f.Floor {
		fmt.Fprintf(w, "    from: floor   # %s\n", quoted(f.At, f.Said))
	}
	length := c.length()
	for _, g := range c.guides {
		if g.Kind == heard.Travels {
			fmt.Fprintf(w, "    guide:\n      length: %s\n      at: ?   # where does it start?\n      travels: yes   # %s\n", length, quoted(g.At, g.Said))
			return
		}
	}
	if len(c.guides)+len(c.lengths) == 0 {
		w.WriteString("    guide: ?   # no guide was heard. What is the hair cut to?\n")
		return
	}
	fmt.Fprintf(w, "    guide: ?   # %s. What is the hair cut to?\n", allCut(append(slices.Clone(c.guides), c.lengths...)))
}

// placesOf says which places of the head were named in a step.
func (d *drafter) placesOf(step int) string {
	var names []string
	for _, f := range d.facts {
		if f.Kind == heard.Section && !f.Withdrawn && d.stepOf(f.Cue) == step {
			names = append(names, quoted(f.At, f.Said))
		}
	}
	if len(names) == 0 {
		return "no place was named in the step at " + measure.Clock(d.Cues[d.begins[step]].From) + ". Which sections?"
	}
	return "named: " + strings.Join(names, ", ") + ". Which sections?"
}

func (c *cut) elevation() string {
	f, ok := agreedCut(c.elevations)
	switch {
	case ok && f.Number.IsZero():
		return "natural   # " + allCut(c.elevations)
	case ok:
		return f.Number.Decimal(1) + "   # " + allCut(c.elevations)
	case len(c.elevations) > 0:
		return open + "   # " + allCut(c.elevations) + ". Which of them?"
	}
	return open + "   # not heard. How is the hair held?"
}

func (c *cut) length() string {
	f, ok := agreedCut(c.lengths)
	switch {
	case ok:
		return f.Number.Decimal(2) + "   # cm; " + allCut(c.lengths)
	case len(c.lengths) > 0:
		return open + "   # " + allCut(c.lengths) + ". Which of them?"
	}
	return open + "   # not heard"
}

// agreedCut returns what all facts say.
func agreedCut(facts []heard.CutFact) (heard.CutFact, bool) {
	for _, f := range facts {
		if !f.Number.Equal(facts[0].Number) || f.Floor != facts[0].Floor {
			return heard.CutFact{}, false
		}
	}
	if len(facts) == 0 {
		return heard.CutFact{}, false
	}
	return facts[0], true
}

// allCut says where several facts were heard.
func allCut(facts []heard.CutFact) string {
	var places []string
	for _, f := range facts {
		if p := quoted(f.At, f.Said); !contains(places, p) {
			places = append(places, p)
		}
	}
	return strings.Join(places, ", ")
}
