package reference

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"plait/internal/care"
	"plait/internal/course"
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/hair"
	"plait/internal/lesson"
	"plait/internal/measure"
	"plait/internal/shade"
	"plait/internal/timing"
)

func times() []entry {
	usual := func(kind shade.Kind, from, want string) entry {
		return computed(string(kind), from, want, func(*testing.T) string {
			span, _ := timing.Usual(kind)
			return span.String()
		})
	}
	order := func(problem, from string, lighter bool, want string) entry {
		return computed(problem, from, want, func(*testing.T) string {
			var zones []string
			for _, z := range timing.Order(lighter) {
				zones = append(zones, string(z))
			}
			return strings.Join(zones, ", ")
		})
	}
	return []entry{
		usual(shade.Permanent, college, "30-40 min"),
		computed("permanent, by the committee's 30 minutes", committee, "true", func(*testing.T) string {
			span, _ := timing.Usual(shade.Permanent)
			return fmt.Sprint(span.Contains(measure.Span{Min: 30 * time.Minute, Max: 30 * time.Minute}))
		}),
		usual(shade.Demi, college, "20-30 min"),
		usual(shade.Direct, college+", where it is called semi-permanent", "20-30 min"),
		usual(shade.HighLift, practice, "45-55 min"),
		usual(shade.Toner, practice, "5-20 min"), usual(shade.AcidToner, practice, "5-20 min"), usual(shade.AlkalineToner, practice, "5-20 min"),
		usual(shade.Lightener, practice, "up to 50 min"),
		computed("resistant white", practice, "35-45 min", func(*testing.T) string { return timing.ResistantWhite.String() }),
		not("temporary colour, 0 to 20 minutes", college, "plait has no such kind: it is a rinse and no formula"),
		order("the first time lighter", college, true, strings.Join([]string{string(hair.Lengths), string(hair.Ends), string(hair.Roots)}, ", ")),
		order("the first time darker", practice, false, strings.Join([]string{string(hair.Roots), string(hair.Lengths), string(hair.Ends)}, ", ")),
		not("margin of ½ to ¾ inch beside the scalp; regrowth of 15.4 mm in 42 days", college+"; hair-growth study", "a step tells it; growth of hair is not computed"),
	}
}

// service reads and computes a course of one lesson on permanent colour, each bowl
// the lines of its block.
func service(t *testing.T, rng string, bowls ...string) (*course.Course, *derive.Derived) {
	t.Helper()
	var text strings.Builder
	text.WriteString("---\ntitle: First\nsummary: Bowls.\n---\n\n## Mix\n")
	for i, b := range bowls {
		fmt.Fprintf(&text, "\n```formula bowl-%d\nkind: permanent\n%s\n```\n", i+1, b)
	}
	const settings = "title: Bowls\nlanguage: en-GB\nmodules: [{name: bowls, title: Bowls, lessons: [first]}]\n"
	files := fstest.MapFS{
		course.SettingsFile:                          {Data: []byte(settings)},
		course.RangesFolder + "/sample.yaml":         {Data: []byte(rng)},
		course.LessonsFolder + "/01-first/lesson.md": {Data: []byte(text.String())},
	}
	s, found := course.ReadSettings(files)
	r, faults := course.ReadRange(files, course.RangesFolder+"/sample.yaml")
	found = append(found, faults...)
	l, faults := lesson.Read(files, course.LessonsFolder+"/01-first")
	found = append(found, faults...)
	c, faults := course.Link(course.Parts{Settings: s, Ranges: []*course.Range{r}, Lessons: []*lesson.Lesson{l}})
	found = append(found, faults...)
	d, faults := derive.Run(c)
	if found = append(found, faults...); diag.HasErrors(found) {
		t.Fatal(words(found))
	}
	return c, d
}

func services() []entry {
	const colour = "colour: 30 g 6N\ndeveloper: 20 vol\nratio: 1:1\n"
	rows := func(t *testing.T, bowls ...string) []derive.Row {
		t.Helper()
		c, d := service(t, letters, bowls...)
		timeline := d.Timeline(c.Lessons[0])
		if timeline == nil {
			t.Fatal("the lesson has no timeline")
		}
		return timeline.Rows
	}
	return []entry{
		computed("18 min of application, 35 min from its end: first and last section", arithmetic, "53 min and 35 min", func(t *testing.T) string {
			row := rows(t, colour+"apply: 18 min\ntime: 35 min from last section")[0]
			return row.First.String() + " and " + row.Last.String()
		}),
		computed("on at 10:07:30, limit 45 min from first touch: off by", arithmetic, "10:52:30", func(t *testing.T) string {
			on, err := measure.ParseClock("10:07:30")
			if err != nil {
				t.Fatal(err)
			}
			limit, err := measure.ParseSpan("up to 45 min")
			if err != nil {
				t.Fatal(err)
			}
			line, err := timing.Bowl{Start: on, Sections: []timing.Section{{Takes: 20 * time.Minute}}, Stays: limit, From: timing.FirstTouch}.Timeline()
			if err != nil {
				t.Fatal(err)
			}
			return measure.Clock(line.Rinse.Max)
		}),
		computed("lengths at 0:00, roots at 0:20, all off at 0:45: exposures", arithmetic, "45 min and 25 min", func(t *testing.T) string {
			both := rows(t, colour+"start: 0 min\napply: 15 min\ntime: 45 min from first touch", colour+"start: 20 min after bowl-1\napply: 5 min\ntime: 25 min from first touch")
			if both[0].Rinse != both[1].Rinse {
				return "off at " + both[0].Rinse.String() + " and at " + both[1].Rinse.String()
			}
			return both[0].First.String() + " and " + both[1].First.String()
		}),
	}
}

func skinTests() []entry {
	winter, summer := time.FixedZone("winter time", 0), time.FixedZone("summer time", 3600)
	// March 2026: the 2nd is a Monday, and clocks go forward in the night to the 29th.
	at := func(day, hour, minute int, zone *time.Location) time.Time {
		return time.Date(2026, time.March, day, hour, minute, 0, 0, zone)
	}
	visit := func(problem, from string, tested, visit time.Time, want string) entry {
		return computed(problem, from, want, func(*testing.T) string {
			missing := timing.SkinTestWait - visit.Sub(tested)
			if missing <= 0 {
				return "allowed"
			}
			return measure.Minutes(missing) + " too early"
		})
	}
	monday := at(2, 14, 0, winter)
	return []entry{
		visit("tested Monday 14:00, visit Wednesday 13:30", alertTest, monday, at(4, 13, 30, winter), "30 min too early"),
		visit("tested Monday 14:00, visit Wednesday 14:00", alertTest, monday, at(4, 14, 0, winter), "allowed"),
		computed("tested Monday 14:00: the earliest visit", alertTest, "Wednesday 14:00", func(*testing.T) string {
			return monday.Add(timing.SkinTestWait).Format("Monday 15:04")
		}),
		visit("tested Friday 14:00, clocks forward, visit Sunday 14:00", arithmetic, at(27, 14, 0, winter), at(29, 14, 0, summer), "60 min too early"),
		visit("tested Friday 14:00, clocks forward, visit Sunday 15:00", arithmetic, at(27, 14, 0, winter), at(29, 15, 0, summer), "allowed"),
		visit("24 hours, as some notes print, is not matched", oldNotes, monday, at(3, 14, 0, winter), "1440 min too early"),
		computed("the wait that every page with oxidative colour asks for", alertTest, "At least 48 hours before every colour service", func(*testing.T) string {
			text, _, _ := strings.Cut(care.For(care.Colour)[0].Text, ",")
			return text
		}),
		not("wet hair stretches from 10 to 15 cm, dry to 12", elasticity, "a step tells it; nothing is computed"),
	}
}
