package page

import (
	"html/template"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/peroxide"
	"plait/internal/shade"
)

func TestWeights(t *testing.T) {
	v := sampleBowlView(t)
	expectPart(t, v.Parts[0], "8N", "medium blonde, natural", "20\u00a0g", "20\u00a0g")
	expectPart(t, v.Parts[1], "8V", "medium blonde, violet", "10\u00a0g", "30\u00a0g")
	expectPart(t, v.Parts[2], "6\u00a0vol", "developer, 1.8\u00a0%", "60\u00a0g", "90\u00a0g")
	if v.Mixed != "90\u00a0g" || v.Split != "30\u00a0g colour + 60\u00a0g developer" {
		t.Errorf("in the bowl: %s, %s", v.Mixed, v.Split)
	}
}

func expectPart(t *testing.T, p PartView, code, name, weight, total string) {
	t.Helper()
	if p.Code != code || p.Name != name || p.Weight != weight || p.Total != total {
		t.Errorf("got %s (%s) %s, total %s; want %s (%s) %s, total %s", p.Code, p.Name, p.Weight, p.Total, code, name, weight, total)
	}
}

// 20, 10 and 60 g of 90 g are 2/9, 1/9 and 2/3 of the bar.
func TestBar(t *testing.T) {
	v := sampleBowlView(t)
	expectDrawn(t, v.Bar, `class="s8" x="0%" width="22.22%"`, ">8N<", `class="s8h11" x="22.22%" width="11.11%"`, `url(#pattern_2)`, ">8V<", `class="dev" x="33.33%" width="66.67%"`, `url(#pattern_9)`, ">6\u00a0vol<")
	expectDrawn(t, v.Marks, ">0<", `x="22.22%"`, ">20\u00a0g<", `x="33.33%"`, ">30\u00a0g<", `x="100%"`, ">90\u00a0g<")
}

// expectDrawn checks that a drawing has these pieces in this order.
func expectDrawn(t *testing.T, drawing template.HTML, pieces ...string) {
	t.Helper()
	rest := string(drawing)
	for _, p := range pieces {
		_, after, ok := strings.Cut(rest, p)
		if !ok {
			t.Errorf("no %s in order in %s", p, drawing)
			return
		}
		rest = after
	}
}

// A part too thin for its name goes without one, and running totals that would
// print over each other are left out.
func TestThinParts(t *testing.T) {
	n := exact.Int
	bowl, err := mix.Compute(mix.Formula{
		Shades: []mix.Shade{
			{Code: shade.Code{Text: "8N", Level: 8}, Share: n(98)},
			{Code: shade.Code{Text: "8V", Level: 8}, Share: n(2)},
		},
		Developers: []mix.Developer{{Strength: peroxide.Volumes(n(20)), Share: n(1)}},
		Ratio:      measure.Ratio{Colour: n(1), Developer: n(1)},
		Size:       measure.Grams(n(50)),
	}, measure.Grams(exact.Of(1, 10)))
	if err != nil {
		t.Fatal(err)
	}
	var v BowlView
	v.weights(bowl, "colour", ofSample)
	expectDrawn(t, v.Bar, ">8N<", ">20\u00a0vol<")
	expectDrawn(t, v.Marks, ">0<", ">49\u00a0g<", ">100\u00a0g<")
	for _, hidden := range []string{">8V<", ">50\u00a0g<"} {
		if strings.Contains(string(v.Bar+v.Marks), hidden) {
			t.Errorf("%s is drawn where it does not fit", hidden)
		}
	}
}

// The oracle is a regular expression that says the same.
func TestBound(t *testing.T) {
	unitBehind := regexp.MustCompile(`(\d) (%|(?:g|kg|vol|min|h|cm|mm)\b)`)
	r := rand.New(rand.NewPCG(1, 2))
	pieces := []string{"1", "20", " ", " ", "%", "g", "kg", "vol", "min", "h", "cm", "mm", "_", "é", ".", "x", "\u00a0", "\xff"}
	for range 20000 {
		s := ""
		for range r.IntN(8) {
			s += pieces[r.IntN(len(pieces))]
		}
		if got, want := bound(s), unitBehind.ReplaceAllString(s, "${1}"+nbsp+"${2}"); got != want {
			t.Fatalf("%q becomes %q, want %q", s, got, want)
		}
	}
}

// A tone that stands twice is intense (common practice: 0.11), and a level that is called by its
// tone is not named twice.
func TestShadeName(t *testing.T) {
	r := &shade.Range{
		Tones: map[string]shade.Tone{"1": {Name: "blue ash"}, "3": {Name: "gold"}, "C": {Name: "copper"}},
		Names: map[shade.Level]string{6: "dark copper", 7: "copper", 8: "medium blonde"},
	}
	for _, test := range []struct {
		code shade.Code
		want string
	}{
		{shade.Code{Level: 8, Tones: []string{"1", "3"}}, "medium blonde, blue ash, gold"},
		{shade.Code{Tones: []string{"1", "1"}}, "intense blue ash"},
		{shade.Code{Level: 7, Tones: []string{"C"}}, "copper"},
		{shade.Code{Level: 6, Tones: []string{"C", "3"}}, "dark copper, gold"},
	} {
		if got := shadeName(test.code, r); got != test.want {
			t.Errorf("%v is %q, want %q", test.code, got, test.want)
		}
	}
}
