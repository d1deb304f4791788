package draw

import (
	"fmt"
	"math"
	"strings"

	"plait/internal/geom"
	"plait/internal/silhouette"
	"plait/internal/strand"
)

// centimetres writes a length: "12.1 cm".
func centimetres(cm float64) string { return fmt.Sprintf("%.1f cm", cm) }

// degrees writes an angle: "45°".
func degrees(angle float64) string { return fmt.Sprintf("%.0f°", geom.InDegrees(angle)) }

// span writes a range of lengths, one length where it has one.
func span(shortest, longest float64) string {
	a, b := centimetres(shortest), centimetres(longest)
	if a == b {
		return a
	}
	return strings.TrimSuffix(a, " cm") + " to " + b
}

// held says how strands are held: "45° from the head".
func held(l strand.Lift) string {
	from := "from the head"
	if l.FromFloor {
		from = "from the floor"
	}
	words := degrees(l.Elevation) + " " + from
	if l.Toward != strand.Nowhere && l.By != 0 {
		words += fmt.Sprintf(", over-directed %s to the %s", degrees(l.By), l.Toward)
	}
	if l.Fingers != 0 {
		words += ", fingers " + degrees(math.Abs(l.Fingers)) + " off square"
	}
	return words
}

// guided says how a section is cut.
func guided(c strand.Cut) string {
	switch g := c.Guide.(type) {
	case nil:
		return "not cut"
	case strand.Perimeter:
		return "cut in natural fall to one level line"
	case strand.Fixed:
		return "cut to " + centimetres(g.Cm) + " all over"
	case strand.Travelling:
		from := "from " + centimetres(g.Start)
		if g.Below != nil {
			from = "that goes on from the hair below"
		}
		return "travelling guide " + from + ", held " + held(c.Lift)
	case strand.Wall:
		return "cut at a wall, held " + held(c.Lift)
	case strand.Stationary:
		return "stationary guide: all is brought to one point"
	case strand.StationaryLine:
		return "stationary guide: all is brought to one strip"
	}
	return "cut"
}

// sections says something of each section that is seen in a view.
func (c *Cuts) sections(b bald, say func(section int) string) string {
	seen := make([]bool, len(c.fallen.Plan.Sections))
	for _, k := range b.keys {
		if k > skin {
			seen[k-1] = true
		}
	}
	var list []string
	for i, s := range c.fallen.Plan.Sections {
		if seen[i] {
			list = append(list, s.Name+": "+say(i))
		}
	}
	return strings.Join(list, "; ") + "."
}

// lengths says how long the hair of a section is after the cut.
func (c *Cuts) lengths(section int) string {
	l := c.fallen.Lengths[section]
	if l.Longest == 0 {
		return "not cut"
	}
	return span(l.Shortest, l.Longest) + ", " + centimetres(l.Mean) + " in the mean"
}

// facts says how the hair falls.
func (c *Cuts) facts() string {
	f := c.fallen
	if f.Longest == 0 {
		return "No hair is cut."
	}
	words := []string{"Lengths " + span(f.Shortest, f.Longest)}
	for _, landmark := range []string{"front hairline", "nape"} {
		if cm, ok := f.At(landmark); ok {
			words = append(words, "at the "+landmark+" "+centimetres(cm))
		}
	}
	text := strings.Join(words, ", ") + "."
	if f.Before > f.Longest {
		text += " Before the cut: " + centimetres(f.Before) + "."
	}
	for _, e := range f.Perimeter {
		if e.Left {
			text += " " + hem(e)
		}
	}
	if f.Weighted {
		text += " The weight sits " + c.height(f.Weight.Z) + "."
	}
	return text
}

// hem says how a piece of the perimeter runs.
func hem(e silhouette.Edge) string {
	toward := "face"
	if e.Zone == silhouette.Nape {
		toward = "middle"
	}
	const level = 1.0 // degrees; less cannot be seen
	switch slope := geom.InDegrees(e.Slope); {
	case math.Abs(slope) < level:
		return fmt.Sprintf("The %s is level.", e.Zone)
	case slope > 0:
		return fmt.Sprintf("The %s falls %.0f° toward the %s.", e.Zone, slope, toward)
	default:
		return fmt.Sprintf("The %s rises %.0f° toward the %s.", e.Zone, -slope, toward)
	}
}

// height says where a level lies on the head: "2.5 cm below the occipital bone".
func (c *Cuts) height(z float64) string {
	bone, _ := c.fallen.Plan.Head.Landmark("occipital bone")
	switch off := z - bone.P.Z; {
	case math.Abs(off) < 0.5:
		return "at the occipital bone"
	case off > 0:
		return centimetres(off) + " above the occipital bone"
	default:
		return centimetres(-off) + " below the occipital bone"
	}
}
