package page

import (
	"strings"
	"testing"

	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/peroxide"
	"plait/internal/shade"
)

func TestBar(t *testing.T) {
	v := sampleBowlView(t)
	// 20, 10 and 60 g of 90 g are 2/9, 1/9 and 2/3.
	expectPart(t, v.Parts[0], "8N", "20\u00a0g", "20\u00a0g", "0%", "22.22%")
	expectPart(t, v.Parts[1], "8V", "10\u00a0g", "30\u00a0g", "22.22%", "11.11%")
	expectPart(t, v.Parts[2], "6\u00a0vol", "60\u00a0g", "90\u00a0g", "33.33%", "66.67%")
	if v.Parts[1].Name != "medium blonde, violet" || v.Parts[2].Name != "developer, 1.8\u00a0%" {
		t.Errorf("the parts are called %q and %q", v.Parts[1].Name, v.Parts[2].Name)
	}
	if v.Parts[1].Pattern == v.Parts[0].Pattern || v.Parts[2].Pattern != developerPattern {
		t.Error("the parts cannot be told apart without colour")
	}
	if v.Mixed != "90\u00a0g" || v.Split != "30\u00a0g colour + 60\u00a0g developer" {
		t.Errorf("in the bowl: %s, %s", v.Mixed, v.Split)
	}
	expectMarks(t, v, "0 | 20\u00a0g | 30\u00a0g | 90\u00a0g")
}

func expectPart(t *testing.T, p PartView, code, weight, total, x, width string) {
	t.Helper()
	if p.Code != code || p.Weight != weight || p.Total != total || p.X != x || p.Width != width {
		t.Errorf("got %s %s, total %s, at %s for %s; want %s %s, total %s, at %s for %s",
			p.Code, p.Weight, p.Total, p.X, p.Width, code, weight, total, x, width)
	}
}

func expectMarks(t *testing.T, v BowlView, want string) {
	t.Helper()
	var got []string
	for _, m := range v.Marks {
		got = append(got, m.Text)
	}
	if g := strings.Join(got, " | "); g != want {
		t.Errorf("marks %s, want %s", g, want)
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
	v.weights(bowl, sampleRange())
	if v.Parts[0].Label != "8N" || v.Parts[1].Label != "" {
		t.Errorf("labels %q and %q, want 8N and none", v.Parts[0].Label, v.Parts[1].Label)
	}
	expectMarks(t, v, "0 | 49\u00a0g | 100\u00a0g")
}
