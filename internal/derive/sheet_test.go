package derive

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"plait/internal/course"
	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/lesson"
	"plait/internal/measure"
	"plait/internal/source"
)

const fourSections = "sections:\n  - part: centre\n  - part: ear to ear\n"

// withSheet reads a lesson with a head sheet and derives it without a range.
func withSheet(t *testing.T, header, body, sheet string) (*Derived, *lesson.Lesson, []diag.Diagnostic) {
	t.Helper()
	l, found := lesson.Read(fstest.MapFS{
		"lessons/01-a/lesson.md":      &fstest.MapFile{Data: []byte("---\ntitle: A\nsummary: B\n" + header + "---\n\n## Work\n\n" + body)},
		"lessons/01-a/plan.head.yaml": &fstest.MapFile{Data: []byte(sheet)},
	}, "lessons/01-a")
	c := &course.Course{Lessons: []*lesson.Lesson{l}}
	c.Scale = measure.Grams(exact.Of(1, 10))
	d, faults := Run(c)
	return d, l, append(found, faults...)
}

func bowl(name, lines string) string {
	return "```formula " + name + "\nkind: demi\ncolour: 2 parts 8N + 1 part 8V\ndeveloper: 6 vol\nratio: 1:2\n" + lines + "\n```\n\n"
}

func messages(found []diag.Diagnostic) string {
	var b strings.Builder
	for _, d := range found {
		at := d.Span.Start()
		fmt.Fprintf(&b, "%d:%d %s: %s\n", at.Line, at.Column, d.Rule, d.Message)
	}
	return b.String()
}

func expectMessages(t *testing.T, found []diag.Diagnostic, want ...string) {
	t.Helper()
	if got, want := messages(found), strings.Join(append(want, ""), "\n"); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}

// A name that is no section's own means those that have it among their words.
func TestSectionsMeant(t *testing.T) {
	names := []string{"left front", "left back", "right front", "right back", "nape"}
	for asked, want := range map[string][]int{
		"left back": {1}, "back": {1, 3}, "left": {0, 1}, "nape": {4}, "all": {0, 1, 2, 3, 4}, "whole head": {0, 1, 2, 3, 4},
		"ack": nil, "front left": nil,
	} {
		if got := meantBy(asked, names); !slices.Equal(got, want) {
			t.Errorf("%q means %v, want %v", asked, got, want)
		}
	}
	if got, _ := sectionsMeant([]source.Text{{Value: "back"}, {Value: "left"}}, names); !slices.Equal(got, []int{0, 1, 3}) {
		t.Errorf("back and left mean %v", got)
	}
}

// 110 g for a head with hair to the shoulder (100 to 120 g), shared out by the areas
// of the sections: 110 × 193.5 / 602.6 = 35.3 g each, 71 g in all.
func TestAmountBySection(t *testing.T) {
	header := "hair: {lengths: 8 lightened, length: shoulder}\n"
	d, l, found := withSheet(t, header, bowl("gloss", "on: back\namount: by section"), fourSections)
	expectMessages(t, found)
	f := d.Of(l.Formulas[0])
	if f.Shared == nil || f.Shared.Whole.String() != "110 g" || f.Shared.Total.String() != "71 g" || f.Bowl.Mixed.String() != "71 g" {
		t.Fatalf("got %+v, bowl %v", f.Shared, f.Bowl.Mixed)
	}
	for i, want := range []string{"left back 36 g", "right back 35 g"} {
		if p := f.Shared.Parts[i]; p.Section+" "+p.Mixed.String() != want {
			t.Errorf("part %d: %s %s, want %s", i, p.Section, p.Mixed, want)
		}
	}
	for text, want := range map[string]string{"left back of gloss": "36 g", "mixed of gloss": "71 g"} {
		if got, fault := d.Value(l, source.Text{Value: text}); fault != nil || got != want {
			t.Errorf("{%s} is %q, want %q (%v)", text, got, want, fault)
		}
	}
	// On all sections the column is what the whole head takes.
	d, l, _ = withSheet(t, header, bowl("gloss", "on: [front, back]\namount: by section"), fourSections)
	if got := d.Of(l.Formulas[0]).Shared.Total.String(); got != "110 g" {
		t.Errorf("all sections take %s, want 110 g", got)
	}
	// A regrowth takes 40 to 60 g whatever the length.
	d, l, _ = withSheet(t, header, bowl("gloss", "on: [front, back, \"regrowth\"]\namount: by section"), fourSections)
	if got := d.Of(l.Formulas[0]).Shared.Total.String(); got != "50 g" {
		t.Errorf("the regrowth takes %s, want 50 g", got)
	}
}

func TestAmountBySectionRefused(t *testing.T) {
	_, _, found := withSheet(t, "", bowl("gloss", "on: back\namount: by section"), fourSections)
	expectMessages(t, found, "14:9 formula/amount: an amount by section follows from the length of the hair, and nothing states it")
	_, _, found = withSheet(t, "hair: {length: chin}\n", bowl("gloss", "on: [\"the back\"]\namount: by section"), fourSections)
	expectMessages(t, found, "15:9 formula/amount: an amount by section needs a head sheet with the sections of this bowl")
}

func TestNamesOfSections(t *testing.T) {
	_, _, found := withSheet(t, "", bowl("gloss", "on: [nap, \"one strand\"]\namount: 30 g colour"), fourSections)
	expectMessages(t, found, "13:6 head/unknown-section: no head sheet here has a section \"nap\"")
	_, _, found = withSheet(t, "", bowl("nape", "amount: 30 g colour"),
		"sections: [{part: level, at: occipital bone, to: ear back, gives: [top, nape]}]\n")
	expectMessages(t, found, "1:73 head/name: a formula of this lesson is called \"nape\" too")
	_, _, found = withSheet(t, "", "Text.\n", fourSections+"area: {nape: 80 cm2}\ndraw: {number: [front, bck], arrows: [{on: top, run: up}]}\n")
	expectMessages(t, found,
		"5:24 head/unknown-section: no head sheet here has a section \"bck\"",
		"4:8 head/unknown-section: no head sheet here has a section \"nape\"",
		"5:44 head/unknown-section: no head sheet here has a section \"top\"")
}

func TestNumbers(t *testing.T) {
	d, l, _ := withSheet(t, "", "Text.\n", fourSections+"draw: {number: [back, left front]}\n")
	var got []int
	for _, s := range d.Sheets(l)[0].Sections {
		got = append(got, s.Number)
	}
	if want := []int{3, 1, 0, 2}; !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

// expectOnHead compares a value of a lesson, or what is said where it has none.
func expectOnHead(t *testing.T, d *Derived, l *lesson.Lesson, in, want string) {
	t.Helper()
	got, fault := d.Value(l, source.Text{Value: in})
	if fault != nil {
		got = fault.Message + "; " + fault.Help
	}
	if got != want {
		t.Errorf("{%s} is %q, want %q", in, got, want)
	}
}

// The areas are those of a grid of 4000 by 2000 angles, the lengths sums of arcs of
// the midline: one length to a level 8 cm below the ear canals is 2.10 cm at the nape
// and 18.82 cm at the crown.
func TestValuesOnHead(t *testing.T) {
	d, l, found := withSheet(t, "", "The nape has `{area of nape}`.\n",
		"sections: [{part: ear to ear}, {part: level, at: occipital bone, to: ear back, of: back, gives: [above, nape]}]\ncut: [{of: all, guide: {level: -8}}]\n")
	expectMessages(t, found)
	expectOnHead(t, d, l, "area of nape", "88 cm²")
	expectOnHead(t, d, l, "share of nape", "14.6 %")
	expectOnHead(t, d, l, "share of front", "35.8 %")
	expectOnHead(t, d, l, "area of nape in plan", "88 cm²")
	expectOnHead(t, d, l, "area of plan", "603 cm²")
	expectOnHead(t, d, l, "number of nape", "3")
	expectOnHead(t, d, l, "shortest of nape", "2 cm")
	expectOnHead(t, d, l, "at crown of plan", "19 cm")
	expectOnHead(t, d, l, "at nape of plan", "2 cm")
	expectOnHead(t, d, l, "weight of plan", "plan has no weight; take the value out of the text, or add a cut that has it")
	expectOnHead(t, d, l, "aera of nape", `nape has no "aera"; did you mean "area"? it has: area, share, number, shortest, longest, mean`)
	expectOnHead(t, d, l, "area of nap", `this lesson has no formula, section or head sheet "nap"; did you mean "nape"? this lesson has: above, front, nape, plan`)
	expectOnHead(t, d, l, "at crwn of plan", `there is no landmark "crwn"; did you mean "at crown"? the landmarks are: front hairline, apex, crown, below crown, occipital bone, nape, widest back, left recession, right recession, left ear top, right ear top, left ear back, right ear back, left nape corner, right nape corner, left parietal ridge, right parietal ridge`)
}

// By the model a head takes 44.8 g on 2 cm of hair, 103.6 g on 10 and 177.1 g on 20,
// worked out by hand; the column adds up to whole grams.
func TestProduct(t *testing.T) {
	for length, want := range map[string]string{"2": "45 g", "10": "104 g", "20": "177 g"} {
		d, l, found := withSheet(t, "", "Text.\n", fourSections+"product: {length: "+length+", density: 200, coat: 0.05, ratio: 1.2}\n")
		expectMessages(t, found)
		var sum measure.Mass
		for _, s := range d.Sheets(l)[0].Sections {
			sum = sum.Add(s.Product)
		}
		if sum.String() != want {
			t.Errorf("%s cm take %s, want %s", length, sum, want)
		}
	}
}

// A guide that goes on from another section starts with the length that section has
// where the two meet, and from there on follows its own elevation. At 90 degrees
// that length stays.
func TestGuideGoesOn(t *testing.T) {
	d, l, found := withSheet(t, "", "Text.\n", `sections:
  - {part: level, at: occipital bone, to: ear back, gives: [above, nape]}
cut:
  - {of: nape, elevation: 45, guide: {length: 5, at: hairline, travels: yes}}
  - {of: above, elevation: 90, guide: {after: nape}, lengths: {crown: 10}}
`)
	expectMessages(t, found)
	cut := d.Sheets(l)[0].Cut
	occipital, _ := cut.At("occipital bone")
	crown, ok := cut.At("crown")
	if !ok || math.Abs(occipital-9.90) > 0.03 || math.Abs(crown-occipital) > 0.2 {
		t.Errorf("%.3f cm at the occipital bone, %.3f at the crown", occipital, crown)
	}
}

// What is kept is dropped when something newer needs the room, and made anew.
func TestKept(t *testing.T) {
	k := kept[string, int]{most: 2}
	made := 0
	get := func(key string) int { return k.get(key, func() int { made++; return made }) }
	for i, want := range []struct {
		key   string
		value int
	}{{"a", 1}, {"b", 2}, {"a", 1}, {"c", 3}, {"a", 1}, {"b", 4}} {
		if got := get(want.key); got != want.value {
			t.Errorf("call %d: got %d, want %d", i, got, want.value)
		}
	}
}

func BenchmarkSheet(b *testing.B) {
	l, _ := lesson.Read(fstest.MapFS{
		"lessons/01-a/lesson.md":      &fstest.MapFile{Data: []byte("---\ntitle: A\nsummary: B\n---\n\n## Work\n\nText.\n")},
		"lessons/01-a/plan.head.yaml": &fstest.MapFile{Data: []byte(fourSections)},
	}, "lessons/01-a")
	for b.Loop() {
		newWorked(l.Sheets[0]).facts()
	}
}
