package measure

import (
	"strings"
	"testing"

	"plait/internal/exact"
)

// expectErr holds that a parser refuses its input and says each of the words.
func expectErr(t *testing.T, in string, err error, words ...string) {
	t.Helper()
	if err == nil {
		t.Errorf("%q was read, want an error", in)
		return
	}
	for _, w := range words {
		if !strings.Contains(err.Error(), w) {
			t.Errorf("%q: error %q does not say %q", in, err, w)
		}
	}
}

func expectNumber(t *testing.T, got exact.Number, want string) {
	t.Helper()
	if got.String() != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestParseNumber(t *testing.T) {
	for in, want := range map[string]string{"1.5": "1.5", " 20/3 ": "20/3", "0": "0", "007": "7"} {
		n, err := ParseNumber(in)
		if err != nil {
			t.Errorf("ParseNumber(%q): %v", in, err)
		}
		expectNumber(t, n, want)
	}
	for in, word := range map[string]string{
		"":            "not a number",
		"two":         "not a number",
		"1 5":         "not a number",
		"-1":          "negative",
		"1234567890":  "more digits",
		"1,5":         "write the decimal point, as in 1.5",
		"0,125":       "write the decimal point, as in 0.125",
		"1,000":       "write 1000 if it stands between thousands, 1.000 if",
		"1,000,000":   "nothing between thousands",
		"1,5,":        "nothing between thousands",
		"1.000,5":     "nothing between thousands",
		"1.123456789": "more digits",
	} {
		_, err := ParseNumber(in)
		expectErr(t, in, err, word)
	}
}

func TestParsePercent(t *testing.T) {
	for in, want := range map[string]string{"30 %": "0.3", "30%": "0.3", "12.5 per cent": "0.125", "1/3 %": "1/300", "0 %": "0", "130 %": "1.3"} {
		n, err := ParsePercent(in)
		if err != nil {
			t.Errorf("ParsePercent(%q): %v", in, err)
		}
		expectNumber(t, n, want)
	}
	for in, word := range map[string]string{
		"":       "not a share",
		"30":     "write a number and the sign",
		"%":      "write a number and the sign",
		"0.3 g":  "not a share",
		"-5 %":   "negative",
		"2,5 %":  "as in 2.5",
		"30 % %": "not a share",
	} {
		_, err := ParsePercent(in)
		expectErr(t, in, err, word)
	}
}

// typed writes a number as an author would: as a decimal where six places say all of it,
// which is what readers take, else as a fraction.
func typed(n exact.Number) string {
	s := n.Decimal(6)
	if same, err := exact.Parse(s); err == nil && same.Equal(n) {
		return s
	}
	return n.String()
}

func FuzzParsePercent(f *testing.F) {
	for _, s := range []string{"30 %", "1/3 per cent", "-1 %", "1,5%", "1000.000001%"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		share, err := ParsePercent(s)
		if err != nil {
			expectNothing(t, s, err, share.IsZero())
			return
		}
		back, err := ParsePercent(typed(share.Mul(exact.Int(100))) + " %")
		if err != nil || !back.Equal(share) || share.Sign() < 0 {
			t.Fatalf("ParsePercent(%q) = %s, printed and read again %s, %v", s, share, back, err)
		}
	})
}

// expectNothing holds that beside an error no half result escapes.
func expectNothing(t *testing.T, s string, err error, nothing bool) {
	t.Helper()
	if !nothing {
		t.Fatalf("%q gave a value beside the error %v", s, err)
	}
	if err.Error() == "" {
		t.Fatalf("%q gave an error that says nothing", s)
	}
}
