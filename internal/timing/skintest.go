package timing

import "time"

// SkinTestWait is how long before a colour its allergy alert test is done: 48 hours
// (a United Kingdom trade association's note on the European recommendation of 2023;
// United States Food and Drug Administration, hair dyes, two days). The hours count as
// they pass, also over a change to summer time. A test that has waited so long is no
// guarantee.
const SkinTestWait = 48 * time.Hour
