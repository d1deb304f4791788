package browsertest

import (
	"os/exec"
	"testing"
)

// marked gives what the program makes of the demo's class: the report and the key to
// its paper, as an assessor opens them from their folder.
func marked(t *testing.T) *site {
	t.Helper()
	dir := t.TempDir()
	cmd := exec.Command("go", "run", "./cmd/plait", "mark", "content/papers/class", "--out", dir)
	cmd.Dir = repository()
	if said, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	s, err := readFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// TestReport holds the report on a class and the key to its paper to what the pages of
// the site are held to, and prints them.
func TestReport(t *testing.T) {
	s := marked(t)
	axe := readAxe(t)
	pdfinfo := program(t, "install poppler-utils", "pdfinfo")
	pdftotext := program(t, "install poppler-utils", "pdftotext")
	t.Run("standard", func(t *testing.T) { t.Parallel(); expectClean(t, standardCheck(t, s)) })
	t.Run("habits", func(t *testing.T) { t.Parallel(); expectClean(t, habitsCheck(t, s)) })
	for name, words := range map[string][]string{
		"report.html":            {"Zoë Quill", "KR-20", "must be right: Watch a gloss"},
		"key-first-colours.html": {"Must be right", "1a", "72 g"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			p := openPage(t, s, name)
			expectForAll(t, p, axe)
			file := p.pdf()
			expectInfo(t, output(t, pdfinfo, file), p.text("h1"))
			expectWords(t, oneLine(output(t, pdftotext, "-layout", file, "-")), words...)
		})
	}
}
