package scalp

import (
	"testing"

	"plait/internal/head"
)

// The middle of every polygon lies in its own section; landmarks lie where the trade
// says.
func TestSectionAt(t *testing.T) {
	base := New(head.Adult(), 4)
	plan, err := base.Part([]Step{{Part: Centre{}}, {Part: EarToEar{}}})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range plan.Mesh.Polygons {
		if p.Section == Skin || p.Area() < dust {
			continue
		}
		middle := plan.Mesh.Points[p.Corners[0]].U
		for _, c := range p.Corners[1:] {
			middle = middle.Add(plan.Mesh.Points[c].U)
		}
		if got := plan.SectionAt(head.At(base.Head(), middle.Unit())); got != p.Section {
			t.Fatalf("a point of section %d was found in %d", p.Section, got)
		}
	}
	for name, want := range map[string]string{
		"left recession": "left front", "right ear back": "right back", "left nape corner": "left back",
		"crown": "left back", // on the centre parting: the first of the two
	} {
		at, _ := base.Head().Landmark(name)
		if got := plan.Sections[plan.SectionAt(at)].Name; got != want {
			t.Errorf("%s lies in %q, want %q", name, got, want)
		}
	}
}
