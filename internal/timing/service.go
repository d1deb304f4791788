package timing

import (
	"time"

	"plait/internal/measure"
)

// Chair returns how long a client sits, from zero to the last rinse and what comes
// after it: where every bowl comes off as early as it may, and where each stays as
// long as it may. It is nothing where there is no bowl.
func Chair(bowls []Timeline, after time.Duration) measure.Span {
	var chair measure.Span
	for _, t := range bowls {
		chair.Min = max(chair.Min, t.Rinse.Min+after)
		chair.Max = max(chair.Max, t.Rinse.Max+after)
	}
	return chair
}

// Rinsing stands for the section of a [Clash] where the other bowl must be rinsed.
const Rinsing = -1

// Clash is a stretch of time in which two bowls need the same pair of hands: a
// section of one is being applied, and a section of another too, or the other must
// come off. That two bowls are on the hair together is no clash.
type Clash struct {
	Bowl, Section int // what is being applied
	Other         int // the bowl that needs the hands as well
	OtherSection  int // what of it is to be applied, or [Rinsing]
	Over          measure.Span
}

// Clashes returns where bowls of one service need the same hands, in the order of
// the bowls. A bowl that may come off before or after the other's application clashes
// with none.
func Clashes(bowls []Timeline) []Clash {
	var found []Clash
	for a := range bowls {
		for b := range bowls {
			if a == b {
				continue
			}
			if a < b {
				found = append(found, applications(bowls, a, b)...)
			}
			found = append(found, rinses(bowls, a, b)...)
		}
	}
	return found
}

// applications finds the sections of two bowls that are applied at the same time.
func applications(bowls []Timeline, a, b int) []Clash {
	var found []Clash
	for i, s := range bowls[a].Sections {
		for j, o := range bowls[b].Sections {
			over := measure.Span{Min: max(s.Start, o.Start), Max: min(s.End, o.End)}
			if over.Min < over.Max {
				found = append(found, Clash{Bowl: a, Section: i, Other: b, OtherSection: j, Over: over})
			}
		}
	}
	return found
}

// rinses finds the section of bowl a during which all of the time lies in which bowl
// b can come off.
func rinses(bowls []Timeline, a, b int) []Clash {
	var found []Clash
	rinse := bowls[b].Rinse
	for i, s := range bowls[a].Sections {
		if s.Start < rinse.Min && rinse.Max < s.End {
			found = append(found, Clash{Bowl: a, Section: i, Other: b, OtherSection: Rinsing, Over: rinse})
		}
	}
	return found
}
