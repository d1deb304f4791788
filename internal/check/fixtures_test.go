package check

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/tools/txtar"

	"plait/internal/diag"
)

var update = flag.Bool("update", false, "write what is found into the fixtures; look at the difference")

// Each fixture is one rule at its edges: files that replace those of the test course,
// and what the rule finds in them, line by line.
func TestFixtures(t *testing.T) {
	names, err := filepath.Glob("testdata/*.txtar")
	if err != nil || len(names) == 0 {
		t.Fatalf("no fixtures: %v", err)
	}
	for _, name := range names {
		id := strings.Replace(strings.TrimSuffix(filepath.Base(name), ".txtar"), "-", "/", 1)
		t.Run(id, func(t *testing.T) {
			if _, ok := Find(id); !ok {
				t.Fatalf("%s: there is no rule %s", name, id)
			}
			a, err := txtar.ParseFile(name)
			if err != nil {
				t.Fatal(err)
			}
			expectFound(t, name, id, a)
		})
	}
}

func expectFound(t *testing.T, name, id string, a *txtar.Archive) {
	t.Helper()
	files := testCourse(Header, "")
	want, at := "", -1
	for i, f := range a.Files {
		if f.Name == "want" {
			want, at = string(f.Data), i
			continue
		}
		files[f.Name] = file(string(f.Data))
	}
	got := lines(judge(t, files), id)
	if *update && at >= 0 {
		a.Files[at].Data = []byte(got)
		if err := os.WriteFile(name, txtar.Format(a), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	if got != want {
		t.Errorf("%s: got\n%swant\n%s", name, got, want)
	}
}

// lines prints the findings of a rule and all errors, each on a line.
func lines(found []diag.Diagnostic, id string) string {
	var b strings.Builder
	for _, d := range found {
		if d.Rule == id || d.Severity == diag.Error {
			at := d.Span.Start()
			fmt.Fprintf(&b, "%s:%d:%d: %s: %s [%s]\n", d.Span.File().Name(), at.Line, at.Column, d.Severity, d.Message, d.Rule)
		}
	}
	return b.String()
}

// Every rule that judges formulas has a fixture for its edges.
func TestEveryFormulaRuleHasAFixture(t *testing.T) {
	for _, r := range Rules() {
		if r.Formula == nil {
			continue
		}
		name := filepath.Join("testdata", strings.Replace(r.ID, "/", "-", 1)+".txtar")
		if _, err := os.Stat(name); err != nil {
			t.Errorf("%s has no fixture %s", r.ID, name)
		}
	}
}
