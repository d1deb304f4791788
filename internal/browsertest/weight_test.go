package browsertest

import (
	"os"
	"path"
	"path/filepath"
	"regexp"
	"testing"
)

// lightEnough is how heavy a lesson may be before compression, without its
// pictures, drawings, media and what is said in them: a cheap phone in a basement opens it at once.
const lightEnough = 60 << 10

// heavy is what counts as drawing or as words of a film and not as page.
var heavy = regexp.MustCompile(`(?s)<svg.*?</svg>|<ol class="bare lines">.*?</ol>|data:text/vtt[^"]*`)

var partName = regexp.MustCompile(`(?:src|href)="([^"]+\.(?:js|css))"`)

// TestWeight adds up the page, its style sheet and its script.
func TestWeight(t *testing.T) {
	s := built(t)
	for _, name := range s.lessons() {
		page := readFile(t, s, name)
		total := len(heavy.ReplaceAll(page, nil))
		parts := partName.FindAllStringSubmatch(string(page), -1)
		for _, part := range parts {
			total += len(readFile(t, s, path.Join(path.Dir(name), part[1])))
		}
		if len(parts) < 2 {
			t.Errorf("%s: a style sheet and a script were expected, found %q", name, parts)
		}
		if total > lightEnough {
			t.Errorf("%s weighs %d bytes, want at most %d", name, total, lightEnough)
		}
		t.Logf("%s: %d bytes, %d of them the page", name, total, len(page))
	}
}

func readFile(t *testing.T, s *site, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(s.dir, filepath.FromSlash(name)))
	if err != nil {
		t.Fatal(err)
	}
	return data
}
