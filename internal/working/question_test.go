package working_test

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"plait/internal/course"
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/lesson"
	"plait/internal/measure"
	"plait/internal/working"
)

// The answers were worked out by hand; the lines have to lead to them and to stop there.
func TestQuestion(t *testing.T) {
	expectQuestion(t, "given: {colour: 45 g, ratio: 1:1.5}\nfind: developer", "colour: 45 g", "developer: 45 g × 1.5 = 67.5 g")
	expectQuestion(t, "given: {colour: 22.5 g, ratio: 1:1.5}\nfind: mixed",
		"colour: 22.5 g", "developer: 22.5 g × 1.5 = 33.75 g", "in the bowl: 22.5 g + 33.75 g = 56.25 g")
	expectQuestion(t, "given: {developer: 6 %, ratio: 1:2}\nfind: strength", "strength: 6 % × 2 ÷ (1 + 2) = 4 %")
	expectQuestion(t, "given: {strength: 4.5 %, ratio: 1:1}\nfind: bottle", "bottle: 4.5 % × (1 + 1) ÷ 1 = 9 %")
	expectQuestion(t, "given: {developer: 90 g, strength: 6 %, strong: 12 %, weak: 3 %}\nfind: strong", "stronger: 90 g × (6 − 3) ÷ (12 − 3) = 30 g")
	expectQuestion(t, "given: {strength: 20 vol}\nfind: percent", "per cent: 20 vol × 0.3 = 6 %")
	expectQuestion(t, "given: {hair: 5 natural, target: 7}\nfind: shade level", "shade level: 2 × 7 − 5 = 9")
	expectQuestion(t, "given: {hair: 4 natural, target: 7}\nfind: lift", "lift: 7 − 4 = 3")
	expectQuestion(t, "given: {apply: 18 min, time: 35 min}\nfind: exposure", "first section: 18 min + 35 min = 53 min")
	expectQuestion(t, "given: {time: 45 min, at: \"10:07\"}\nfind: finish time", "off by: 10:07 + 45 min = 10:52")
	expectQuestion(t, "given: {mixed: 60 g, ratio: 1:1.5, heads: 12, waste: 10 %}\nfind: to buy",
		"colour: 60 g ÷ (1 + 1.5) = 24 g", "to buy: 24 g × 12 × 1.1 = 316.8 g")
}

func expectQuestion(t *testing.T, body string, want ...string) {
	t.Helper()
	text := "---\ntitle: First\nsummary: A bowl.\noutcomes: {does: Does it}\n---\n\n## Mix\n\n```question one\nask: How much is it?\n" + body + "\ntests: does\n```\n"
	l, found := lesson.Read(fstest.MapFS{"lessons/01-first/lesson.md": {Data: []byte(text)}}, "lessons/01-first")
	c := &course.Course{Settings: course.Settings{Scale: measure.Grams(exact.Of(1, 10))}, Lessons: []*lesson.Lesson{l}}
	d, faults := derive.Run(c)
	if found = append(found, faults...); diag.HasErrors(found) {
		t.Errorf("%s: %v", body, found)
		return
	}
	var got []string
	for _, line := range working.Question(&d.Questions(l)[0].Solution) {
		got = append(got, line.String())
	}
	if !slices.Equal(got, want) {
		t.Errorf("%s\ngot\n  %s\nwant\n  %s", body, strings.Join(got, "\n  "), strings.Join(want, "\n  "))
	}
}
