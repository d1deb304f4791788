package page

import (
	"strings"
	"testing"
	"time"

	"plait/internal/derive"
	"plait/internal/exact"
	"plait/internal/formula"
	"plait/internal/lesson"
	"plait/internal/measure"
	"plait/internal/peroxide"
	"plait/internal/shade"
	"plait/internal/source"
)

// somewhere is a place for values that tests state.
var somewhere = source.NewFile("lesson.md", []byte("x")).Whole()

func TestTimers(t *testing.T) {
	expectTimers(t, 15*time.Minute, 15*time.Minute, "15 min")
	expectTimers(t, 30*time.Minute, 35*time.Minute, "30 min, 35 min")
	expectTimers(t, 0, 45*time.Minute, "45 min")
	expectTimers(t, 90*time.Second, 90*time.Second, "90 s")
	if got := timers(formula.Time{}); got != nil {
		t.Errorf("timers without a time: %v", got)
	}
}

func expectTimers(t *testing.T, low, high time.Duration, want string) {
	t.Helper()
	var got []string
	for _, v := range timers(formula.Time{Value: measure.Span{Min: low, Max: high}, Span: somewhere}) {
		got = append(got, plain(v.Text))
	}
	if g := strings.Join(got, ", "); g != want {
		t.Errorf("timers of %s to %s: %s, want %s", low, high, g, want)
	}
}

func TestClock(t *testing.T) {
	for in, want := range map[time.Duration]string{
		0: "0:00", 42 * time.Second: "0:42", 231 * time.Second: "3:51", 3723 * time.Second: "1:02:03",
	} {
		if got := clock(in); got != want {
			t.Errorf("clock(%s) = %s, want %s", in, got, want)
		}
	}
}

// sampleFormula is the gloss of the samples, within these directions: demi, 1:2,
// 1.8 %, 10-20 min.
func sampleFormula(t *testing.T, processing time.Duration) *derive.Formula {
	n := exact.Int
	block := &formula.Block{
		Name: source.Text{Value: "gloss"},
		Kind: source.Stated[shade.Kind]{Value: shade.Demi, Span: somewhere},
		Time: formula.Time{Value: measure.Span{Min: processing, Max: processing}, Span: somewhere},
	}
	return &derive.Formula{
		Formula: &lesson.Formula{Block: block},
		Computed: derive.Computed{
			OK: true, Range: sampleRange(), Bowl: sampleBowl(t),
			Terms: shade.Terms{
				Ratio:     measure.Ratio{Colour: n(1), Developer: n(2)},
				Strengths: []peroxide.Strength{peroxide.Percent(exact.Of(18, 10))},
				Time:      measure.Span{Min: 10 * time.Minute, Max: 20 * time.Minute},
			},
		},
	}
}

func TestKeepsDirections(t *testing.T) {
	v, ok := keepsDirections(sampleFormula(t, 15*time.Minute))
	if want := "Meadow states 1:2, 6 vol, 10–20 min for demi."; !ok || plain(v.Text) != want {
		t.Errorf("got %q, %v, want %q", v.Text, ok, want)
	}
	if _, ok := keepsDirections(sampleFormula(t, 25*time.Minute)); ok {
		t.Error("25 min is said to be within 10-20 min")
	}
	stray := sampleFormula(t, 15*time.Minute)
	stray.Terms.Strengths = []peroxide.Strength{peroxide.Percent(exact.Int(3))}
	if _, ok := keepsDirections(stray); ok {
		t.Error("1.8 % is said to be within directions that state 3 %")
	}
	silent := sampleFormula(t, 15*time.Minute)
	silent.Terms = shade.Terms{}
	if _, ok := keepsDirections(silent); ok {
		t.Error("a maker that states nothing is quoted")
	}
}

func TestReads(t *testing.T) {
	var got []string
	for _, r := range bowlReads(sampleFormula(t, 15*time.Minute)) {
		got = append(got, r.Term+": "+r.Value+" ("+r.Note+")")
	}
	want := "Strength: 1.2 % (on the hair; 1.8 % in the bottle) | Time: 15 min (from the last section) | " +
		"Reads as: 8 (violet base, against yellow) | Ratio: 1:2 (colour to developer)"
	if g := plain(strings.Join(got, " | ")); g != want {
		t.Errorf("got  %s\nwant %s", g, want)
	}
}

func TestCare(t *testing.T) {
	uses := func(words ...string) *lesson.Lesson {
		l := &lesson.Lesson{}
		for _, w := range words {
			l.Uses = append(l.Uses, source.Text{Value: w})
		}
		return l
	}
	b := newEmptyBuilder()
	if v := b.care(uses()); v != nil {
		t.Errorf("a lesson that uses nothing shows %v", v)
	}
	if v := b.care(uses("blades")); v == nil || v.Title != "Before you begin" || v.Items[0].Lead != "Blades." {
		t.Errorf("a lesson with blades shows %v", v)
	}
	if v := b.care(uses("heat", "colour")); v == nil || v.Title != "Before any colour" || v.Items[0].Lead != "Allergy alert test." {
		t.Errorf("a lesson with colour shows %v", v)
	}
}

// What is mixed with the developer is called by what it is.
func TestPowderIsNoColour(t *testing.T) {
	file, _ := rendered(t).Get("lessons/lightened-strand.html")
	page := plain(string(file.Data))
	for _, want := range []string{"10 g powder &#43; 0.5 g additives &#43; 20 g developer", "powder to developer", "<li>powder: 10 g</li>", `"colour":"powder"`} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
}
