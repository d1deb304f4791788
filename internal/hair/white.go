package hair

import (
	"plait/internal/exact"
	"plait/internal/shade"
)

// OnWhite returns what a shade reads on white hair, which takes the shade's own
// level, and on the rest, which takes [Result] (an averaging rule of trade educators).
func OnWhite(natural, applied shade.Level) (white shade.Level, rest shade.Reading) {
	return applied, Result(natural, applied)
}

// NaturalShare returns how much of the colour usually comes from the natural series
// to cover a share of white hair: none below a quarter, a third below a half, half
// below three quarters, else two thirds up to all (common practice; a trade article
// takes half). Shares are fractions of one.
func NaturalShare(white exact.Number) (least, most exact.Number) {
	switch {
	case white.Less(exact.Of(1, 4)):
		return exact.Zero, exact.Zero
	case white.Less(exact.Half):
		return exact.Of(1, 3), exact.Of(1, 3)
	case white.Less(exact.Of(3, 4)):
		return exact.Half, exact.Half
	}
	return exact.Of(2, 3), exact.One
}

// NaturalShareByQuarters is another rule some courses teach: the share of white hair
// rounded up to the next quarter (common practice).
func NaturalShareByQuarters(white exact.Number) exact.Number {
	return white.Ceil(exact.Of(1, 4))
}

// coversUpTo is the lightest level that covers white hair well.
const coversUpTo shade.Level = 7

// CoversWhite reports whether a shade holds enough dye for permanent colour to cover white
// hair: up to level 7 (trade educators: lighter shades cover poorly unless the base is
// blonde).
func CoversWhite(applied shade.Level) bool { return applied <= coversUpTo }
