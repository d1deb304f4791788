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

// CoversWhite reports whether a colour may be said to cover a share of white hair:
// permanent colour covers, up to level 7 (trade educators: lighter shades cover
// poorly unless the base is blonde); demi and other deposit colour blends (Hair
// Colour for Hairstylists: Level 2, BCcampus 2021, ch. 3.1) and is at its end at a
// half. A filler or a lightener covers none.
func CoversWhite(kind shade.Kind, applied shade.Level, white exact.Number) bool {
	switch kind {
	case shade.Permanent:
		return applied <= coversUpTo
	case shade.Demi, shade.Toner, shade.AcidToner, shade.AlkalineToner, shade.Direct:
		return applied <= coversUpTo && white.Less(exact.Half)
	}
	return false
}
