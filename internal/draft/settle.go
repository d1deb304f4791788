package draft

import (
	"regexp"
	"strings"

	"plait/internal/diag"
)

// valueLine is a line of YAML in a draft: its key, its value and the note behind it.
var valueLine = regexp.MustCompile(`^(\s*(?:- )?(?:[a-z]+: )?)(.+?)(?:   # (.*))?$`)

// Settle makes an open question of the first value in a draft that the checks of its
// course refuse: of a shade the maker does not sell, or a ratio that is not the
// maker's. The note keeps what was heard and says what is wrong with it. It reports
// false where nothing is left to settle.
func Settle(text string, found []diag.Diagnostic) (settled string, changed bool) {
	lines := strings.Split(text, "\n")
	for _, d := range diag.Sorted(found) {
		at := d.Span.Start().Line - 1
		if d.Severity != diag.Error || d.Rule == "text/open" || at < 0 || at >= len(lines) || !inYAML(lines, at) {
			continue
		}
		m := valueLine.FindStringSubmatch(lines[at])
		if m == nil || m[1] == "" || m[2] == open || strings.HasPrefix(m[1], "title:") { // blamed for all of the lesson
			continue
		}
		lines[at] = m[1] + open + "   # " + joinNotes("heard "+m[2], m[3], d.Message)
		return strings.Join(lines, "\n"), true
	}
	return text, false
}

// inYAML reports whether a line stands in the header or in a formula block.
func inYAML(lines []string, at int) bool {
	header, block := 0, false
	for _, l := range lines[:at] {
		switch {
		case l == "---":
			header++
		case strings.HasPrefix(l, "```formula "):
			block = true
		case l == "```":
			block = false
		}
	}
	return block || header == 1
}
