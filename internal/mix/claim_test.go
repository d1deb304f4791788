package mix

import "testing"

func expectVerdict(t *testing.T, claimed, truth, step string, want Verdict) {
	t.Helper()
	if got := CompareMass(grams(t, claimed), grams(t, truth), grams(t, step)); got != want {
		t.Errorf("%s g for %s g on a scale of %s: verdict %d, want %d", claimed, truth, step, got, want)
	}
}

// Derived: a claim may be off by the larger of one step of the scale and 2 %, the
// project's own tolerance.
func TestCompareMass(t *testing.T) {
	expectVerdict(t, "60", "60", "0.1", Same)
	expectVerdict(t, "55", "60", "0.1", Wrong) // 40 + 55 is not 1:1.5
	expectVerdict(t, "46", "45", "1", Near)    // 30 + 46 at 1:1.5 is off by one step
	expectVerdict(t, "46", "45", "0.1", Wrong)
	expectVerdict(t, "23.3", "70/3", "0.1", Same) // as the scale shows it
	expectVerdict(t, "23", "70/3", "1", Same)
	expectVerdict(t, "23", "70/3", "0.1", Near) // within 2 %
	// Both sides of 2 % of 60 g and of one step of a gram.
	expectVerdict(t, "61.2", "60", "0.1", Near)
	expectVerdict(t, "61.3", "60", "0.1", Wrong)
	expectVerdict(t, "58.8", "60", "0.1", Near)
	expectVerdict(t, "58.7", "60", "0.1", Wrong)
	expectVerdict(t, "11", "10", "1", Near)
	expectVerdict(t, "12", "10", "1", Wrong)
	expectVerdict(t, "0", "10", "1", Wrong)
}

// What a bowl says to weigh is right, also for the part that took the odd step.
func TestComparePart(t *testing.T) {
	b := compute(t, "1 6N + 1 6G + 1 6B | none | | 100 colour", whole)
	for i, want := range []struct{ odd, even Verdict }{{Same, Same}, {Near, Same}, {Near, Same}} {
		if got := b.Parts[i].Compare(grams(t, "34"), b.Step); got != want.odd {
			t.Errorf("34 g for part %d: verdict %d, want %d", i, got, want.odd)
		}
		if got := b.Parts[i].Compare(grams(t, "33"), b.Step); got != want.even {
			t.Errorf("33 g for part %d: verdict %d, want %d", i, got, want.even)
		}
		if got := b.Parts[i].Compare(grams(t, "36"), b.Step); got != Wrong {
			t.Errorf("36 g for part %d: verdict %d, want wrong", i, got)
		}
	}
}
