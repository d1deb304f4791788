package page

import (
	"bytes"
	"encoding/json"
	"reflect"
	"testing"

	"plait/internal/course"
)

// courseData reads the course of this repository back from its data.
func courseData(t *testing.T) courseJSON {
	t.Helper()
	file, ok := rendered(t).Get("course.json")
	if !ok {
		t.Fatal("no course.json")
	}
	var out courseJSON
	decoder := json.NewDecoder(bytes.NewReader(file.Data))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(&out); err != nil {
		t.Fatal(err)
	}
	return out
}

func TestDataHoldsEveryFormula(t *testing.T) {
	_, c, _ := demo(t)
	data := courseData(t)
	if data.Version != 1 || data.Scale != "0.1" || len(data.Lessons) != len(c.Lessons) {
		t.Errorf("version %d, scale %s, %d lessons; want 1, 0.1, %d", data.Version, data.Scale, len(data.Lessons), len(c.Lessons))
	}
	for i, l := range c.Lessons {
		if got := len(data.Lessons[i].Formulas); got != len(l.Formulas) {
			t.Errorf("%s has %d formulas, want %d", l.Name, got, len(l.Formulas))
		}
	}
}

// The values are worked out by hand: 2 parts 8N + 1 part 8V, 30 g of colour, 6 vol at
// 1:2, so 60 g of 1.8 % in 90 g.
func TestDataOfABowl(t *testing.T) {
	f := dataOf(t, "brassy-gloss", "gloss")
	got := []string{f.Said, f.Colour, f.Developer, f.Mixed, f.Ratio, f.Bottle, f.Strength, f.Reads, f.Page}
	want := []string{"2 parts 8N + 1 part 8V, 6 vol at 1:2", "30", "60", "90", "1:2", "1.8", "1.2", "8", "lessons/brassy-gloss.html#bowl_gloss"}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("got %q, want %q", got[i], want[i])
		}
	}
	if len(f.Parts) != 3 || f.Parts[1] != (partJSON{Role: "colour", Name: "8V", Exact: "10", Weighed: "10"}) {
		t.Errorf("parts %v", f.Parts)
	}
}

func TestDataOfAService(t *testing.T) {
	f := dataOf(t, "regrowth-demi", "refresh")
	want := rowJSON{Applied: spanJSON{Min: 22 * 60, Max: 28 * 60}, Rinse: spanJSON{Min: 38 * 60, Max: 38 * 60}}
	if f.Service == nil || !reflect.DeepEqual(*f.Service, want) {
		t.Errorf("the service of the second bowl is %v, want %v", f.Service, want)
	}
	kept := dataOf(t, "two-bottles", "blend").Kept
	if len(kept) != 1 || kept[0].Rule != "formula/blended" || kept[0].Because == "" {
		t.Errorf("kept on purpose: %v", kept)
	}
}

func dataOf(t *testing.T, lesson, formula string) formulaJSON {
	t.Helper()
	for _, l := range courseData(t).Lessons {
		for _, f := range l.Formulas {
			if l.Name == lesson && f.Name == formula {
				return f
			}
		}
	}
	t.Fatalf("no formula %s of %s", formula, lesson)
	return formulaJSON{}
}

// A course of nothing is still data, with lists where lists are promised.
func TestDataOfAnEmptyCourse(t *testing.T) {
	b := &builder{course: &course.Course{}, site: &Site{Language: "en"}}
	want := "{\n \"version\": 1,\n \"title\": \"\",\n \"language\": \"en\",\n \"scale\": \"0\",\n \"modules\": [],\n \"lessons\": []\n}\n"
	data, err := b.data(nil)
	if err != nil {
		t.Fatal(err)
	}
	if got := string(data); got != want {
		t.Errorf("got %s", got)
	}
}
