package sheet

import (
	"errors"

	"plait/internal/diag"
	"plait/internal/geom"
	"plait/internal/head"
	"plait/internal/scalp"
	"plait/internal/source"
	"plait/internal/strand"
)

// New makes the head. Reading has seen to the bounds of its size.
func (h Head) New() *head.Head {
	switch {
	case h.Ball:
		return head.Ball()
	case h.Circumference == 0:
		return head.Adult()
	}
	sized, err := head.Sized(h.Circumference)
	if err != nil {
		return head.Adult()
	}
	return sized
}

// Taken returns the partings for package scalp.
func (s *Sheet) Taken() []scalp.Step {
	steps := make([]scalp.Step, len(s.Steps))
	for i := range s.Steps {
		steps[i] = s.Steps[i].Taken
	}
	return steps
}

// Uncut returns the length of all hair before the cut, in cm, 0 where nothing is said
// of it: what `before` says, else the length that product is worked out for.
func (s *Sheet) Uncut() float64 {
	if s.Before.Set() {
		return s.Before.Value
	}
	return s.Product.Length.Value
}

// Ends returns how the hair falls after the cut: straight down if nothing is said.
func (s *Sheet) Ends() strand.Dressing {
	if s.Fall.Set() {
		return s.Fall.Value
	}
	return strand.Gravity
}

// On makes the guide on a head. A guide that goes on from another section needs the
// start that the caller finds there.
func (g *Guide) On(h *head.Head, fall strand.Dressing) (strand.Guide, []diag.Diagnostic) {
	at, faults := g.find(h)
	if len(faults) > 0 {
		return nil, faults
	}
	switch g.Kind {
	case GuideLevel:
		if g.place.Value != "" {
			return strand.Perimeter{Z: at.P.Z, Dressing: fall}, nil
		}
		return strand.Perimeter{Z: g.Cm, Dressing: fall}, nil
	case GuidePoint:
		return strand.Beside(at, g.Back, g.Up, g.Left), nil
	case GuideWall:
		return strand.Facing(g.Side, g.Cm), nil
	case GuideLine:
		if g.Strip == EarToEar {
			return strand.EarToEar(h, g.Cm), nil
		}
		return strand.CentreBack(h, g.Cm), nil
	case GuideTravelling:
		if g.place.Value != "" {
			return strand.Travelling{Start: g.Cm, Line: geom.PlaneAt(at.P, geom.Vec3{Z: 1})}, nil
		}
		return strand.Travelling{Start: g.Cm}, nil
	}
	return strand.Fixed{Cm: g.Cm}, nil
}

// find returns the place that the guide names, if it names one.
func (g *Guide) find(h *head.Head) (head.Point, []diag.Diagnostic) {
	if g.place.Value == "" {
		return head.Point{}, nil
	}
	at, err := h.Find(g.Place)
	var bad *head.PlaceError
	if errors.As(err, &bad) {
		return head.Point{}, []diag.Diagnostic{placeFault(g.place, bad)}
	}
	return at, nil
}

// Place finds a place that a claim names on a head, or says why it is none.
func Place(h *head.Head, t source.Text) (head.Point, *diag.Diagnostic) {
	p, err := head.ParsePlace(t.Value)
	if err == nil {
		var at head.Point
		if at, err = h.Find(p); err == nil {
			return at, nil
		}
	}
	var bad *head.PlaceError
	if !errors.As(err, &bad) {
		bad = &head.PlaceError{Place: t.Value, Reason: head.Unreadable}
	}
	d := placeFault(t, bad)
	return head.Point{}, &d
}
