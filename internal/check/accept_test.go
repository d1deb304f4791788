package check

import (
	"strings"
	"testing"
)

// acceptedLesson is a lesson with two bowls that each break formula/over-strength by
// one level, and one of them formula/drift.
const acceptedLesson = `---
title: Accepted
summary: Findings that a lesson lets stand.
accept:
ACCEPT
---

## Bowls

` + "```formula first\nkind: permanent\ncolour: 30 g 6N\ndeveloper: 20 vol\ntime: 30 min from last section\nhair: 6 natural\ntarget: 6\n```\n\n" +
	"```formula second\nkind: permanent\ncolour: 0.3 g 6N\ndeveloper: 20 vol\nratio: RATIO\ntime: 30 min from last section\nhair: 6 natural\ntarget: 6\n```\n"

// expectAccepted holds what is left of a lesson's findings, each as its line and rule.
func expectAccepted(t *testing.T, accept, ratio string, want ...string) {
	t.Helper()
	text := strings.Replace(strings.Replace(acceptedLesson, "ACCEPT", accept, 1), "RATIO", ratio, 1)
	var got []string
	for _, line := range strings.Split(strings.TrimSpace(everything(t, text)), "\n") {
		if line != "" {
			got = append(got, line)
		}
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("%s:\ngot\n  %s\nwant\n  %s", accept, strings.Join(got, "\n  "), strings.Join(want, "\n  "))
	}
}

// everything prints the severity, rule and message of what is found in a lesson.
func everything(t *testing.T, text string) string {
	t.Helper()
	var b strings.Builder
	for _, d := range judge(t, testCourse(Lesson, text)) {
		b.WriteString(d.Severity.String() + " " + d.Rule + ": " + d.Message + "\n")
	}
	return b.String()
}

const (
	overFirst  = "note formula/over-strength: 20 vol lifts one level that nobody asked for; expect the warmth of level 7, yellow-orange, beneath the shade (common practice)"
	driftFound = "warning formula/drift: on a scale of 0.1 g this bowl weighs 1:1.6667, not 1:1.5"
)

func TestAccept(t *testing.T) {
	whole := "  - {rule: formula/over-strength, because: white hair is covered}"
	expectAccepted(t, "  []", "1:1.5", overFirst, driftFound, overFirst)
	expectAccepted(t, whole, "1:1.5", driftFound)
	expectAccepted(t, "  - {rule: formula/over-strength, at: first, because: a gold over it}", "1:1.5", driftFound, overFirst)
	expectAccepted(t, whole+"\n  - {rule: formula/drift, at: second, because: one strand}", "1:1.5")
}

// An acceptance that does nothing is reported, whatever the reason.
func TestAcceptReportsWhatMatchesNothing(t *testing.T) {
	expectAccepted(t, "  - {rule: formula/drift, at: first, because: one strand}", "1:1.5",
		"warning text/accept: formula/drift is accepted here, but nothing breaks it", overFirst, driftFound, overFirst)
	expectAccepted(t, "  - {rule: formula/drift, at: third, because: one strand}", "1:1.5",
		`warning text/accept: this lesson has no formula and no head sheet "third"`, overFirst, driftFound, overFirst)
	expectAccepted(t, "  - {rule: formula/drifts, because: one strand}", "1:1.5",
		`warning text/accept: there is no rule "formula/drifts"`, overFirst, driftFound, overFirst)
	expectAccepted(t, "  - {rule: formula/drift, because: one strand}\n  - {rule: formula/drift, at: second, because: again}", "1:1.5",
		"warning text/accept: formula/drift is accepted here, but nothing breaks it", overFirst, overFirst)
}

// What is found in a head sheet is accepted by its lesson, alone or as a whole.
func TestAcceptInAHeadSheet(t *testing.T) {
	for accept, want := range map[string]int{
		"": 1,
		"{rule: head/uncoloured, because: it stays dry}":            0,
		"{rule: head/uncoloured, at: plan, because: it stays dry}":  0,
		"{rule: head/uncoloured, at: gloss, because: it stays dry}": 2, // and that nothing breaks it there
	} {
		files := sheetCourse(sheetShown + goesOn("gloss", "[front, back]"))
		text := strings.Replace(files, "summary:", "accept: ["+accept+"]\nsummary:", 1)
		if text == files {
			t.Fatal("the lesson has no summary to write before")
		}
		got := 0
		for _, d := range judge(t, testCourse(Files, text)) {
			if d.Rule == "head/uncoloured" || d.Rule == "text/accept" {
				got++
			}
		}
		if got != want {
			t.Errorf("accept: [%s]: %d findings, want %d", accept, got, want)
		}
	}
}

// An error is mended, not accepted, and a reason has to be given.
func TestAcceptTakesNoErrorAndNeedsAReason(t *testing.T) {
	expectAccepted(t, "  - {rule: range/ratio, because: we always do}", "1:2",
		"warning text/accept: range/ratio is an error here and cannot be accepted", overFirst, overFirst,
		"error range/ratio: Meadow mixes permanent at 1:1.5, not at 1:2")
	expectAccepted(t, "  - {rule: formula/drift}", "1:1.5",
		`error text/missing-key: an accepted finding has no "because"`, overFirst, driftFound, overFirst)
}
