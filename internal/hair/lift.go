package hair

import (
	"plait/internal/exact"
	"plait/internal/peroxide"
	"plait/internal/shade"
)

// Lift is how many levels lighter hair becomes, from the least to the most.
type Lift struct{ Min, Max int }

// lifts is the lift of natural hair by permanent colour with a developer of at
// least the given strength, strongest first. Study notes for hairdressers give one
// level more or less; weaker developers only deposit (common practice).
var lifts = []struct {
	from peroxide.Strength
	lift Lift
}{
	{peroxide.Volumes(exact.Int(40)), Lift{3, 4}},
	{peroxide.Volumes(exact.Int(30)), Lift{2, 3}},
	{peroxide.Volumes(exact.Int(20)), Lift{1, 2}},
	{peroxide.Volumes(exact.Int(10)), Lift{0, 1}},
}

// LiftBy returns the lift of natural hair by permanent colour with a developer, as
// usually taught: 10 vol up to one level, 20 vol one to two, 30 vol two to three, 40
// vol three to four (common practice). A strength between two counts as the weaker.
//
// Max is a ceiling and no promise: the level of the shade decides as much
// ([Result]), and a shade of level 3 with 40 vol makes no level 7.
func LiftBy(developer peroxide.Strength) Lift {
	for _, row := range lifts {
		if developer.Cmp(row.from) >= 0 || developer.Agrees(row.from) {
			return row.lift
		}
	}
	return Lift{}
}

// LiftPossible returns the lift that a kind of colour can give hair in its state.
// Only permanent and high-lift colour on natural hair lift; colour does not lift
// colour, and demi, toner, filler and direct dye only deposit (common practice).
// ok is false for a lightener, whose lift is watched and not computed.
func LiftPossible(kind shade.Kind, state State, developer peroxide.Strength) (lift Lift, ok bool) {
	switch kind {
	case shade.Lightener:
		return Lift{}, false
	case shade.Permanent, shade.HighLift:
		if state == Natural {
			return LiftBy(developer), true
		}
	}
	return Lift{}, true
}

// LiftWanted returns how many levels lighter the target is than the hair, 0 where it
// is as dark or darker.
func LiftWanted(natural, target shade.Level) int {
	return max(int(target-natural), 0)
}

// ShadeFor returns the level of the shade that takes natural hair to a target by
// permanent colour. Going lighter it is as far beyond the target as the hair is
// below it,
//
//	target + (target − natural) = 2T − N,
//
// (a self-training guide for formulating colour); otherwise it is the target.
// Whether such a shade exists and may be used is [Judge]'s to say. On porous hair a
// level lighter is usual when going darker (common practice).
func ShadeFor(natural, target shade.Level) shade.Level {
	if target <= natural {
		return target
	}
	return 2*target - natural
}

// Result returns the level natural hair is expected to read after permanent colour:
// half-way between hair and shade where the shade is lighter, else the shade's own
// (an averaging rule of trade educators). It is the inverse of [ShadeFor].
func Result(natural, applied shade.Level) shade.Reading {
	if applied <= natural {
		return shade.Read(exact.Int(int64(applied)))
	}
	return shade.Read(exact.Of(int64(natural+applied), 2))
}

// DeveloperFor returns the developer usually taken for a number of levels of lift:
// 10 vol for none, or 20 vol where white hair must be covered; 20 vol for one or
// two; 30 vol for three; 40 vol for four (common practice). ok is false beyond four,
// where colour gives way to a lightener.
func DeveloperFor(lift int, coverWhite bool) (developer peroxide.Strength, ok bool) {
	volumes := int64(0)
	switch {
	case lift <= 0 && !coverWhite:
		volumes = 10
	case lift <= 2:
		volumes = 20
	case lift <= MostLift:
		volumes = 10 * int64(lift)
	default:
		return peroxide.Strength{}, false
	}
	return peroxide.Volumes(exact.Int(volumes)), true
}

// MostLift is the number of levels beyond which lightening is not asked of colour
// (common practice).
const MostLift = 4

// Reach says whether permanent colour can bring hair to a target.
type Reach uint8

// What stands in the way of lift by permanent colour. The first that holds is told.
const (
	Within    Reach = iota
	NotLifted       // the hair is coloured or lightened, and colour lifts neither
	TooFar          // more than [MostLift] levels: work for a lightener
	OffScale        // the shade needed is lighter than the range goes: a high-lift colour or a lightener, ask
)

// Judge tells whether permanent colour of a range whose lightest shade is known can
// bring hair to a target. Where no lift is wanted, it can. A textbook of hair science
// agrees that dark brown to light blonde is out of a tint's reach; the limits are
// common practice.
func Judge(state State, natural, target, lightest shade.Level) Reach {
	switch lift := LiftWanted(natural, target); {
	case lift == 0:
		return Within
	case state != Natural:
		return NotLifted
	case lift > MostLift:
		return TooFar
	case ShadeFor(natural, target) > lightest:
		return OffScale
	}
	return Within
}

// Excess is what too strong a developer does beside the work asked of it.
type Excess struct {
	Levels int         // lift that nobody asked for
	Opened shade.Level // the level whose warmth shows beneath the shade; valid where Levels > 0
}

// Grave reports whether the excess deserves a warning. One level is usual, as when
// white hair is covered with 20 vol; the threshold of two is the project's own.
func (e Excess) Grave() bool { return e.Levels >= 2 }

// ExcessOf returns the least lift of a developer over the lift wanted of natural
// hair,
//
//	least lift − max(target − natural, 0),
//
// and the level up to which natural pigment is opened; its undertone is the warmth
// to expect (derived from [LiftBy]).
func ExcessOf(natural, target shade.Level, developer peroxide.Strength) Excess {
	least := LiftBy(developer).Min
	levels := max(least-LiftWanted(natural, target), 0)
	if levels == 0 {
		return Excess{}
	}
	return Excess{Levels: levels, Opened: min(natural+shade.Level(least), shade.Lightest)}
}

// usualOnHair is the strength on the hair that deposit has no use for going beyond.
var usualOnHair = peroxide.Percent(exact.Int(3))

// Needless reports whether a bowl is stronger on the hair than deposit needs: above
// 3 % with a shade no lighter than the hair. Softening white hair is the one reason
// for it (common practice).
func Needless(natural, applied shade.Level, onHair peroxide.Strength) bool {
	return applied <= natural && onHair.Cmp(usualOnHair) > 0
}
