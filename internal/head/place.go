package head

import (
	"fmt"
	"strconv"
	"strings"
)

// Place is where an author says a point lies: at a landmark, at a share of the
// midline between the hairlines, or at a distance from a landmark along the head.
// The zero Place is none.
type Place struct {
	Landmark string  // such as "crown"; "" where Share counts
	Share    float64 // of the arc from front hairline to nape, 0 to 1
	Way      Way     // where to from the landmark; Here for the landmark itself
	Distance float64 // along the surface, in cm
}

// Way is a direction along the head.
type Way string

// The ways from a landmark. On the midline behind is toward the nape and in front
// of toward the forehead; above is toward the apex and below away from it. From the
// top of an ear above and below run along the line over the apex.
const (
	Here    Way = ""
	Behind  Way = "behind"
	Before  Way = "in front of"
	Above   Way = "above"
	Below   Way = "below"
	midline     = "front hairline to nape"
)

// String returns the words that ParsePlace reads.
func (p Place) String() string {
	number := func(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) }
	switch {
	case p.Landmark == "":
		return number(float64(100*p.Share)) + " % " + midline
	case p.Way == Here:
		return p.Landmark
	}
	return number(p.Distance) + " cm " + string(p.Way) + " " + p.Landmark
}

// Reason says why a place cannot be used.
type Reason string

// The reasons.
const (
	UnknownLandmark Reason = "no landmark has this name"
	Unreadable      Reason = "neither a landmark nor a distance from one"
	NoWay           Reason = "from this landmark no distance can be counted this way"
	OffScalp        Reason = "it lies beyond the hairline"
)

// PlaceError is the error of a place that is none.
type PlaceError struct {
	Place  string // as the author wrote it
	Reason Reason
	Known  []string // the landmarks there are, where the name is the trouble
}

func (e *PlaceError) Error() string { return fmt.Sprintf("%q: %s", e.Place, string(e.Reason)) }

// ParsePlace reads "crown", "40 % front hairline to nape", "3 cm behind front
// hairline", "4 cm below crown", "2 cm above left ear top". Whether there is such a
// landmark is for [Head.Find] to say.
func ParsePlace(text string) (Place, error) {
	words := strings.Join(strings.Fields(text), " ")
	number, rest, _ := strings.Cut(words, " ")
	amount, err := strconv.ParseFloat(number, 64)
	if err != nil {
		if words == "" {
			return Place{}, &PlaceError{Place: text, Reason: Unreadable}
		}
		return Place{Landmark: words}, nil
	}
	if rest == "% "+midline {
		return Place{Share: amount / 100}, nil
	}
	if rest, ok := strings.CutPrefix(rest, "cm "); ok && amount > 0 {
		for _, way := range []Way{Behind, Before, Above, Below} {
			if landmark, ok := strings.CutPrefix(rest, string(way)+" "); ok {
				return Place{Landmark: landmark, Way: way, Distance: amount}, nil
			}
		}
	}
	return Place{}, &PlaceError{Place: text, Reason: Unreadable}
}

// Find returns the point at a place. The error is a [*PlaceError].
func (h *Head) Find(p Place) (Point, error) {
	front, nape := h.HairArc()
	if p.Landmark == "" {
		return h.onMidline(p, front+float64(p.Share*(nape-front)))
	}
	from, ok := h.Landmark(p.Landmark)
	switch {
	case !ok:
		return Point{}, &PlaceError{Place: p.String(), Reason: UnknownLandmark, Known: h.Landmarks()}
	case p.Way == Here:
		return from, nil
	case from.P.Y == 0:
		return h.onMidline(p, h.step(p, h.midline, from))
	case strings.HasSuffix(p.Landmark, "ear top") && (p.Way == Above || p.Way == Below):
		return h.onScalp(p, h.over.At(h.step(p, h.over, from)))
	}
	return Point{}, &PlaceError{Place: p.String(), Reason: NoWay}
}

// step returns the arc that lies the place's distance from a point of the trace.
func (h *Head) step(p Place, t *Trace, from Point) float64 {
	arc := t.ArcAt(from.P)
	toApex := 1.0
	if arc > t.ArcAt(h.mark("apex").P) {
		toApex = -1
	}
	switch p.Way {
	case Behind:
		return arc + p.Distance
	case Before:
		return arc - p.Distance
	case Above:
		return arc + float64(toApex*p.Distance)
	}
	return arc - float64(toApex*p.Distance)
}

func (h *Head) onMidline(p Place, arc float64) (Point, error) {
	front, nape := h.HairArc()
	const slack = 1e-6
	if !(arc > front-slack && arc < nape+slack) {
		return Point{}, &PlaceError{Place: p.String(), Reason: OffScalp}
	}
	return h.midlinePoint(arc), nil
}

func (h *Head) onScalp(p Place, at Point) (Point, error) {
	if Hair(h, at.U) < 0 {
		return Point{}, &PlaceError{Place: p.String(), Reason: OffScalp}
	}
	return at, nil
}
