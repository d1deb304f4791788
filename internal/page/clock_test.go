package page

import (
	"strings"
	"testing"
	"time"

	"plait/internal/measure"
)

// The times are worked out by hand from the lesson: the root bowl takes 18 min to
// apply and stays 20 min from the last section, so it is rinsed at 38; the second
// goes on at 22, takes 6 and stays 10.
func TestServiceInTime(t *testing.T) {
	file, _ := render(t, 0).Get("lessons/regrowth-demi.html")
	page := plain(string(file.Data))
	for _, want := range []string{
		"From the first touch to the last rinse: <b>38 min</b>",
		`<th scope="row">Root</th><td>0–18</td><td>20–38 min</td><td>38</td>`,
		`<th scope="row">Refresh</th><td>22–28</td><td>10–16 min</td><td>38</td>`,
		`<rect class="goes" x="0%" y="20" width="47.37%" height="14"/>`,
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %s", want)
		}
	}
	file, _ = render(t, 0).Get("lessons/weighing.html")
	if strings.Contains(string(file.Data), "clock_title") {
		t.Error("a lesson without a start has a service in time")
	}
}

func TestMoments(t *testing.T) {
	expectMoments(t, 38*time.Minute, 38*time.Minute, "38")
	expectMoments(t, 0, 18*time.Minute, "0–18")
	expectMoments(t, 90*time.Second, 95*time.Minute, "1.5–95")
}

func expectMoments(t *testing.T, low, high time.Duration, want string) {
	t.Helper()
	if got := plain(moments(measure.Span{Min: low, Max: high})); got != want {
		t.Errorf("moments from %s to %s: %q, want %q", low, high, got, want)
	}
}

// The axis never has more numbers than a phone has room for.
func TestTickGap(t *testing.T) {
	for end, want := range map[time.Duration]time.Duration{
		2 * time.Minute:   5 * time.Minute,
		38 * time.Minute:  5 * time.Minute,
		40 * time.Minute:  10 * time.Minute,
		90 * time.Minute:  15 * time.Minute,
		239 * time.Minute: 30 * time.Minute,
		7 * time.Hour:     time.Hour,
		17 * time.Hour:    3 * time.Hour,
	} {
		if got := tickGap(end); got != want {
			t.Errorf("the axis of %s has a gap of %s, want %s", end, got, want)
		}
	}
}
