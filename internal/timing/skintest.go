package timing

import "time"

// SkinTestWait is how long before a colour its allergy alert test is done: 48 hours
// (a United Kingdom trade association's note on the European recommendation of 2023;
// United States Food and Drug Administration, hair dyes, two days). A test that has
// waited so long is no guarantee.
const SkinTestWait = 48 * time.Hour

// EarliestVisit returns the first moment a colour may be put on after its skin test.
// The hours count as they pass, so a change to summer time on the way makes the wall
// clock show an hour more.
func EarliestVisit(tested time.Time) time.Time { return tested.Add(SkinTestWait) }

// TooEarly returns how much of the wait is still missing at a visit, zero where it is
// over.
func TooEarly(tested, visit time.Time) time.Duration {
	return max(EarliestVisit(tested).Sub(visit), 0)
}
