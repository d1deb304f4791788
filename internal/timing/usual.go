package timing

import (
	"time"

	"plait/internal/hair"
	"plait/internal/measure"
	"plait/internal/shade"
)

// usual is how long each kind of colour stays on hair.
var usual = map[shade.Kind]measure.Span{
	shade.Permanent: minutes(30, 40), // Hair Colour for Hairstylists: Level 2, BCcampus 2021, ch. 3.1
	shade.Demi:      minutes(20, 30), // the same; 20 to 30 minutes for demi and semi
	shade.Direct:    minutes(20, 30), // the same
	shade.HighLift:  minutes(45, 55), // common practice
	shade.Toner:     minutes(5, 20),  // common practice; watched
	shade.Lightener: minutes(0, 50),  // common practice; watched

	shade.AcidToner:     minutes(5, 20), // common practice; watched
	shade.AlkalineToner: minutes(5, 20), // common practice; watched
}

func minutes(low, high int) measure.Span {
	return measure.Span{Min: time.Duration(low) * time.Minute, Max: time.Duration(high) * time.Minute}
}

// Usual returns how long a kind of colour usually stays on hair where its maker says
// nothing; ok is false for a kind without a usual time. The maker's directions go
// before it.
func Usual(kind shade.Kind) (span measure.Span, ok bool) {
	span, ok = usual[kind]
	return span, ok
}

// ResistantWhite is how long permanent colour usually stays on white hair that takes
// colour badly (common practice).
var ResistantWhite = minutes(35, 45)

// Order returns the zones of hair that was never coloured in the order in which they
// are usually covered. Going lighter, the roots come last, because the warmth of the
// scalp speeds them (Hair Colour for Hairstylists: Level 2, BCcampus 2021, ch. 4.5);
// going darker, from the roots to the ends (common practice).
func Order(lighter bool) []hair.Zone {
	if lighter {
		return []hair.Zone{hair.Lengths, hair.Ends, hair.Roots}
	}
	return []hair.Zone{hair.Roots, hair.Lengths, hair.Ends}
}
