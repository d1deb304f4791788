package register

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"plait/internal/answerfile"
	"plait/internal/classtest"
)

// sat is a sitting with marks written as 0 and 1, a dot for a question not asked.
func sat(name, marks string, hour int) Sitting {
	s := Sitting{
		Name: name, Class: "Tuesday", Paper: "first", Saved: time.Date(2026, 5, 12, hour, 0, 0, 0, time.UTC),
		Digest: fmt.Sprintf("%s %s %d", name, marks, hour), Missed: []string{}, Doubts: []Doubt{}, Answers: []Answer{}, SignOff: []SignOff{}, Before: []Marking{},
	}
	for i, m := range marks {
		if m == '.' {
			continue
		}
		module := "bench"
		if i%2 == 1 {
			module = "head"
		}
		right := m == '1'
		s.Answers = append(s.Answers, Answer{Question: fmt.Sprintf("lesson/q%02d", i), Module: module, Outcome: "lesson/does-it", Given: "x", Right: right})
		s.Right += one(right)
		s.Of++
	}
	return s
}

func registerOf(sittings ...Sitting) *Register {
	r := New("harbour-row")
	r.Add(sittings)
	return r
}

// Whatever the order in which files come, and however often, the register is the same
// and holds every sitting.
func TestAddInAnyOrder(t *testing.T) {
	var all []Sitting
	for i := range 30 {
		all = append(all, sat(fmt.Sprintf("Learner %d", i%12), "1011", i))
	}
	want, _ := registerOf(all...).JSON()
	for round := range uint64(5) {
		shuffled := slices.Clone(all)
		rand.New(rand.NewPCG(round, 1)).Shuffle(len(all), func(i, j int) { shuffled[i], shuffled[j] = shuffled[j], shuffled[i] })
		r := New("harbour-row")
		r.Add(shuffled[:10])
		r.Add(shuffled[5:])
		if added := r.Add(shuffled); added != (Added{Again: 30}) {
			t.Fatalf("added again: %+v", added)
		}
		if got, _ := r.JSON(); !bytes.Equal(got, want) {
			t.Fatal("the order of files shows")
		}
	}
}

func TestTheLastSittingCounts(t *testing.T) {
	r := registerOf(sat("Ada Thorn", "111", 12), sat("ada  thorn", "000", 9), sat("Ben Cole", "110", 10))
	counting := r.Counting("first")
	if len(r.Sittings) != 3 || len(counting) != 2 || counting[0].Right != 3 || counting[1].Name != "Ben Cole" {
		t.Errorf("got %+v", counting)
	}
	// A still later one takes its place, and the others stay.
	r.Add([]Sitting{sat("Ada Thorn", "100", 15)})
	if counting := r.Counting("first"); len(r.Sittings) != 4 || counting[0].Right != 1 {
		t.Errorf("got %+v", counting)
	}
}

// A copy that was changed has the time of the file it was made from, and stays behind it
// whatever its digest.
func TestAChangedCopyDoesNotCount(t *testing.T) {
	for _, digest := range []string{"0", "z"} {
		whole, changed := sat("Ada Thorn", "100", 9), sat("Ada Thorn", "111", 9)
		changed.Digest, changed.Doubts = digest, []Doubt{Damaged}
		if counting := registerOf(changed, whole).Counting("first"); len(counting) != 1 || counting[0].Right != 1 {
			t.Errorf("digest %s: got %+v", digest, counting)
		}
	}
}

// Marked again by another key, a sitting keeps what it was marked before.
func TestMarkedAgain(t *testing.T) {
	first := sat("Ada Thorn", "110", 9)
	r := registerOf(first)
	again := sat("Ada Thorn", "111", 9)
	again.Digest, again.Passed = first.Digest, true
	if added := r.Add([]Sitting{again}); added != (Added{Remarked: 1}) {
		t.Errorf("got %+v", added)
	}
	if got := r.Sittings[0]; len(r.Sittings) != 1 || got.Right != 3 || !slices.Equal(got.Before, []Marking{{Right: 2, Of: 3}}) {
		t.Errorf("got %+v", got)
	}
}

// Marked again with a course that was mended, an assessor's word that was not known before is kept
// and a doubt that is none any more is gone; the marks are those they were.
func TestMarkedAgainWithTheSameMarks(t *testing.T) {
	first := sat("Ada Thorn", "110", 9)
	first.Doubts = []Doubt{Unknown}
	r := registerOf(first)
	again := sat("Ada Thorn", "110", 9)
	again.Digest, again.Needed = first.Digest, first.Needed+1
	again.SignOff = []SignOff{{Practical: "gloss/weighing", Assessor: "M. Bell", Date: "2026-05-12", Verdict: answerfile.Shown, Points: 2, Of: 2}}
	if added := r.Add([]Sitting{again}); added != (Added{Remarked: 1}) {
		t.Errorf("got %+v", added)
	}
	if got := r.Sittings[0]; len(r.Sittings) != 1 || len(got.Doubts) != 0 || len(got.SignOff) != 1 || got.Needed != again.Needed || len(got.Before) != 0 {
		t.Errorf("got %+v", got)
	}
	if added := r.Add([]Sitting{again}); added != (Added{Again: 1}) {
		t.Errorf("a third time: %+v", added)
	}
}

func TestJSONAndBack(t *testing.T) {
	s := sat("Ada Thorn", "101", 9)
	s.SignOff = []SignOff{{Practical: "gloss/weighing", Assessor: "M. Bell", Date: "2026-05-12", Verdict: answerfile.Shown, Points: 2, Of: 2}}
	s.Doubts = []Doubt{Damaged, Overtime}
	r := registerOf(s, sat("Ben Cole", "000", 9))
	data, err := r.JSON()
	if err != nil {
		t.Fatal(err)
	}
	got, err := Parse(data, "harbour-row")
	if err != nil || !reflect.DeepEqual(got, r) {
		t.Errorf("%v\ngot  %+v\nwant %+v", err, got, r)
	}
}

func expectRefused(t *testing.T, data, want string) {
	t.Helper()
	r, err := Parse([]byte(data), "harbour-row")
	if r != nil || err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("%s: got %v, %v, want %s", data, r, err, want)
	}
}

// What would be lost when it is written again is refused.
func TestParseRefusesWhatItWouldLose(t *testing.T) {
	expectRefused(t, ``, "not a register")
	expectRefused(t, `{"version":2}`, "version 2")
	expectRefused(t, `{"version":1,"course":"harbour-row","sittings":[],"seats":3}`, "seats")
	expectRefused(t, `{"version":1,"course":"harbour-row","sittings":[{"name":"Ada","grade":"A"}]}`, "grade")
	expectRefused(t, `{"version":1,"course":"elsewhere","sittings":[]}`, "elsewhere")
	expectRefused(t, `{"version":1,"course":"harbour-row","sittings":[]} []`, "not a register")
}

// FuzzParse reads any bytes as a register. What is read is written, and read again, as
// the same register.
func FuzzParse(f *testing.F) {
	for _, r := range []*Register{New("c"), registerOf(sat("Ada Thorn", "101", 9), sat("Ben Cole", "000", 9))} {
		r.Course = "c"
		data, err := r.JSON()
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte(`{"version":1,"course":"c","sittings":[{"right":1e99,"name":"\ud800"}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := Parse(data, "c")
		if err != nil {
			if r != nil {
				t.Fatal("half a register escapes")
			}
			return
		}
		written, err := r.JSON()
		if err != nil {
			t.Fatal(err)
		}
		again, err := Parse(written, "c")
		if err != nil {
			t.Fatalf("what was written is not read: %v\n%s", err, written)
		}
		if twice, err := again.JSON(); err != nil || !bytes.Equal(twice, written) {
			t.Fatalf("%v\n%s\nbecomes\n%s", err, written, twice)
		}
	})
}

func TestCSV(t *testing.T) {
	s := sat("=cmd", "101", 9)
	s.Class, s.File = "Tuesday, late", `a "b".json`
	r := registerOf(s, sat("Zoë", "000", 9))
	data, err := r.CSV()
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil || len(rows) != 3 {
		t.Fatalf("%v %q", err, rows)
	}
	if got := rows[2]; got[0] != "Tuesday, late" || got[1] != "'=cmd" || got[6] != "66.7" || got[14] != `a "b".json` {
		t.Errorf("got %q", got)
	}
	if !bytes.HasSuffix(data, []byte("\r\n")) {
		t.Error("lines end as RFC 4180 has it")
	}
	data, err = r.AnswersCSV()
	rows, _ = csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil || len(rows) != 7 {
		t.Errorf("%v %q", err, rows)
	}
}

func TestShare(t *testing.T) {
	for _, c := range []struct {
		n, of int
		want  string
	}{{0, 7, "0.0"}, {7, 7, "100.0"}, {2, 3, "66.7"}, {1, 8, "12.5"}, {1, 2000, "0.1"}, {0, 0, ""}} {
		if got := Share(c.n, c.of); got != c.want {
			t.Errorf("%d of %d: got %q, want %q", c.n, c.of, got, c.want)
		}
	}
}

// worksheet is a published school worksheet of item analysis: ten learners, ten
// questions. What it prints is held in package classtest; here it goes through sittings.
const worksheet = "1111111111 1111111101 1101111100 0111110101 1110111001 1110110100 0110110101 0111001010 1110100001 0100010010"

func TestAnalyseWorksheet(t *testing.T) {
	var all []Sitting
	for i, marks := range strings.Fields(worksheet) {
		all = append(all, sat(fmt.Sprintf("Learner %d", i), marks, 9))
	}
	a := registerOf(all...).Analyse("first")
	if a.Drawn || a.Common != 10 || a.Asked != 10 || len(a.Questions) != 10 {
		t.Fatalf("got %+v", a)
	}
	expectNear(t, "KR-20", a.KR20, 0.5297)
	expectNear(t, "KR-21", a.KR21, 0.4186)
	expectNear(t, "error", a.StdError, 1.3102) // √3.65 · √(1 − 0.5297)
	p, d := map[string]float64{}, map[string]float64{}
	for _, q := range a.Questions {
		p[q.ID], d[q.ID] = q.Difficulty.Value, q.Discrimination.Value
	}
	for i, want := range []float64{.6, 1, .8, .5, .8, .8, .5, .6, .3, .6} {
		expectNear(t, "p", classtest.Figure{Value: p[fmt.Sprintf("lesson/q%02d", i)]}, want)
	}
	for i, want := range []float64{.4, 0, 0, .6, .4, .4, .6, .4, -.2, .4} {
		expectNear(t, "D", classtest.Figure{Value: d[fmt.Sprintf("lesson/q%02d", i)]}, want)
	}
	if !slices.Equal(a.Modules, []string{"bench", "head"}) || !a.Alpha.Known() {
		t.Errorf("modules %v, alpha %+v", a.Modules, a.Alpha)
	}
}

func expectNear(t *testing.T, what string, got classtest.Figure, want float64) {
	t.Helper()
	if d := got.Value - want; !got.Known() || d > 5e-5 || d < -5e-5 {
		t.Errorf("%s: got %v (%v), want %v", what, got.Value, got.Why, want)
	}
}

// Where questions are drawn, KR-20 is of those that all were asked, and the error of
// the whole goes by KR-21.
func TestAnalyseDrawn(t *testing.T) {
	a := registerOf(sat("A", "11.1", 9), sat("B", "10.0", 9), sat("C", "011.", 9), sat("D", "001.", 9)).Analyse("first")
	if !a.Drawn || a.Common != 2 || len(a.Questions) != 4 || a.Asked != 3 {
		t.Errorf("got %+v", a)
	}
	if !a.KR21.Known() || a.StdError.Value == 0 {
		t.Errorf("KR-21 %+v, error %+v", a.KR21, a.StdError)
	}
	a = registerOf(sat("A", "11", 9), sat("B", "1", 9)).Analyse("first")
	if a.KR21.Why != classtest.Incomplete || a.StdError.Why != classtest.Incomplete {
		t.Errorf("papers of two lengths: %+v", a.KR21)
	}
	if a = New("x").Analyse("first"); a.KR20.Why != classtest.NoAnswers || a.StdError.Why != classtest.NoAnswers {
		t.Errorf("nobody: %+v", a)
	}
}

func TestPairings(t *testing.T) {
	sign := func(learner, assessor string, verdict answerfile.Outcome, day int) Sitting {
		s := sat(learner, "1", day)
		s.SignOff = []SignOff{{Practical: "gloss/weighing", Assessor: assessor, Verdict: verdict, Date: fmt.Sprintf("2026-05-%02d", day), Points: 1, Of: 2}}
		s.Digest += assessor
		return s
	}
	var all []Sitting
	table := []struct {
		n             int
		first, second answerfile.Outcome
	}{{20, "shown", "shown"}, {5, "shown", "not yet"}, {10, "not yet", "shown"}, {15, "not yet", "not yet"}}
	for i, row := range table {
		for j := range row.n {
			who := fmt.Sprintf("Learner %d-%d", i, j)
			all = append(all, sign(who, "Bell", row.first, 12), sign(who, "Frost", row.second, 12))
		}
	}
	// A second day is another case, and the same assessor twice is none.
	all = append(all, sign("Learner 0-0", "Bell", "shown", 13), sign("Learner 0-0", "Bell", "not yet", 13))
	got := registerOf(all...).Pairings()
	if len(got) != 1 || got[0].First != "Bell" || got[0].Cases != 50 {
		t.Fatalf("got %+v", got)
	}
	// The table of 20, 5, 10 and 15 has kappa 0.4 (a well-known textbook table, from memory).
	expectNear(t, "kappa", got[0].Kappa, 0.4)
	expectNear(t, "agreement", got[0].Agreement, 0.7)
}

// One sign-off in two files of a learner is one.
func TestSignedOffOnce(t *testing.T) {
	a, b := sat("Ada Thorn", "1", 9), sat("ADA THORN", "0", 10)
	a.SignOff = []SignOff{{Practical: "gloss/weighing", Assessor: "Bell", Verdict: answerfile.Shown, Date: "2026-05-12"}}
	b.SignOff = slices.Clone(a.SignOff)
	r := registerOf(a, b)
	if got := r.SignedOff(); len(got) != 1 {
		t.Errorf("got %+v", got)
	}
	data, err := r.PracticalsCSV()
	if rows, _ := csv.NewReader(bytes.NewReader(data)).ReadAll(); err != nil || len(rows) != 2 || rows[1][4] != "shown" {
		t.Errorf("%v %q", err, rows)
	}
}
