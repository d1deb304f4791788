package browsertest

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// TestMarkup holds every page, style sheet and drawing against the standards.
func TestMarkup(t *testing.T) {
	s := built(t)
	t.Run("standard", func(t *testing.T) { t.Parallel(); expectClean(t, standardCheck(t, s)) })
	t.Run("habits", func(t *testing.T) { t.Parallel(); expectClean(t, habitsCheck(t, s)) })
}

// standardCheck is a run of the Nu HTML checker.
// Source: HTML Living Standard, WHATWG, and the CSS and SVG recommendations, W3C.
//
// Its messages about the content policy are left out: it takes own files and
// data blocks for violations, which no browser does, and TestPages sees real ones.
func standardCheck(t *testing.T, s *site) *exec.Cmd {
	t.Helper()
	java := program(t, "install a Java runtime", "java")
	args := []string{
		"-jar", checker(t, "vnu-jar/build/dist/vnu.jar"),
		"--Werror", "--also-check-css", "--also-check-svg", "--format", "gnu",
		"--filterpattern", ".*Content Security Policy.*",
	}
	return exec.Command(java, append(args, s.paths(s.withSuffix(".html", ".css", ".svg"))...)...)
}

// habitsCheck is a run of html-validate, which adds what the standard allows and
// good practice does not: empty links, inline styles, buttons without a type.
func habitsCheck(t *testing.T, s *site) *exec.Cmd {
	t.Helper()
	node := program(t, "install Node.js", "node")
	config := filepath.Join(t.TempDir(), "htmlvalidate.json")
	if err := os.WriteFile(config, []byte(`{"root": true, "extends": ["html-validate:recommended"]}`), 0o600); err != nil {
		t.Fatal(err)
	}
	args := []string{checker(t, "html-validate/bin/html-validate.mjs"), "--config", config}
	return exec.Command(node, append(args, s.paths(s.pages())...)...)
}

// expectClean runs a checker that fails and says why when a file is bad.
func expectClean(t *testing.T, check *exec.Cmd) {
	t.Helper()
	if said, err := check.CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, said)
	}
}
