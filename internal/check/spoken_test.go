package check

import (
	"fmt"
	"strings"
	"testing"

	"plait/internal/measure"
)

// rootAndGloss is a lesson of four steps: a root is mixed and painted, then a gloss.
const rootAndGloss = `---
title: Root and gloss
summary: Two bowls.
hair: {roots: 7 natural, lengths: 8 lightened}
recording: {captions: talk.vtt, length: "3:00"}
ACCEPT---

## 0:00 Mix the root

` + "```formula root\non: [\"roots\"]\nkind: permanent\ncolour: 2 parts 6N + 1 part 6G\ndeveloper: 20 vol\nratio: 1:1.5\namount: 30 g colour\ntime: 35 min from last section\nhair: 7 natural\n```" + `

## 0:30 Paint it

Rough-dry to 80 % dry first.

## 1:00 Mix the gloss

` + "```formula gloss\non: [\"lengths\"]\nkind: demi\ncolour: 20 g 8N + 10 g 8V\ndeveloper: 6 vol\nratio: 1:2\ntime: 15 min from last section\nhair: 8 lightened\n```" + `

## 1:30 Rinse

Rinse until it runs clear.
`

// expectSpoken says something at times of the lesson's film, and checks what the rules
// that hold captions against cards make of it: line, rule and message.
func expectSpoken(t *testing.T, said string, want ...string) {
	t.Helper()
	expectSpokenOf(t, rootAndGloss, said, want...)
}

func expectSpokenOf(t *testing.T, lesson, said string, want ...string) {
	t.Helper()
	vtt := "WEBVTT\n\n00:00.000 --> 00:01.000\nHair and scalp, a permanent.\n"
	for _, s := range strings.Split(said, " | ") {
		at, text, _ := strings.Cut(s, " ")
		vtt += "\n0" + at + ".000 --> 0" + at + ".900\n" + text + "\n"
	}
	files := testCourse(Files, "-- content/course.yaml --\ntitle: First colours\nlanguage: en-GB\nmodules: [{name: colour, title: Colour, lessons: [gloss]}]\n"+
		"-- lessons/01-gloss/lesson.md --\n"+strings.Replace(lesson, "ACCEPT", "", 1)+"-- lessons/01-gloss/talk.vtt --\n"+vtt)
	var got []string
	for _, d := range judge(t, files) {
		if !strings.HasPrefix(d.Rule, "spoken/") {
			continue
		}
		got = append(got, fmt.Sprintf("%d %s: %s", d.Span.Start().Line, strings.TrimPrefix(d.Rule, "spoken/"), d.Message))
		if len(d.Notes) != 1 || d.Notes[0].Span.File().Name() != "lessons/01-gloss/talk.vtt" {
			t.Errorf("%s: no place in the captions", d.Message)
		}
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("%s\ngot\n%s\nwant\n%s", said, strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func TestSpokenContradicts(t *testing.T) {
	expectSpoken(t, "0:05 It is ten volume.", "14 strength: root has 20 vol, and at 0:05 the film says “ten volume” (talk.vtt:7)")
	expectSpoken(t, "0:05 Mixed one to one.", "15 ratio: root has 1:1.5, and at 0:05 the film says “one to one” (talk.vtt:7)")
	expectSpoken(t, "0:05 One part of 6N. | 0:08 Two parts of 6G.",
		"13 parts: root has 2 parts 6N, and at 0:05 the film says “One part of 6N” (talk.vtt:7)")
	expectSpoken(t, "0:05 Ten grams of 6N.", "13 weight: root has 20 g, and at 0:05 the film says “Ten grams of 6N” (talk.vtt:7)")
	expectSpoken(t, "0:05 Twenty minutes from the last section.", "17 time: root has 35 min, and at 0:05 the film says “Twenty minutes” (talk.vtt:7)")
	expectSpoken(t, "0:05 Thirty grams of 8V.") // it is the other bowl's, which may be spoken of
	expectSpoken(t, "0:05 Thirty grams of 7B.", "13 shade: no bowl of this lesson has 7B; root has 2 parts 6N + 1 part 6G, and at 0:05 the film says “Thirty grams of 7B” (talk.vtt:7)")
	expectSpoken(t, "0:05 Twenty volume. | 0:35 Paint the ends.", "11 section: root goes on the roots, and at 0:35 the film says “ends” (talk.vtt:10)")
	expectSpoken(t, "0:05 The roots are a level six.", "4 level: the header has the roots at level 7, and at 0:05 the film says “level six” (talk.vtt:7)")
	expectSpoken(t, "0:35 Dry it to fifty percent dry.", "23 dry: the text has 80 % dry, and at 0:35 the film says “fifty percent dry” (talk.vtt:7)")
}

// A value told minutes after its bowl, in a step without one, is held against the bowl
// mixed last.
func TestSpokenLate(t *testing.T) {
	expectSpoken(t, "1:35 I never said, it is mixed one to three.", "32 ratio: gloss has 1:2, and at 1:35 the film says “one to three” (talk.vtt:7)")
	expectSpoken(t, "0:40 And it is thirty volume.", "14 strength: root has 20 vol, and at 0:40 the film says “thirty volume” (talk.vtt:7)")
	expectSpoken(t, "1:35 It was one to one and a half before and one to two now. | 1:40 Mixed one to two.")
}

// A value of the other bowl alone, where the step's own is never said, was probably said
// of this one.
func TestSpokenOfTheOtherBowl(t *testing.T) {
	expectSpoken(t, "1:05 This one is twenty volume.", "31 strength: gloss has 6 vol, and at 1:05 the film says “twenty volume” (talk.vtt:7)")
	expectSpoken(t, "1:05 Not like the root. | 1:08 That was twenty volume, this is six volume.")
}

func TestSpokenAgrees(t *testing.T) {
	expectSpoken(t, "0:02 Two parts of 6N, one part of 6G. | 0:05 Twenty volume, six percent, one to one and a half. | 0:09 Twenty grams of 6N, ten grams of 6G. | "+
		"0:13 Forty-five grams of developer. | 0:40 Thirty-five minutes from the last section. | 1:05 Two parts of 8N to one part of 8V. | 1:40 Up to twenty minutes from the last section.")
	expectSpoken(t, "0:05 Four parts of 6N, two parts of 6G.") // the same proportion
	expectSpoken(t, "0:05 Twenty volume, sorry, no, I mean thirty volume. | 0:08 No. Wait. Twenty volume it is.")
}

// What is taken back, denied, supposed or told of others raises no alarm, nor does talk of
// something else or a list that is taught.
func TestSpokenIsQuiet(t *testing.T) {
	expectSpoken(t, "0:05 Never forty volume. If she were white I would take thirty volume. My boss did it one to one.")
	expectSpoken(t, "0:05 Forty volume lifts four levels, thirty volume three. | 0:08 Ten volume none, twenty volume two, six volume none.")
	expectSpoken(t, "0:35 Leave the kettle on three minutes. | 0:40 I have been here twenty minutes. | 0:45 The bus takes forty minutes.")
	expectSpokenOf(t, rootAndGloss+"\n### Heard\n\n- 1:20 dry 50 %: “50 % dry”\n", "1:35 Dry it to ninety percent dry.")
	expectSpoken(t, "0:35 Paint the ends.") // nothing says that a bowl is spoken of
	expectSpoken(t, "0:05 What a crown on that queen, level nine of the game. | 0:09 One to nil at half time. | 0:12 Fifty percent off.")
	expectSpokenOf(t, strings.ReplaceAll(strings.ReplaceAll(rootAndGloss, "formula root", "formula"), "formula gloss", "formula"), "0:05 It is ten volume.")
}

// expectTimes compares a card's time with one that was said.
func expectTimes(t *testing.T, card, said string, want bool) {
	t.Helper()
	a, err1 := measure.ParseSpan(card)
	b, err2 := measure.ParseSpan(said)
	if err1 != nil || err2 != nil || sameTime(a, b) != want {
		t.Errorf("%s on the card, %s said: %v", card, said, !want)
	}
}

func TestSpokenTimes(t *testing.T) {
	expectTimes(t, "35 min", "30-40 min", true)
	expectTimes(t, "30-45 min", "35 min", true)
	expectTimes(t, "15 min", "up to 20 min", true)
	expectTimes(t, "up to 45 min", "40 min", true)
	expectTimes(t, "up to 45 min", "up to 45 min", true)
	expectTimes(t, "up to 10 min", "up to 45 min", false)
	expectTimes(t, "35 min", "40 min", false)
	expectTimes(t, "30-40 min", "35-45 min", false)
	expectTimes(t, "25 min", "up to 20 min", false)
}

// A contradiction is accepted with its reason, as other warnings are.
func TestSpokenAccepted(t *testing.T) {
	accepting := strings.Replace(rootAndGloss, "ACCEPT", "accept: [{rule: spoken/strength, at: root, because: she misspoke}]\n", 1)
	expectSpokenOf(t, accepting, "0:05 It is ten volume.")
}
