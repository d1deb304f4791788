package answer

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"plait/internal/exact"
)

func expectAccepts(t *testing.T, k Key, text string, want bool) {
	t.Helper()
	got, err := k.Accepts(text)
	if err != nil || got != want {
		t.Errorf("%q for %s: %v, %v; want %v", text, k, got, err, want)
	}
}

func TestAccepts(t *testing.T) {
	weight := Key{Unit: Gram, Value: Value{Number: exact.Of(135, 2)}, Near: exact.Of(1, 10)}
	for _, text := range []string{"67.5", "67,5", "67.5 g", "67,5g", "67 1/2 grams", "67½ g", "135/2", "0.0675 kg", "67.6", "67.4 g"} {
		expectAccepts(t, weight, text, true)
	}
	for _, text := range []string{"67.61", "67.39", "-67.5", "67.5 kg"} {
		expectAccepts(t, weight, text, false)
	}
	ratio := Key{Unit: Ratio, Value: Value{Number: exact.Of(3, 2)}}
	for text, want := range map[string]bool{"1:1.5": true, "1 : 1,5": true, "1 to 1.5": true, "2:3": true, "1:1½": true, "1.5:1": false, "1:2": false} {
		expectAccepts(t, ratio, text, want)
	}
	moment := Key{Unit: Moment, Value: Value{Number: exact.Int(652)}}
	for text, want := range map[string]bool{"10:52": true, "10.52": true, "10:52 am": true, "10:52 pm": false, "22:52": false} {
		expectAccepts(t, moment, text, want)
	}
	expectAccepts(t, Key{Unit: Word, Value: Value{Word: "violet"}}, " Violet", true)
}

func TestUnread(t *testing.T) {
	for text, u := range map[string]Unit{"": Gram, "g": Gram, "67.5 %": Gram, "1/0": Gram, "1:": Ratio, "0:1": Ratio, "24:00": Moment, strings.Repeat("1", 81): Bare} {
		if v, err := Parse(text, u); err == nil {
			t.Errorf("%q is read as %s", text, u.Text(v))
		}
	}
}

func TestGuess(t *testing.T) {
	for text, want := range map[string]string{"48 h": "48 h", "1:1.5": "1:1.5", "10:1.5": "1:0.15", "09:30": "9:30", "8": "8", "level 8": "8", "104 g": "104 g", "38 cm²": "38 cm²", "45°": "45°"} {
		u, v, err := Guess(text)
		if err != nil || u.Text(v) != want {
			t.Errorf("%q is guessed as %q, %v; want %q", text, u.Text(v), err, want)
		}
	}
}

// The truth is right in every spelling, and a neighbour just outside the tolerance wrong.
func TestNeighbours(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := exact.Of(rapid.Int64Range(1, 1_000_000).Draw(t, "n"), rapid.SampledFrom([]int64{1, 2, 3, 7, 10, 100, 1000}).Draw(t, "of"))
		near := exact.Of(rapid.Int64Range(0, 50).Draw(t, "near"), 100)
		k := Key{Unit: Gram, Value: Value{Number: n}, Near: near}
		unit := rapid.SampledFrom([]string{"", " g", "g", " grams", " G"}).Draw(t, "unit")
		for _, text := range []string{n.String() + unit, "= " + n.String() + unit, strings.Replace(n.String(), ".", ",", 1) + unit} {
			if right, err := k.Accepts(text); err != nil || !right {
				t.Fatalf("%q is not right for %s: %v", text, n, err)
			}
		}
		for _, off := range []exact.Number{near.Add(exact.Of(1, 1000)), near.Neg().Sub(exact.Of(1, 1000))} {
			if wrong := n.Add(off); wrong.Sign() > 0 {
				if right, _ := k.Accepts(wrong.String() + unit); right && !strings.Contains(wrong.String(), "/") {
					t.Fatalf("%s is right for %s within %s", wrong, n, near)
				}
			}
		}
	})
}
