package sheet

import (
	"slices"
	"strings"
)

// View is one drawing of a head sheet: what is drawn and from where.
type View struct {
	Show Show
	From Side
}

// Show is what a drawing shows.
type Show string

// What a drawing can show: the sections of the head; the strands as they are lifted
// for the cut; the lengths after it as a map; the shape that falls.
const (
	ShowSections Show = "sections"
	ShowLifted   Show = "lifted"
	ShowLengths  Show = "lengths"
	ShowShape    Show = "shape"
)

// Side is where a drawing is seen from.
type Side string

// The sides.
const (
	FromLeft  Side = "left"
	FromRight Side = "right"
	FromBack  Side = "back"
	FromFront Side = "front"
	FromTop   Side = "top"
)

var sidesOf = []struct {
	show  Show
	sides []Side // the first is meant where none is named
}{
	{ShowSections, []Side{FromLeft, FromRight, FromBack, FromFront, FromTop}},
	{ShowLifted, []Side{FromLeft, FromRight, FromBack}},
	{ShowLengths, []Side{FromLeft, FromRight, FromBack, FromFront, FromTop}},
	{ShowShape, []Side{FromLeft, FromRight, FromBack, FromFront}},
}

// ParseView reads the words of a view: "left" shows the sections from the left,
// "shape back" the shape that falls from behind, "shape" from the left.
func ParseView(words string) (v View, ok bool) {
	show, side, _ := strings.Cut(strings.Join(strings.Fields(words), " "), " ")
	for _, known := range sidesOf {
		if Show(show) != known.show || known.show == ShowSections {
			continue
		}
		if side == "" {
			return View{known.show, known.sides[0]}, true
		}
		return View{known.show, Side(side)}, slices.Contains(known.sides, Side(side))
	}
	return View{ShowSections, Side(show)}, side == "" && slices.Contains(sidesOf[0].sides, Side(show))
}

// String returns the words that ParseView reads.
func (v View) String() string {
	if v.Show == ShowSections {
		return string(v.From)
	}
	return string(v.Show) + " " + string(v.From)
}

// OfCut reports whether the view needs a cut.
func (v View) OfCut() bool { return v.Show != ShowSections }

// UsualViews are what is drawn where nobody says what.
func UsualViews() []View { return []View{{ShowSections, FromLeft}, {ShowSections, FromBack}} }

// Views returns the words of all views.
func Views() []string {
	var words []string
	for _, known := range sidesOf {
		for _, side := range known.sides {
			words = append(words, View{known.show, side}.String())
		}
	}
	return words
}
