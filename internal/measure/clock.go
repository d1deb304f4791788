package measure

import (
	"fmt"
	"strconv"
	"strings"
	"time"
)

// ParseClock reads a time in a recording: "0:42", "61:05" or "1:02:03". Seconds,
// and minutes behind hours, have two digits below 60.
func ParseClock(s string) (time.Duration, error) {
	parts := strings.Split(s, ":")
	if len(parts) != 2 && len(parts) != 3 {
		return 0, noClock(s)
	}
	total := 0
	for i, p := range parts {
		n, err := strconv.Atoi(p)
		if err != nil || p[0] == '+' || p[0] == '-' || len(p) > 4 || i > 0 && (len(p) != 2 || n > 59) {
			return 0, noClock(s)
		}
		total = total*60 + n
	}
	return time.Duration(total) * time.Second, nil
}

func noClock(s string) error {
	return fmt.Errorf("%q is not a time in a recording; write minutes and seconds, as in 0:42", s)
}

// Clock prints a time in a recording or of a service as [ParseClock] reads it, to
// the second below: "53:00", "10:52:30".
func Clock(d time.Duration) string {
	s := int(d / time.Second)
	if h := s / 3600; h > 0 {
		return fmt.Sprintf("%d:%02d:%02d", h, s/60%60, s%60)
	}
	return fmt.Sprintf("%d:%02d", s/60, s%60)
}
