package hair

import (
	"time"

	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/peroxide"
	"plait/internal/shade"
)

// Limits of powder lightener where its maker gives none. A lightener's power is not
// in its peroxide alone: persulphates do much of the work, so its per cent on the
// hair is never compared with a colour's.
var (
	// OnScalpLimit is the strongest developer for lightener that touches the scalp
	// (common practice; some makers go to 9 %).
	OnScalpLimit = peroxide.Percent(exact.Int(6))

	// LightenerCheck is how often lightening hair is looked at (common practice).
	LightenerCheck = measure.Span{Min: 5 * time.Minute, Max: 10 * time.Minute}

	// LightenerLimit is the longest lightener seldom stays in all (common practice).
	LightenerLimit = 50 * time.Minute
)

// HighLiftFrom is the darkest natural level that high-lift colour is meant for
// (common practice).
const HighLiftFrom shade.Level = 6

// SuitsHighLift reports whether high-lift colour is meant for such hair: natural,
// and of level 6 or lighter (common practice).
func SuitsHighLift(state State, natural shade.Level) bool {
	return state == Natural && natural >= HighLiftFrom
}

// SuitsFiller reports whether a filler has anything to do: it replaces warmth that
// lightening took, and natural hair has its own (common practice).
func SuitsFiller(state State) bool { return state != Natural }
