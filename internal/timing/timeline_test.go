package timing

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"plait/internal/measure"
)

// clock reads a moment or a stretch of time, "18:00" or "10:07:30".
func clock(t testing.TB, text string) time.Duration {
	t.Helper()
	d, err := measure.ParseClock(text)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func stays(t testing.TB, text string) measure.Span {
	t.Helper()
	s, err := measure.ParseSpan(text)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// bowl builds one from its start, its sections, "left 9:00, right 2:00+9:00" with a
// wait before the plus, and how long it stays.
func bowl(t testing.TB, start, sections, time string, from Zero) Bowl {
	t.Helper()
	b := Bowl{Name: sections, Start: clock(t, start), Stays: stays(t, time), From: from}
	for _, s := range strings.Split(sections, ", ") {
		name, times, _ := strings.Cut(s, " ")
		section := Section{Name: name}
		if wait, takes, ok := strings.Cut(times, "+"); ok {
			section.Wait, times = clock(t, wait), takes
		}
		section.Takes = clock(t, times)
		b.Sections = append(b.Sections, section)
	}
	return b
}

func timeline(t testing.TB, b Bowl) Timeline {
	t.Helper()
	line, err := b.Timeline()
	if err != nil {
		t.Fatal(err)
	}
	return line
}

// show prints a span as two moments.
func show(s measure.Span) string { return measure.Clock(s.Min) + "-" + measure.Clock(s.Max) }

func expectTimes(t *testing.T, what string, got measure.Span, want string) {
	t.Helper()
	if show(got) != want {
		t.Errorf("%s: got %s, want %s", what, show(got), want)
	}
}

// Derived by addition. That most colour counts from the end of application and a
// lightener from the first touch is common practice, no source.
func TestTimelineFromLastSection(t *testing.T) {
	line := timeline(t, bowl(t, "0:00", "left 9:00, right 9:00", "35 min", LastSection))
	if line.ApplicationEnd() != clock(t, "18:00") || measure.Clock(line.Rinse.Max) != "53:00" {
		t.Errorf("applied by %v, off by %s; want 18:00 and 53:00", line.ApplicationEnd(), measure.Clock(line.Rinse.Max))
	}
	expectTimes(t, "rinse", line.Rinse, "53:00-53:00")
	expectTimes(t, "first section", line.Exposure(0, line.Rinse.Max), "44:00-53:00")
	expectTimes(t, "last section", line.Exposure(1, line.Rinse.Max), "35:00-44:00")

	line = timeline(t, bowl(t, "5:00", "left 9:00, right 9:00", "30-45 min", LastSection))
	expectTimes(t, "rinse", line.Rinse, "53:00-1:08:00")
	expectTimes(t, "right", measure.Span{Min: line.Sections[1].Start, Max: line.Sections[1].End}, "14:00-23:00")
}

func TestTimelineFromFirstTouch(t *testing.T) {
	line := timeline(t, bowl(t, "10:07:30", "all 20:00", "up to 45 min", FirstTouch))
	if measure.Clock(line.Rinse.Max) != "10:52:30" || line.Overrun() != 0 {
		t.Errorf("off by %s, over by %v; want 10:52:30", measure.Clock(line.Rinse.Max), line.Overrun())
	}

	// Lengths on at the start, roots 20 minutes later, all off at 45.
	line = timeline(t, bowl(t, "0:00", "lengths 0:00, roots 20:00+0:00", "45 min", FirstTouch))
	expectTimes(t, "lengths", line.Exposure(0, line.Rinse.Max), "45:00-45:00")
	expectTimes(t, "roots", line.Exposure(1, line.Rinse.Max), "25:00-25:00")

	// A wait before the first section puts off the first touch.
	line = timeline(t, bowl(t, "0:00", "all 5:00+10:00", "45 min", FirstTouch))
	if line.FirstTouch() != clock(t, "5:00") || measure.Clock(line.Rinse.Max) != "50:00" {
		t.Errorf("first touch %v, off by %s; want 5:00 and 50:00", line.FirstTouch(), measure.Clock(line.Rinse.Max))
	}
}

func TestOverrun(t *testing.T) {
	for takes, want := range map[string]string{"44:59": "0:00", "45:00": "0:00", "46:30": "1:30"} {
		line := timeline(t, bowl(t, "0:00", "all "+takes, "up to 45 min", FirstTouch))
		if got := measure.Clock(line.Overrun()); got != want {
			t.Errorf("45 min from first touch with an application of %s: over by %s, want %s", takes, got, want)
		}
	}
}

// The latest rinse goes down to a second and the earliest up, so neither breaks the
// maker's time.
func TestRinseRounds(t *testing.T) {
	b := bowl(t, "0:00", "all 10:00", "30-35 min", LastSection)
	b.Sections[0].Takes += 400 * time.Millisecond
	expectTimes(t, "rinse", timeline(t, b).Rinse, "40:01-45:00")
	b.Stays.Min = b.Stays.Max
	expectTimes(t, "rinse at one moment", timeline(t, b).Rinse, "45:00-45:00")
}

func TestTimelineRefuses(t *testing.T) {
	expect := func(want string, change func(*Bowl)) {
		t.Helper()
		b := bowl(t, "0:00", "left 9:00, right 9:00", "30-35 min", LastSection)
		change(&b)
		line, err := b.Timeline()
		if err == nil || err.Error() != want || line.Sections != nil {
			t.Errorf("got %v, %v; want %q", line, err, want)
		}
	}
	expect(ErrNoSection.Error(), func(b *Bowl) { b.Sections = nil })
	expect(ErrNoTime.Error(), func(b *Bowl) { b.Stays = measure.Span{} })
	expect(ErrNegative.Error(), func(b *Bowl) { b.Start = -1 })
	expect(ErrNegative.Error(), func(b *Bowl) { b.Stays.Min = -1 })
	expect(ErrNegative.Error(), func(b *Bowl) { b.Sections[1].Wait = -1 })
	expect(ErrNegative.Error(), func(b *Bowl) { b.Sections[1].Takes = -1 })
	expect("40-35 min ends before it begins", func(b *Bowl) { b.Stays.Min = 40 * time.Minute })
}

// From the end of application or from the first touch: the two differ by the length
// of the application, and every exposure lies between the stay and that on top.
func TestZerosDifferByTheApplication(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		seconds := func(most int, label string) time.Duration {
			return time.Duration(rapid.IntRange(0, most).Draw(t, label)) * time.Second
		}
		b := Bowl{Start: seconds(40_000, "start")}
		for range rapid.IntRange(1, 6).Draw(t, "sections") {
			b.Sections = append(b.Sections, Section{Wait: seconds(600, "wait"), Takes: seconds(1200, "takes")})
		}
		b.Stays.Min = seconds(3600, "least")
		b.Stays.Max = b.Stays.Min + time.Second + seconds(1200, "more")
		last, err := b.Timeline()
		if err != nil {
			t.Fatal(err)
		}
		b.From = FirstTouch
		first, err := b.Timeline()
		if err != nil {
			t.Fatal(err)
		}
		application := last.ApplicationEnd() - last.FirstTouch()
		if last.Rinse.Max-first.Rinse.Max != application || last.Rinse.Min-first.Rinse.Min != application {
			t.Fatalf("an application of %v moves the rinse from %s to %s", application, show(first.Rinse), show(last.Rinse))
		}
		end := b.Start
		for i, s := range last.Sections {
			if s.Start < end || s.End < s.Start {
				t.Fatalf("section %d runs from %v to %v after %v", i, s.Start, s.End, end)
			}
			end = s.End
			if e := last.Exposure(i, last.Rinse.Max); e.Min < b.Stays.Max || e.Max > b.Stays.Max+application {
				t.Fatalf("section %d is covered for %s", i, show(e))
			}
		}
		if last.Overrun() != 0 {
			t.Fatalf("counted from its end an application is over by %v", last.Overrun())
		}
	})
}

// Derived by addition: the last section is covered at 18 minutes and has its 30 at 48;
// the first has had 45 at 45.
func TestWithin(t *testing.T) {
	expect := func(sections, span, want string, fits bool) {
		t.Helper()
		rinse, ok := timeline(t, bowl(t, "0:00", sections, "30 min", LastSection)).Within(stays(t, span))
		if show(rinse) != want || ok != fits {
			t.Errorf("%s within %s: got %s, %t; want %s, %t", sections, span, show(rinse), ok, want, fits)
		}
	}
	expect("left 9:00, right 9:00", "30-45 min", "48:00-45:00", false)
	expect("left 7:00, right 8:00", "30-45 min", "45:00-45:00", true)
	expect("left 5:00, right 2:00+5:00", "30-45 min", "42:00-45:00", true)
}

func ExampleBowl_Timeline() {
	gloss := Bowl{
		Sections: []Section{{Name: "left", Takes: 9 * time.Minute}, {Name: "right", Takes: 9 * time.Minute}},
		Stays:    measure.Span{Min: 35 * time.Minute, Max: 35 * time.Minute},
		From:     LastSection,
	}
	line, err := gloss.Timeline()
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, s := range line.Sections {
		fmt.Println(measure.Clock(s.Start), s.Name, "covered for up to", measure.Minutes(line.Exposure(i, line.Rinse.Max).Max))
	}
	fmt.Println("off by", measure.Clock(line.Rinse.Max))
	// Output:
	// 0:00 left covered for up to 53 min
	// 9:00 right covered for up to 44 min
	// off by 53:00
}
