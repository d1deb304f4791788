package shade

import (
	"slices"

	"plait/internal/measure"
	"plait/internal/peroxide"
)

// Terms are a maker's directions for one kind of colour.
type Terms struct {
	Ratio     measure.Ratio       // zero: none stated, or used as it is
	Time      measure.Span        // zero: none stated
	Strengths []peroxide.Strength // empty: none stated
}

// Allows reports whether the terms name the developer strength.
func (t Terms) Allows(s peroxide.Strength) bool {
	return len(t.Strengths) == 0 || slices.ContainsFunc(t.Strengths, s.Agrees)
}

// Apart names a direction in which makers leave nothing that keeps to all of them.
type Apart string

// The directions that can lie apart.
const (
	RatiosApart    Apart = "ratio"
	TimesApart     Apart = "time"
	StrengthsApart Apart = "strength of developer"
)

// Strictest returns the directions that keep to those of two makers whose shades go into
// one bowl: their common ratio, the time in which their spans overlap, the strengths
// that both name. Where they have none in common the direction is left out and named in
// apart.
func Strictest(a, b Terms) (t Terms, apart []Apart) {
	t = a
	switch {
	case a.Ratio.IsZero():
		t.Ratio = b.Ratio
	case !b.Ratio.IsZero() && !a.Ratio.Equal(b.Ratio):
		t.Ratio = measure.Ratio{}
		apart = append(apart, RatiosApart)
	}
	switch overlap := (measure.Span{Min: max(a.Time.Min, b.Time.Min), Max: min(a.Time.Max, b.Time.Max)}); {
	case a.Time.IsZero():
		t.Time = b.Time
	case b.Time.IsZero():
	case overlap.Min > overlap.Max:
		t.Time = measure.Span{}
		apart = append(apart, TimesApart)
	default:
		t.Time = overlap
	}
	switch {
	case len(a.Strengths) == 0:
		t.Strengths = b.Strengths
	case len(b.Strengths) > 0:
		t.Strengths = slices.DeleteFunc(slices.Clone(a.Strengths), func(s peroxide.Strength) bool { return !b.Allows(s) })
		if len(t.Strengths) == 0 {
			t.Strengths = nil
			apart = append(apart, StrengthsApart)
		}
	}
	return t, apart
}
