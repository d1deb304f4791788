package report

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"regexp"
	"strings"
	"testing"
	"time"

	"plait/internal/classtest"
	"plait/internal/course"
	"plait/internal/lesson"
	"plait/internal/register"
	"plait/internal/source"
	"plait/layouts"
)

// input is a register of a class in which the first learners know more.
func input(learners int) Input {
	c := &course.Course{Settings: course.Settings{Title: source.Text{Value: "Harbour Row"}, Language: source.Text{Value: "en-GB"}}}
	reg := register.New("harbour-row")
	var all []register.Sitting
	for i := range learners {
		s := register.Sitting{
			Name: fmt.Sprintf("Learner %02d <b>", i), Class: "Tuesday", Paper: "first", Saved: time.Date(2026, 5, 12, 9, 0, 0, 0, time.UTC),
			Digest: fmt.Sprint(i), File: "a.json", Of: 4, Needed: 3, Mark: 7000,
			SignOff: []register.SignOff{{Practical: "gloss/weighing", Assessor: "Bell", Date: "2026-05-12", Verdict: "shown"}},
		}
		for q := range 4 {
			right := i < (q+1)*learners/5
			if q == 3 {
				right = i >= learners/2 // whoever knows less gets it right
			}
			s.Answers = append(s.Answers, register.Answer{Question: fmt.Sprintf("gloss/q%d", q), Module: "bench", Outcome: "gloss/does", Given: "1", Right: right})
			if right {
				s.Right++
			}
		}
		s.Passed = s.Right >= s.Needed
		if i == 0 {
			s.Doubts = []register.Doubt{register.Damaged}
		}
		all = append(all, s)
	}
	reg.Add(all)
	return Input{Course: c, Register: reg, Refused: []string{"torn.json: not <whole>"}, Layouts: layouts.FS}
}

func pageOf(t *testing.T, in Input) string {
	t.Helper()
	data, err := Page(in)
	if err != nil {
		t.Fatal(err)
	}
	again, err := Page(in)
	if err != nil || !bytes.Equal(data, again) {
		t.Errorf("two reports of one register differ: %v", err)
	}
	return string(data)
}

func expectHas(t *testing.T, page string, words ...string) {
	t.Helper()
	for _, w := range words {
		if !strings.Contains(page, w) {
			t.Errorf("the report lacks %q", w)
		}
	}
}

func TestPage(t *testing.T) {
	page := pageOf(t, input(30))
	expectHas(t, page, "Learner 07 &lt;b&gt;", "torn.json: not &lt;whole&gt;", "damaged on its way",
		"Those who know more get it wrong more often", "30 sittings: enough for figures", "KR-20", "Standard error of measurement", "Bell")
	for _, no := range []string{"NaN", "Inf", "<script", " style=", "http:", "https:"} {
		if strings.Contains(page, no) {
			t.Errorf("the report has %q", no)
		}
	}
}

// What had to be right is told in the course's words, and by its name where the course
// no longer has it.
func TestMissedOutcomes(t *testing.T) {
	in := input(3)
	in.Course.Lessons = []*lesson.Lesson{{Name: "gloss", Outcomes: []lesson.Outcome{
		{Name: source.Text{Value: "stops"}, Text: source.Text{Value: "Stop in time"}},
	}}}
	in.Register.Sittings[0].Missed = []string{"gloss/stops", "gone/rinses"}
	expectHas(t, pageOf(t, in), "must be right: Stop in time<", "must be right: gone/rinses<", ">70 %<")
}

// The policy lets in the one style sheet that the page holds.
func TestPolicyFitsTheStyle(t *testing.T) {
	page := pageOf(t, input(3))
	style := regexp.MustCompile(`(?s)<style>(.*?)</style>`).FindStringSubmatch(page)
	if style == nil {
		t.Fatal("no style sheet")
	}
	sum := sha256.Sum256([]byte(style[1]))
	policy := strings.ReplaceAll(page, "&#43;", "+")
	expectHas(t, policy, "sha256-"+base64.StdEncoding.EncodeToString(sum[:]))
}

// A class that is too small, or none, is told so and not given figures to lean on.
func TestSmallClasses(t *testing.T) {
	expectHas(t, pageOf(t, input(5)), "too few to say anything", "Asked too rarely to say.", "The class is too small to say.")
	expectHas(t, pageOf(t, input(1)), "only one learner sat it")
	if page := pageOf(t, input(0)); strings.Contains(page, "<svg") {
		t.Error("plots of nobody")
	}
}

func TestVerdicts(t *testing.T) {
	q := func(p, d float64, asked int) register.Question {
		return register.Question{Asked: asked, Difficulty: classtest.Figure{Value: p}, Discrimination: classtest.Figure{Value: d}}
	}
	for _, c := range []struct {
		q    register.Question
		says string
		look bool
	}{
		{q(0.5, 0.45, 9), "too rarely", false},
		{q(0.5, -0.01, 30), "wrong more often", true},
		{q(0.19, 0.3, 30), "Hardly anybody", true},
		{q(0.81, 0.19, 30), "Nearly everybody", false},
		{q(0.5, 0.19, 30), "hardly tells", true},
		{q(0.5, 0.2, 30), "fairly well", false},
		{q(0.5, 0.4, 30), "tells well", false},
	} {
		if says, look := verdict(c.q); !strings.Contains(says, c.says) || look != c.look {
			t.Errorf("p %v, D %v, %d asked: %q, %v", c.q.Difficulty.Value, c.q.Discrimination.Value, c.q.Asked, says, look)
		}
	}
}

// Numbers beside points keep out of each other's way while there is room.
func TestLabels(t *testing.T) {
	l := &labels{}
	seen := map[string]bool{}
	for range 6 {
		x, y, anchor := l.beside(100, 100)
		if seen[x+y+anchor] {
			t.Fatalf("two numbers at %s, %s", x, y)
		}
		seen[x+y+anchor] = true
	}
}
