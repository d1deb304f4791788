package measure

import (
	"fmt"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func TestParseSpan(t *testing.T) {
	for in, want := range map[string]Span{
		"15 min":       {15 * time.Minute, 15 * time.Minute},
		"30-45 min":    {30 * time.Minute, 45 * time.Minute},
		"30–45 min":    {30 * time.Minute, 45 * time.Minute},
		"30 - 45 min":  {30 * time.Minute, 45 * time.Minute},
		"up to 50 min": {0, 50 * time.Minute},
		"0-20 min":     {0, 20 * time.Minute},
		"90 s":         {90 * time.Second, 90 * time.Second},
		"1.5 min":      {90 * time.Second, 90 * time.Second},
		"30 min-1 h":   {30 * time.Minute, time.Hour},
		"24 h":         {24 * time.Hour, 24 * time.Hour}, // the longest that is taken
		"20/60 min":    {20 * time.Second, 20 * time.Second},
		"0 min":        {},
	} {
		s, err := ParseSpan(in)
		if err != nil || s != want {
			t.Errorf("ParseSpan(%q) = %v, %v; want %v", in, s, err, want)
		}
	}
	for in, word := range map[string]string{
		"":                "not a time",
		"min":             "not a time",
		"a while":         "not a time",
		"15":              "no unit of time",
		"15 g":            "no unit of time",
		"30-45":           "no unit of time",
		"-5 min":          "negative time",
		"up to -5 min":    "negative time",
		"5--10 min":       "negative",
		"45-30 min":       "ends before it begins",
		"up to 30-45 min": "both a span and an upper limit",
		"10-20-30 min":    "not a number",
		"1441 min":        "longer than a day",
		"0.001 min":       "whole number of seconds",
		"1,5 min":         "as in 1.5",
	} {
		_, err := ParseSpan(in)
		expectErr(t, in, err, word)
	}
}

func TestSpanString(t *testing.T) {
	for want, s := range map[string]Span{
		"15 min":       {15 * time.Minute, 15 * time.Minute},
		"30-45 min":    {30 * time.Minute, 45 * time.Minute},
		"up to 50 min": {0, 50 * time.Minute},
		"90 s":         {90 * time.Second, 90 * time.Second},
		"2 min-150 s":  {2 * time.Minute, 150 * time.Second},
		"100 s-2 min":  {100 * time.Second, 2 * time.Minute},
		"0 min":        {},
	} {
		if got := s.String(); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

func TestSpanContains(t *testing.T) {
	maker := Span{30 * time.Minute, 45 * time.Minute}
	for in, want := range map[string]bool{
		"30 min": true, "45 min": true, "30-45 min": true, "35-40 min": true,
		"29 min": false, "46 min": false, "20-40 min": false, "40-50 min": false,
	} {
		s, err := ParseSpan(in)
		if err != nil {
			t.Fatal(err)
		}
		if got := maker.Contains(s); got != want {
			t.Errorf("%s contains %s: %v, want %v", maker, s, got, want)
		}
	}
}

func TestSpanReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		seconds := rapid.OneOf(rapid.IntRange(0, 200), rapid.IntRange(0, 86_400))
		a := time.Duration(seconds.Draw(t, "one")) * time.Second
		b := time.Duration(seconds.Draw(t, "other")) * time.Second
		s := Span{min(a, b), max(a, b)}
		if back, err := ParseSpan(s.String()); err != nil || back != s {
			t.Fatalf("%v prints %q, which reads %v, %v", s, s, back, err)
		}
	})
}

func FuzzParseSpan(f *testing.F) {
	for _, s := range []string{"15 min", "30-45 min", "up to 50 min", "30 min–1 h", "-5 min", "1/3 h"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := ParseSpan(text)
		if err != nil {
			expectNothing(t, text, err, s.IsZero())
			return
		}
		if s.Min < 0 || s.Max < s.Min || s.Max > longest || s.Min%time.Second != 0 || s.Max%time.Second != 0 {
			t.Fatalf("ParseSpan(%q) = %v", text, s)
		}
		if back, err := ParseSpan(s.String()); err != nil || back != s {
			t.Fatalf("%v prints %q, which reads %v, %v", s, s, back, err)
		}
	})
}

func ExampleParseSpan() {
	s, _ := ParseSpan("30-45 min")
	fmt.Println(s, "ends after", s.Max)
	// Output:
	// 30-45 min ends after 45m0s
}
