package page

import (
	"strings"
	"testing"

	"plait/internal/check"
	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/formula"
	"plait/internal/lesson"
	"plait/internal/markdown"
	"plait/internal/measure"
	"plait/internal/shade"
	"plait/internal/source"
)

func TestEveryRuleIsOnItsPage(t *testing.T) {
	file, _ := rendered(t).Get("rules.html")
	page := string(file.Data)
	for _, r := range check.Rules() {
		if strings.Count(page, `id="`+ruleAnchor(r.ID)+`"`) != 1 {
			t.Errorf("no single place for %s", r.ID)
		}
		if familyTitles[r.Family()] == "" {
			t.Errorf("the family %s has no title", r.Family())
		}
		if _, ok := exampleLanguages[r.Of]; !ok && r.Of != check.InWords {
			t.Errorf("the examples of %s have no language", r.ID)
		}
	}
	if !strings.Contains(page, `<span class="h-key">developer</span>`) {
		t.Error("examples are not coloured")
	}
	handbook, _ := rendered(t).Get("handbook.html")
	if !strings.Contains(string(handbook.Data), `<a href="rules.html">`) {
		t.Error("the handbook does not lead to the rules")
	}
}

// judged is a builder with a finding of a severity in a bowl, one in another bowl, and
// one that is let stand.
func judged(t *testing.T, severity diag.Severity) (*builder, *lesson.Formula) {
	t.Helper()
	file := source.NewFile("lesson.md", []byte("```formula gloss\nratio: 1:2\n```\n```formula other\nratio: 1:3\n```\n"))
	doc, found := markdown.Parse(file, file.Whole(), markdown.Options{Blocks: lesson.Blocks})
	if len(found) > 0 || len(doc.Blocks) != 2 {
		t.Fatalf("%d blocks, %v", len(doc.Blocks), found)
	}
	at := func(i int) source.Span { return doc.Blocks[i].Body.Whole() }
	finding := func(i int, message string) diag.Diagnostic {
		return diag.Diagnostic{Rule: "formula/drift", Severity: severity, Message: message, Span: at(i)}
	}
	b := newEmptyBuilder()
	b.found = byFile([]diag.Diagnostic{finding(0, "this one drifts"), finding(1, "that one drifts")}, spanOf)
	b.accepted = byFile([]check.Accepted{{Diagnostic: finding(0, "so what"), Because: "one strand is enough."}}, spanOfAccepted)
	return b, &lesson.Formula{Block: &formula.Block{}, Fence: doc.Blocks[0]}
}

func expectVerdicts(t *testing.T, severity diag.Severity, want ...string) {
	t.Helper()
	b, f := judged(t, severity)
	d := sampleFormula(t, 0)
	d.Formula = f
	d.Terms = shade.Terms{Ratio: measure.Ratio{Colour: exact.One, Developer: exact.One}} // the bowl is mixed at 1:2
	var got []string
	for _, v := range b.verdicts(d) {
		got = append(got, v.Kind+": "+v.Lead+" "+v.Text+" "+v.Rule)
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// A bowl outside the maker's ratio is not said to be within the directions; what was
// found in another bowl stays there.
func TestVerdicts(t *testing.T) {
	const kept = "note: Kept on purpose. One strand is enough. ../rules.html#formula_drift"
	expectVerdicts(t, diag.Warning, "warning: Look again. This one drifts. ../rules.html#formula_drift", kept)
	expectVerdicts(t, diag.Note, "note: Worth knowing. This one drifts. ../rules.html#formula_drift", kept)
}
