package diag

import (
	"encoding/json"
	"strings"
	"testing"

	"plait/internal/source"
)

// report is the part of a SARIF log that the tests look at.
type report struct {
	Version string
	Runs    []struct {
		ColumnKind string
		Tool       struct {
			Driver struct{ Rules []struct{ ID string } }
		}
		Results []struct {
			RuleID              string
			RuleIndex           *int
			Level               string
			Locations           []struct{ PhysicalLocation sarifPhysical }
			RelatedLocations    []json.RawMessage
			PartialFingerprints map[string]string
			Fixes               []struct {
				ArtifactChanges []struct {
					Replacements []struct {
						DeletedRegion   sarifRegion
						InsertedContent sarifText
					}
				}
			}
		}
	}
}

func sarif(t *testing.T, list ...Diagnostic) report {
	t.Helper()
	var b strings.Builder
	tool := Tool{Name: "plait", Rules: []ToolRule{{ID: "a/first"}, {ID: "formula/grams", Severity: Warning}}}
	if err := WriteSARIF(&b, list, tool); err != nil {
		t.Fatal(err)
	}
	var r report
	if err := json.Unmarshal([]byte(b.String()), &r); err != nil {
		t.Fatal(err)
	}
	return r
}

// Section numbers are those of SARIF 2.1.0 (OASIS, errata 01).
func TestSARIF(t *testing.T) {
	f := source.NewFile("lessons/01 glöss/lesson.md", []byte("é: 13 g\n"))
	at := span(f, "13 g")
	r := sarif(t, Warningf("formula/grams", at, "m").WithNote(at, "n").WithEdit(at, "12 g"), Errorf("formula/other", at, "m"))
	run := r.Runs[0]
	first := run.Results[0]
	if r.Version != "2.1.0" || run.ColumnKind != "unicodeCodePoints" || len(run.Tool.Driver.Rules) != 2 {
		t.Errorf("got %+v", r)
	}
	if first.Level != "warning" || first.RuleIndex == nil || *first.RuleIndex != 1 || len(first.RelatedLocations) != 1 {
		t.Errorf("got %+v", first)
	}
	place := first.Locations[0].PhysicalLocation
	if want := (sarifRegion{StartLine: 1, StartColumn: 4, EndLine: 1, EndColumn: 8}); place.Region != want { // 3.30: the end is exclusive
		t.Errorf("region %+v, want %+v", place.Region, want)
	}
	if place.Artifact.URI != "lessons/01%20gl%C3%B6ss/lesson.md" { // 3.4.3: a valid URI reference
		t.Errorf("address %q", place.Artifact.URI)
	}
	mend := first.Fixes[0].ArtifactChanges[0].Replacements[0]
	if mend.DeletedRegion != place.Region || mend.InsertedContent.Text != "12 g" {
		t.Errorf("fix %+v", mend)
	}
	if run.Results[1].RuleIndex != nil { // 3.27.6: no index for a rule that is not listed
		t.Errorf("index %d for a rule that is not listed", *run.Results[1].RuleIndex)
	}
}

// 3.27.17: a fingerprint survives lines that are put in above, and tells two findings
// on equal lines apart.
func TestSARIFFingerprints(t *testing.T) {
	prints := func(text string) []string {
		f := source.NewFile("a", []byte(text))
		var list []Diagnostic
		for at, line := 0, ""; at < len(text); at += len(line) + 1 {
			line, _, _ = strings.Cut(text[at:], "\n")
			if line == "ratio: 1:1" {
				list = append(list, Errorf("formula/grams", f.Span(at, at+3), "m"))
			}
		}
		var out []string
		for _, x := range sarif(t, list...).Runs[0].Results {
			out = append(out, x.PartialFingerprints["lineText/v1"])
		}
		return out
	}
	before, after := prints("ratio: 1:1\nratio: 1:1\n"), prints("new\nratio: 1:1\n\nratio: 1:1\n")
	if len(before) != 2 || before[0] == before[1] || strings.Join(before, " ") != strings.Join(after, " ") {
		t.Errorf("got %v, then %v", before, after)
	}
}

func TestSARIFOfNothing(t *testing.T) {
	if r := sarif(t); r.Runs[0].Results == nil {
		t.Error("a run without findings has a list of results all the same (3.14.23: null says that nothing was looked at)")
	}
}
