package derive_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"plait/internal/derive"
	"plait/internal/measure"
	"plait/internal/timing"
)

// colour is a block that goes on as said.
func colour(service string) string {
	return "range: meadow\nkind: permanent\ncolour: 30 g 6N\ndeveloper: 20 vol\nratio: 1:1.5\n" + service
}

func timelineOf(t *testing.T, bowls ...[2]string) *derive.Timeline {
	t.Helper()
	c, d, found := recompute(t, "", "", bowls...)
	expectFine(t, found)
	timeline := d.Timeline(c.Lessons[0])
	if timeline == nil {
		t.Fatal("the lesson has no timeline")
	}
	return timeline
}

func expectRow(t *testing.T, r derive.Row, want string) {
	t.Helper()
	got := fmt.Sprintf("%s on %s-%s, off %s, first %s, last %s", r.Formula.Name.Value,
		measure.Minutes(r.Applied.Min), measure.Minutes(r.Applied.Max), r.Rinse, r.First, r.Last)
	if got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

func expectChair(t *testing.T, timeline *derive.Timeline, want string) {
	t.Helper()
	if got := timeline.Chair.String(); got != want {
		t.Errorf("chair %s, want %s", got, want)
	}
}

// Worked problem: an application of 18 minutes and 35 minutes from its end leave the
// first section covered for 53 minutes and the last for 35.
func TestFromTheLastSection(t *testing.T) {
	timeline := timelineOf(t, [2]string{"cover", colour("apply: 18 min\ntime: 35 min from last section")})
	expectRow(t, timeline.Rows[0], "cover on 0 min-18 min, off 53 min, first 53 min, last 35 min")
	expectChair(t, timeline, "53 min")
	if got := timeline.Rows[0].Stays().String(); got != "18-53 min" {
		t.Errorf("it stays %s, want 18-53 min", got)
	}
}

// Worked problem: lengths on at 0:00, roots at 0:20, all off at 0:45: the lengths have
// 45 minutes and the roots 25.
func TestTwoZones(t *testing.T) {
	timeline := timelineOf(t,
		[2]string{"roots", colour("start: 20 min after lengths\napply: 5 min\ntime: 25 min from first touch")},
		[2]string{"lengths", colour("start: 0 min\napply: 15 min\ntime: 45 min from first touch")})
	expectRow(t, timeline.Rows[0], "lengths on 0 min-15 min, off 45 min, first 45 min, last 30 min")
	expectRow(t, timeline.Rows[1], "roots on 20 min-25 min, off 45 min, first 25 min, last 20 min")
	expectChair(t, timeline, "45 min")
}

// Derived by addition: a span of time gives a span of moments to rinse, "up to" begins
// when the application ends, and the chair counts from the first touch and not from
// the service's zero.
func TestSpansOfTime(t *testing.T) {
	timeline := timelineOf(t, [2]string{"cover", colour("start: 5 min\napply: 18 min\ntime: 30-35 min from last section")})
	expectRow(t, timeline.Rows[0], "cover on 5 min-23 min, off 53-58 min, first 48-53 min, last 30-35 min")
	expectChair(t, timeline, "48-53 min")

	timeline = timelineOf(t, [2]string{"cover", colour("apply: 18 min\ntime: up to 45 min from first touch")})
	expectRow(t, timeline.Rows[0], "cover on 0 min-18 min, off 18-45 min, first 18-45 min, last up to 27 min")
}

func TestStarts(t *testing.T) {
	expect := func(start string, want time.Duration) {
		t.Helper()
		timeline := timelineOf(t,
			[2]string{"root", colour("start: 10 min\napply: 18 min\ntime: 20 min")},
			[2]string{"refresh", colour("start: " + start + "\napply: 6 min\ntime: 10 min")})
		for _, r := range timeline.Rows {
			if r.Formula.Name.Value == "refresh" && r.Applied.Min != want {
				t.Errorf("start: %s is %s, want %s", start, r.Applied.Min, want)
			}
		}
	}
	expect("0 min", 0)
	expect("40 min", 40*time.Minute)
	expect("with root", 10*time.Minute)
	expect("22 min after root", 32*time.Minute)
	expect("after root", 28*time.Minute)
}

// Property: in a chain of bowls that each start when the one before is applied, the
// last starts after the sum of all applications before it, in whatever order they are
// written.
func TestChain(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for range 50 {
		n := 2 + random.IntN(6)
		bowls := make([][2]string, n)
		var sum, last time.Duration
		for place, at := range random.Perm(n) {
			takes := 1 + random.IntN(20)
			start := "0 min"
			if place > 0 {
				start = fmt.Sprintf("after bowl-%d", place-1)
			}
			bowls[at] = [2]string{fmt.Sprintf("bowl-%d", place), colour(fmt.Sprintf("start: %s\napply: %d min\ntime: 30 min", start, takes))}
			last = sum
			sum += time.Duration(takes) * time.Minute
		}
		timeline := timelineOf(t, bowls...)
		if got := timeline.Rows[n-1].Applied; got.Min != last || got.Max != sum {
			t.Errorf("the last of %d bowls goes on %s, want %s to %s", n, got, last, sum)
		}
		for _, c := range timeline.Clashes {
			if c.OtherSection != timing.Rinsing {
				t.Errorf("two applications one after the other clash: %v", c)
			}
		}
	}
}

// Nothing is guessed about a bowl that does not say when it goes on.
func TestLeftOut(t *testing.T) {
	timeline := timelineOf(t,
		[2]string{"root", colour("start: 0 min\napply: 18 min\ntime: 20 min")},
		[2]string{"refresh", colour("apply: 6 min\ntime: 10 min")},
		[2]string{"clear", colour("start: after root\ntime: 10 min")})
	if len(timeline.Rows) != 1 || len(timeline.LeftOut) != 2 {
		t.Errorf("%d laid out and %d left out, want 1 and 2", len(timeline.Rows), len(timeline.LeftOut))
	}
	c, d, found := recompute(t, "", "", [2]string{"root", colour("time: 20 min")})
	expectFine(t, found)
	if got := d.Timeline(c.Lessons[0]); got != nil {
		t.Errorf("a bowl without an application was laid out: %v", got.Rows)
	}
}

func TestStartFaults(t *testing.T) {
	expect := func(root, refresh, at, message string) {
		t.Helper()
		_, _, found := recompute(t, "", "", [2]string{"root", colour(root)}, [2]string{"refresh", colour(refresh)})
		expectFault(t, found, at, message)
	}
	const rest = "\napply: 6 min\ntime: 10 min"
	expect("start: 0 min"+rest, "start: after rot"+rest, "rot", `this lesson has no bowl "rot"`)
	expect("start: after refresh"+rest, "start: after root"+rest, "root", "refresh and root wait for each other")
	expect("start: 0 min"+rest, "start: with refresh"+rest, "refresh", "refresh starts when it starts itself")
	expect("apply: 6 min\ntime: 10 min", "start: after root"+rest, "root", "root does not say when it starts")
	expect("start: 0 min\ntime: 10 min", "start: after root"+rest, "root", "root does not say how long its application takes")
	expect("start: 0 min"+rest, "start: -5 min"+rest, "-5 min", "negative")
	expect("start: 0 min"+rest, "start: 5 after root"+rest, "5", "no unit of time")
	expect("start: 0 min"+rest, "start: 5-10 min after root"+rest, "5-10 min", "is a span")
	expect("start: 0 min"+rest, "start: after"+rest, "after", "names no bowl")
	expect("start: 0 min"+rest, "start: 0 min\napply: 0 min\ntime: 10 min", "0 min", "takes no time")
	expect("start: 0 min"+rest, "start: 0 min\napply: -6 min\ntime: 10 min", "-6 min", "negative")
}

func TestValuesOfTime(t *testing.T) {
	c, d, found := recompute(t, "", "", [2]string{"cover", colour("start: 2 min\napply: 18 min\ntime: 30-35 min")})
	expectFine(t, found)
	for what, want := range map[string]string{"apply of cover": "18 min", "start of cover": "2 min", "rinse of cover": "50-55 min"} {
		got, fault := d.Value(c.Lessons[0], text(what))
		if fault != nil || got != want {
			t.Errorf("{%s} is %q, want %q (%v)", what, got, want, fault)
		}
	}
	c, d, _ = recompute(t, "", "", [2]string{"cover", colour("time: 30 min")})
	if _, fault := d.Value(c.Lessons[0], text("rinse of cover")); fault == nil {
		t.Error("a bowl that is not laid out has a moment to rinse")
	}
}

// Derived by addition: the nape is on from 0, the crown from 3, the front, after a wait,
// from 12 to 17; 35 minutes later all of it comes off at 52.
func TestSectionBySection(t *testing.T) {
	timeline := timelineOf(t, [2]string{"cover", colour("apply: {nape: 3 min, crown: 4 min, wait: 5 min, front: 5 min}\ntime: 35 min")})
	row := timeline.Rows[0]
	expectRow(t, row, "cover on 0 min-17 min, off 52 min, first 52 min, last 35 min")
	expectChair(t, timeline, "52 min")
	var got []string
	for _, s := range row.Sections {
		got = append(got, fmt.Sprintf("%s at %s for %s", s.Name, s.Applied, s.On))
	}
	const want = "[nape at up to 3 min for 49-52 min crown at 3-7 min for 45-49 min front at 12-17 min for 35-40 min]"
	if fmt.Sprint(got) != want {
		t.Errorf("got %s, want %s", got, want)
	}
	// Meadow gives 30 to 45 minutes: the front has 30 at 47, and the nape has had 45 at 45.
	if row.Even.OK || row.Even.Rinse.Min != 47*time.Minute || row.Even.Rinse.Max != 45*time.Minute {
		t.Errorf("even: %+v", row.Even)
	}
	// In the wait the hands are free for a second bowl, and not before.
	for start, clashes := range map[string]int{"7 min": 0, "6 min": 1, "12 min": 1} {
		timeline := timelineOf(t,
			[2]string{"cover", colour("start: 0 min\napply: {nape: 3 min, crown: 4 min, wait: 5 min, front: 5 min}\ntime: 35 min")},
			[2]string{"drop", colour("start: " + start + "\napply: 5 min\ntime: 40 min")})
		if len(timeline.Clashes) != clashes {
			t.Errorf("a second bowl at %s: %d clashes, want %d", start, len(timeline.Clashes), clashes)
		}
	}
}
