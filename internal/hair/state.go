// Package hair says what a colour can do to hair: how far it lifts, which shade
// reaches a target, what warmth is opened on the way, how white hair is covered
// and when missing warmth must be filled in first.
//
// Hardly any of it is law. Most is common practice, and each function says so:
// what it returns is for a warning, never for a promise about a result.
package hair

import "slices"

// State is what has been done to hair before.
type State string

// The states of hair.
const (
	Natural   State = "natural"
	Coloured  State = "coloured"
	Lightened State = "lightened"
)

// States returns all states.
func States() []State { return []State{Natural, Coloured, Lightened} }

// ParseState reads the name of a state.
func ParseState(s string) (State, bool) {
	return State(s), slices.Contains(States(), State(s))
}

// Zone is a stretch of the strand that takes colour in its own way.
type Zone string

// The zones of hair, from the scalp outward: the roots are the youngest hair and the
// warmest, the ends the oldest and most porous.
const (
	Roots   Zone = "roots"
	Lengths Zone = "lengths"
	Ends    Zone = "ends"
)
