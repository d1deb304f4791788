package strand

import (
	"plait/internal/head"
	"plait/internal/scalp"
)

// Cut is how the hair of a section is cut: to which guide, and how its strands are
// held. The zero Cut leaves it as it is.
type Cut struct {
	Guide Guide
	Lift  Lift
}

// Haircut is a parted head with the cuts of its sections. It is never changed once
// made.
type Haircut struct {
	Plan     *scalp.Plan
	Cuts     []Cut    // by the index of the section
	Before   float64  // length of all hair before the cut, in cm; 0 where it is not known
	Dressing Dressing // how the hair is combed when it falls
}

// Length returns the length in cm that a strand of a section has after the cut.
// Where the error says why it is not cut, that is its length before, 0 where that is
// not known. The errors are those of a guide, [ErrNotCut] and [ErrShort].
func (c *Haircut) Length(section int, root head.Point) (float64, error) {
	cut := c.Cuts[section]
	if cut.Guide == nil {
		return c.Before, ErrNotCut
	}
	length, err := cut.Guide.Length(c.Plan.Head, root, cut.Lift)
	switch {
	case err != nil:
		return c.Before, err
	case c.Before > 0 && length > c.Before:
		return c.Before, ErrShort
	}
	return length, nil
}

// At returns the length of the hair at a landmark; ok is false where there is no
// such landmark or its strand is not cut.
func (c *Haircut) At(landmark string) (cm float64, ok bool) {
	root, ok := c.Plan.Head.Landmark(landmark)
	if !ok {
		return 0, false
	}
	cm, err := c.Length(c.Plan.SectionAt(root), root)
	return cm, err == nil
}
