package check

import (
	"strings"
	"testing"
)

// expectHouse holds what is said of house rules themselves.
func expectHouse(t *testing.T, house string, want ...string) {
	t.Helper()
	var got []string
	for _, d := range judge(t, testCourse(Settings, "house: "+house)) {
		if d.Rule == "house/looser" || d.Rule == "house/rules" {
			got = append(got, d.Severity.String()+": "+d.Message)
		}
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("%s:\ngot\n  %s\nwant\n  %s", house, strings.Join(got, "\n  "), strings.Join(want, "\n  "))
	}
}

func TestHouseOnlyTightens(t *testing.T) {
	expectHouse(t, "{strongest: 9 %, longest: 45 min, without: [6R, CL]}")
	expectHouse(t, "{strongest: 12 %}")
	expectHouse(t, "{strongest: 12.1 %}", "error: the house allows 12.1 %, and the law stops at 12 % (Regulation (EC) No 1223/2009, Annex III, as the United Kingdom kept it, text of about 2021)")
	expectHouse(t, "{without: [6Z]}", `error: no range of the course has a shade "6Z"`)
	expectHouse(t, "{without: [6R, 6R]}")
}

// A limit beyond all of the makers' own protects nobody; where one maker gives none
// it still can.
func TestHouseLimitBeyondTheRange(t *testing.T) {
	weak := "kinds:\n  permanent: {ratio: \"1:1.5\", time: 30-45 min, strengths: [3 %, 6 %]}"
	for house, want := range map[string]string{
		"{strongest: 9 %}":                  "warning: the house allows 9 %, and no range of the course goes beyond 6 %",
		"{strongest: 6 %, longest: 45 min}": "",
		"{longest: 46 min}":                 "warning: the house allows 46 min, and no range of the course goes beyond 45 min",
	} {
		files := testCourse(Range, weak)
		files[settingsFile] = file(overlay(testSettings, "house: "+house))
		var got []string
		for _, d := range judge(t, files) {
			if d.Rule == "house/looser" {
				got = append(got, d.Severity.String()+": "+d.Message)
			}
		}
		if strings.Join(got, "\n") != want {
			t.Errorf("%s: got %q, want %q", house, got, want)
		}
	}
	expectHouse(t, "{strongest: 12 %, longest: 24 h}") // the toner of the test range states no time
}

func TestHouseRulesThatCannotBeRead(t *testing.T) {
	expectHouse(t, "{strongest: 9}", `error: "9" is not a developer strength`)
	expectHouse(t, "{longest: 45}", `error: "45" has no unit of time`)
	expectHouse(t, "{longest: 30-45 min}", "error: the longest time is one time, not 30-45 min")
	expectHouse(t, "{longest: 0 min}", "error: the longest time is one time, not 0 min")
}
