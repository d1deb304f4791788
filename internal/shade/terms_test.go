package shade

import (
	"fmt"
	"strings"
	"testing"

	"plait/internal/measure"
	"plait/internal/peroxide"
)

// terms reads "1:1.5, 30-45 min, 3 % 6 %"; a hyphen stands for what is not stated.
func terms(t *testing.T, text string) Terms {
	t.Helper()
	var out Terms
	var err error
	part := strings.Split(text, ", ")
	if part[0] != "-" {
		out.Ratio, err = measure.ParseRatio(part[0])
	}
	if err == nil && part[1] != "-" {
		out.Time, err = measure.ParseSpan(part[1])
	}
	for _, s := range strings.Split(strings.TrimSuffix(part[2], " %"), " % ") {
		if err == nil && s != "-" {
			var strength peroxide.Strength
			strength, err = peroxide.Parse(s + " %")
			out.Strengths = append(out.Strengths, strength)
		}
	}
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func expectStrictest(t *testing.T, a, b, want string) {
	t.Helper()
	for _, pair := range [][2]string{{a, b}, {b, a}} {
		got, apart := Strictest(terms(t, pair[0]), terms(t, pair[1]))
		if text := fmt.Sprintf("%s, %s, %v, apart %v", got.Ratio, got.Time, got.Strengths, apart); text != want {
			t.Errorf("%s with %s: got %s, want %s", pair[0], pair[1], text, want)
		}
	}
}

func TestStrictest(t *testing.T) {
	expectStrictest(t, "1:1.5, 30-45 min, 3 % 6 % 9 %", "1:1.5, 35-50 min, 6 %", "1:1.5, 35-45 min, [6 %], apart []")
	expectStrictest(t, "1:2, 10-20 min, 1.8 %", "-, -, -", "1:2, 10-20 min, [1.8 %], apart []")
	expectStrictest(t, "1:2, up to 45 min, -", "-, 30-50 min, 6 %", "1:2, 30-45 min, [6 %], apart []")
	expectStrictest(t, "1:1, 30-35 min, 3 %", "1:1.5, 40-45 min, 6 %", "none, 0 min, [], apart [ratio time strength of developer]")
}
