package derive_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"plait/internal/course"
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/lesson"
)

// worked are problems with their answers, worked by hand apart from this program; the
// bowls hold nothing but colour and developer.
var worked = []struct{ given, find, want string }{
	{"{mixed: 60 g, ratio: '1:1'}", "colour", "30 g"},
	{"{mixed: 75 g, ratio: '1:1.5'}", "developer", "45 g"},
	{"{mixed: 70 g, ratio: '1:2'}", "colour", "23.33 g"},
	{"{colour: 22.5 g, ratio: '1:1.5'}", "developer", "33.75 g"},
	{"{colour: 35 g, ratio: '1:2'}", "mixed", "105 g"},
	{"{bowl: '2 parts 8N + 1 part 8V, 6 vol at 1:1.5, 45 g'}", "8V", "15 g"},
	{"{developer: 6 %, ratio: '1:1.5'}", "strength", "3.6 %"},
	{"{developer: 1.9 %, ratio: '1:2'}", "strength", "1.27 %"},
	{"{strength: 4.5 %, ratio: '1:1'}", "bottle", "9 %"},
	{"{strong: 12 %, weak: 3 %, strength: 6 %, developer: 90 g}", "strong", "30 g"},
	{"{strong: 30 vol, weak: 10 vol, strength: 13 vol, developer: 100 g}", "weak", "85 g"},
	{"{hair: 5 natural, target: 7}", "shade level", "9"},
	{"{hair: 2 natural, level: 6}", "result", "4"},
	{"{strength: 20 vol}", "percent", "6 %"},
	{"{strength: 9 %}", "volume", "30 vol"},
	{"{at: '10:07', apply: 18 min, time: 35 min}", "finish time", "11:00"},
	{"{at: '10:07', apply: 90 s, time: 45 min}", "finish time", "10:53"},
	{"{apply: 18 min, time: 35 min}", "exposure", "53 min"},
	{"{apply: 80 s, time: 45 min}", "exposure", "46.33 min"},
	{"{colour: 24 g, heads: 12, waste: 10 %}", "to buy", "316.8 g"},
	{"{colour: 24 g, heads: 12, waste: 10 %, pack: 60 g}", "packs", "6 packs"},
	{"{bowl: '2 parts 5N + 1 part 7N, 6 vol at 1:2, 30 g'}", "average level", "5.67"},
	{"{level: 8}", "warmth", "yellow"},
	{"{shade: 8V}", "base", "violet"},
}

func TestWorkedQuestions(t *testing.T) {
	text := "---\ntitle: First\nsummary: A bowl.\noutcomes: {a: B}\n---\n\n## Ask\n"
	for i, w := range worked {
		text += fmt.Sprintf("\n```question q%d\nask: How much?\ngiven: %s\nfind: %s\ntests: a\n```\n", i, w.given, w.find)
	}
	d, l, found := askedIn(text)
	if diag.HasErrors(found) {
		t.Fatal(found[0].Span.Text(), found[0].Message)
	}
	for i, q := range d.Questions(l) {
		if got := q.Key.String(); got != worked[i].want {
			t.Errorf("%s of %s is %s, want %s", worked[i].find, worked[i].given, got, worked[i].want)
		}
		if right, err := q.Key.Accepts(worked[i].want); !right {
			t.Errorf("%s is no answer for %s of %s: %v", worked[i].want, worked[i].find, worked[i].given, err)
		}
	}
}

// Variants take the place of a figure in the words, and are worked out anew; slips come
// out of the same bowl gone wrong.
func TestVariantsAndSlips(t *testing.T) {
	d, l, found := askedIn(strings.Replace(glossLesson, "## Mix", "## Mix\n\n```question weigh\nask: For 52 g of colour, how much?\n"+
		"given: {formula: gloss, colour: 52 g}\nfind: developer\ntests: a\nslips: [ratio forgotten, ratio swapped]\nvary: {colour: [30 g, 52 g, 40 g]}\n```\n", 1))
	if diag.HasErrors(found) {
		t.Fatal(found[0].Span.Text(), found[0].Message)
	}
	q := d.Questions(l)[0]
	var got []string
	for _, v := range q.Variants {
		got = append(got, v.Ask+" "+v.Key.String())
	}
	if want := "For 30 g of colour, how much? 60 g; For 40 g of colour, how much? 80 g"; strings.Join(got, "; ") != want {
		t.Errorf("the variants are %s", strings.Join(got, "; "))
	}
	if q.Key.String() != "104 g" || q.Slips[0].Text != "52 g" || q.Slips[1].Text != "26 g" {
		t.Errorf("the answer is %s, the slips %s and %s", q.Key, q.Slips[0].Text, q.Slips[1].Text)
	}
}

// askedRange is the range of the gloss with two darker shades.
var askedRange = strings.NewReplacer("{8:", "{5: light brown, 7: dark blonde, 8:", "[8N,", "[5N, 7N, 8N,").Replace(glossRange)

// askedIn works out a course of one lesson on that range.
func askedIn(text string) (*derive.Derived, *lesson.Lesson, []diag.Diagnostic) {
	files := fstest.MapFS{
		"content/course.yaml":        {Data: []byte(glossSettings)},
		"content/ranges/meadow.yaml": {Data: []byte(askedRange)},
		"lessons/01-first/lesson.md": {Data: []byte(text)},
	}
	settings, found := course.ReadSettings(files)
	rng, faults := course.ReadRange(files, "content/ranges/meadow.yaml")
	found = append(found, faults...)
	l, faults := lesson.Read(files, "lessons/01-first")
	found = append(found, faults...)
	c, faults := course.Link(course.Parts{Settings: settings, Ranges: []*course.Range{rng}, Lessons: []*lesson.Lesson{l}})
	found = append(found, faults...)
	d, faults := derive.Run(c)
	return d, l, append(found, faults...)
}
