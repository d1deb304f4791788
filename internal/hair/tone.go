package hair

import "plait/internal/shade"

// Cancels reports whether the base of a shade takes out a warmth: the two stand
// opposite each other on the wheel, or a neighbour away. It names a direction; how
// much is left depends on how much dye meets how much warmth.
func Cancels(base, warmth shade.Hue) bool {
	return base.Near(warmth.Opposite())
}

// TurnsGreen reports whether a blue base over yellow warmth would read green, the
// usual slip on very light hair, where violet is wanted (common practice).
func TurnsGreen(base, warmth shade.Hue) bool {
	return warmth == shade.Yellow && (base == shade.Blue || base == shade.BlueGreen)
}
