package page

import (
	"strings"
	"testing"
	"time"

	"plait/internal/derive"
	"plait/internal/formula"
	"plait/internal/lesson"
	"plait/internal/measure"
	"plait/internal/shade"
	"plait/internal/source"
)

// The times are worked out by hand from the lesson: the root bowl takes 18 min to
// apply and stays 20 min from the last section, so it is rinsed at 38; the second
// goes on at 22, takes 6 and stays 10.
func TestServiceInTime(t *testing.T) {
	file, _ := rendered(t).Get("lessons/regrowth-demi.html")
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
	file, _ = rendered(t).Get("lessons/weighing.html")
	if strings.Contains(string(file.Data), "clock_title") {
		t.Error("a lesson without a start has a service in time")
	}
}

// Derived by addition: three sections of 3, 4 and 5 minutes with a wait of 2 before the
// last, and 35 minutes from its end.
func TestSectionsInTime(t *testing.T) {
	span := func(low, high int) measure.Span {
		return measure.Span{Min: time.Duration(low) * time.Minute, Max: time.Duration(high) * time.Minute}
	}
	row := derive.Row{
		Formula: &derive.Formula{Formula: &lesson.Formula{Block: &formula.Block{Name: source.Text{Value: "cover"}}},
			Computed: derive.Computed{Range: &shade.Range{Name: "Meadow"}}},
		Applied: span(0, 14), Rinse: span(49, 49), First: span(49, 49), Last: span(35, 35),
		Sections: []derive.Section{{Name: "nape", Applied: span(0, 3), On: span(46, 49)}, {Name: "crown", Applied: span(3, 7), On: span(42, 46)}, {Name: "front", Applied: span(9, 14), On: span(35, 40)}},
		Even:     derive.Even{Span: span(30, 45), Rinse: span(44, 45), OK: true},
	}
	got := clockRow(row)
	if got.Sections[2] != (ClockSection{Name: "Front", On: moments(span(9, 14)), Stays: minutes(span(35, 40))}) {
		t.Errorf("the last section is shown as %+v", got.Sections[2])
	}
	expectText(t, plain(got.Even), "Rinsed at 44–45, every section of cover has had Meadow’s 30–45 min.")
	row.Even = derive.Even{Span: span(40, 45), Rinse: span(54, 45)}
	expectText(t, plain(clockRow(row).Even), "No moment gives each section of cover Meadow’s 40–45 min by itself: the first is over it at 45, and the last is there at 54.")
	drawing := string(clockDrawing([]derive.Row{row}))
	// The wait lies from 7 to 9 of 49 minutes.
	if want := `<rect class="stays" x="14.29%" y="20" width="4.08%" height="14"/>`; !strings.Contains(drawing, want) {
		t.Errorf("the drawing lacks the wait %s:\n%s", want, drawing)
	}
}

func expectText(t *testing.T, got, want string) {
	t.Helper()
	if got != want {
		t.Errorf("got  %s\nwant %s", got, want)
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
