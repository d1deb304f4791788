package check

import (
	"testing"

	"plait/internal/diag"
)

// expectService expects what a rule finds in a lesson: as many findings of a severity.
func expectService(t *testing.T, lesson, rule string, severity diag.Severity, want int) {
	t.Helper()
	var got int
	for _, d := range judge(t, testCourse(Lesson, lesson)) {
		if d.Rule == rule && d.Severity == severity {
			got++
		}
	}
	if got != want {
		t.Errorf("%s: %d findings as %s, want %d in\n%s", rule, got, severity, want, lesson)
	}
}

// Derived by addition: the roots take 18 minutes and stay 20, the lengths take 6 and stay 10.
func TestChair(t *testing.T) {
	expect := func(chair, start string, want int) {
		t.Helper()
		expectService(t, twoBowls("chair: "+chair+"\n", start), "formula/chair", diag.Error, want)
	}
	expect("38 min", "22 min after root", 0)
	expect("up to 38 min", "22 min after root", 0)
	expect("37 min", "22 min after root", 1)
	expect("39 min", "22 min after root", 1)
	expect("38-40 min", "22 min after root", 1)
	expect("40 min", "after root", 1) // the roots still come off last
	expect("46 min", "30 min after root", 0)
}

// A bowl that does not say when it goes on can only make the service longer.
func TestChairWithBowlsLeftOut(t *testing.T) {
	bowl := func(name, service string) string {
		return "\n```formula " + name + "\nkind: demi\ncolour: 20 g 6N\ndeveloper: 6 vol\n" + service + "\n```\n"
	}
	lesson := func(chair string, bowls ...string) string {
		text := "---\ntitle: Two bowls\nsummary: One of them untimed.\nchair: " + chair + "\n---\n\n## Mix\n"
		for _, b := range bowls {
			text += b
		}
		return text
	}
	timed, left := bowl("root", "start: 0 min\napply: 18 min\ntime: 20 min"), bowl("refresh", "time: 10 min")
	expectService(t, lesson("38 min", timed, left), "formula/chair", diag.Error, 0)
	expectService(t, lesson("60 min", timed, left), "formula/chair", diag.Error, 0)
	expectService(t, lesson("30 min", timed, left), "formula/chair", diag.Error, 1)
	expectService(t, lesson("30 min", left), "formula/chair", diag.Note, 1)
}

// Derived by addition, from the same two bowls.
func TestClash(t *testing.T) {
	expect := func(start string, want int) {
		t.Helper()
		expectService(t, twoBowls("", start), "formula/clash", diag.Warning, want)
	}
	expect("after root", 0)
	expect("17 min after root", 1)
	expect("with root", 2)         // both brushes, and the lengths come off while the roots go on
	expect("35 min after root", 1) // the roots have to come off while the lengths go on
	expect("38 min after root", 0) // as soon as they are off
	expect("22 min after root", 0)
}

func TestUsualAmountOnAHead(t *testing.T) {
	expect := func(hair, amount string, want int) {
		t.Helper()
		expectService(t, wholeHead(hair, amount), "formula/usual-amount", diag.Note, want)
	}
	// Common practice, no source: 100 to 120 g on hair to the shoulder. Twice that is too much, half of it too little.
	const shoulder = "{roots: 6 natural, length: shoulder}"
	expect(shoulder, "240 g mixed", 0)
	expect(shoulder, "241 g mixed", 1)
	expect(shoulder, "50 g mixed", 0)
	expect(shoulder, "49 g mixed", 1)
	expect("{roots: 6 natural}", "500 g mixed", 0)
}
