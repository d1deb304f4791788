package hair

import "plait/internal/shade"

// FillBeyond is the number of levels hair may go darker before warmth is filled in
// first. Some courses take one more (common practice).
const FillBeyond = 2

// twoStepsBeyond is the number of levels beyond which filling and colouring are
// better two steps than one; the figure is the project's own.
const twoStepsBeyond = 4

// NeedsFilling reports whether lightened hair has lost the warmth a darker target
// stands on, so that it must be replaced first: it goes darker by more than the given
// number of levels, usually [FillBeyond]. Natural and coloured hair still has its own
// (common practice).
func NeedsFilling(state State, from, target shade.Level, beyond int) bool {
	return state == Lightened && int(from-target) > beyond
}

// Filling is the warmth to replace before hair goes darker.
type Filling struct {
	Hue      shade.Hue // the underlying pigment of the target
	TwoSteps bool      // the way down is long: better in two steps
}

// FillingFor returns the filling for going darker from one level to a target. The
// hue is the target's own undertone by the table given, a maker's or
// [shade.Undertone] (common practice).
func FillingFor(from, target shade.Level, undertone func(shade.Level) shade.Hue) Filling {
	return Filling{Hue: undertone(target), TwoSteps: int(from-target) > twoStepsBeyond}
}
