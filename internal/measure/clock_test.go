package measure

import (
	"testing"
	"time"
)

func TestParseClock(t *testing.T) {
	for in, want := range map[string]time.Duration{
		"0:00":     0,
		"0:42":     42 * time.Second,
		"61:05":    61*time.Minute + 5*time.Second,
		"1:02:03":  time.Hour + 2*time.Minute + 3*time.Second,
		"10:52:30": 10*time.Hour + 52*time.Minute + 30*time.Second,
	} {
		d, err := ParseClock(in)
		if err != nil || d != want {
			t.Errorf("ParseClock(%q) = %v, %v; want %v", in, d, err, want)
		}
	}
	for _, in := range []string{"", "42", "0:4", "0:60", "1:60:00", "1:2:03", "-1:00", "+1:00", "0:+4", ":42", "0:42:", "1:00:00:00", "99999:00", "0.5:00"} {
		_, err := ParseClock(in)
		expectErr(t, in, err, "not a time", "0:42")
	}
}

func TestClock(t *testing.T) {
	for want, d := range map[string]time.Duration{
		"0:00":    999 * time.Millisecond, // to the second below
		"0:42":    42 * time.Second,
		"59:59":   time.Hour - time.Second,
		"1:00:00": time.Hour,
	} {
		if got := Clock(d); got != want {
			t.Errorf("Clock(%v) = %q, want %q", d, got, want)
		}
	}
}

func FuzzParseClock(f *testing.F) {
	for _, s := range []string{"0:42", "61:05", "1:02:03", "1:2:3", "::", "+1:00"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		d, err := ParseClock(text)
		if err != nil {
			expectNothing(t, text, err, d == 0)
			return
		}
		if back, err := ParseClock(Clock(d)); err != nil || back != d || d < 0 {
			t.Fatalf("ParseClock(%q) = %v, printed %q and read again %v, %v", text, d, Clock(d), back, err)
		}
	})
}
