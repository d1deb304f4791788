package timing

import (
	"fmt"
	"testing"
	"time"
)

// 48 hours: a United Kingdom trade association's note on the European recommendation
// of 2023; the dates are derived.
func TestSkinTest(t *testing.T) {
	winter, summer := time.FixedZone("winter time", 0), time.FixedZone("summer time", 3600)
	monday := time.Date(2026, time.March, 2, 14, 0, 0, 0, winter)
	expect := func(tested, visit time.Time, early time.Duration) {
		t.Helper()
		if got := TooEarly(tested, visit); got != early {
			t.Errorf("tested %s, visit %s: too early by %v, want %v", tested, visit, got, early)
		}
	}
	expect(monday, time.Date(2026, time.March, 4, 13, 30, 0, 0, winter), 30*time.Minute)
	expect(monday, time.Date(2026, time.March, 4, 14, 0, 0, 0, winter), 0)
	expect(monday, time.Date(2026, time.March, 9, 9, 0, 0, 0, winter), 0)
	expect(monday, monday, 48*time.Hour)
	if got, want := EarliestVisit(monday), time.Date(2026, time.March, 4, 14, 0, 0, 0, winter); !got.Equal(want) {
		t.Errorf("earliest visit %s, want %s", got, want)
	}

	// Clocks go forward in the night to Sunday 29 March 2026: two days on the wall are
	// 47 hours.
	saturday := time.Date(2026, time.March, 28, 14, 0, 0, 0, winter)
	expect(saturday, time.Date(2026, time.March, 30, 14, 0, 0, 0, summer), time.Hour)
	expect(saturday, time.Date(2026, time.March, 30, 15, 0, 0, 0, summer), 0)
}

func ExampleTooEarly() {
	tested := time.Date(2026, time.March, 2, 14, 0, 0, 0, time.UTC)
	visit := time.Date(2026, time.March, 4, 13, 30, 0, 0, time.UTC)
	fmt.Println("wait another", TooEarly(tested, visit), "until", EarliestVisit(tested).Format("Monday 15:04"))
	// Output:
	// wait another 30m0s until Wednesday 14:00
}
