package browsertest

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"plait/internal/caption"
	"plait/internal/diag"
	"plait/internal/source"
)

// heard is a cue as another reader of captions has it, times in milliseconds.
type heard struct {
	From  int    `json:"from"`
	Until int    `json:"until"`
	Text  string `json:"text"`
}

// parserScript reads texts with the parser of the standard's community and prints
// the cues of each, tags taken out.
const parserScript = `
const [parser, entities] = process.argv.slice(1)
const {WebVTTParser} = require(parser)
const text = node => node.type === 'text' ? node.value : (node.children ?? []).map(text).join('')
const read = input => new WebVTTParser(require(entities)).parse(input, 'subtitles').cues
	.map(c => ({from: Math.round(c.startTime * 1000), until: Math.round(c.endTime * 1000), text: text(c.tree)}))
const texts = JSON.parse(require('fs').readFileSync(0, 'utf8'))
console.log(JSON.stringify(texts.map(read)))`

// browserScript reads a text as Chromium reads the captions of a film.
const browserScript = `text => new Promise((resolve, reject) => {
	const track = document.createElement('track')
	track.src = URL.createObjectURL(new Blob([text], {type: 'text/vtt'}))
	track.onerror = () => resolve([])
	track.onload = () => resolve([...track.track.cues].map(c => ({
		from: Math.round(c.startTime * 1000), until: Math.round(c.endTime * 1000), text: c.getCueAsHTML().textContent,
	})))
	const film = document.createElement('video')
	film.append(track)
	track.track.mode = 'hidden'
})`

// captionFiles are the WebVTT files of package caption, each also with the line
// ends and marks of other systems. The signature is missing from one of them,
// which a browser refuses whole.
func captionFiles(t *testing.T) map[string]string {
	t.Helper()
	names, err := filepath.Glob("../caption/testdata/*.vtt")
	if err != nil || len(names) == 0 {
		t.Fatalf("no captions: %v", err)
	}
	files := map[string]string{}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		name, text := filepath.Base(name), string(data)
		files[name] = text
		files["crlf "+name] = strings.ReplaceAll(text, "\n", "\r\n")
		files["cr "+name] = strings.ReplaceAll(text, "\n", "\r")
		files["mark "+name] = "\ufeff" + text
	}
	return files
}

// ours reads captions with package caption, without the cues that it takes although
// no browser would.
func ours(name, text string) []heard {
	track, found := caption.Read(source.NewFile(name, []byte(text)))
	lenient := func(c caption.Cue) bool {
		return slices.ContainsFunc(found, func(d diag.Diagnostic) bool { return d.Severity == diag.Note && c.Span.Contains(d.Span) })
	}
	cues := []heard{}
	for _, c := range slices.DeleteFunc(slices.Clone(track.Cues), lenient) {
		cues = append(cues, heard{int(c.From.Milliseconds()), int(c.Until.Milliseconds()), c.Text})
	}
	return cues
}

// expectAlike compares cues in order of their times.
func expectAlike(t *testing.T, name string, got, want []heard) {
	t.Helper()
	order := func(cues []heard) []string {
		var lines []string
		for _, c := range cues {
			lines = append(lines, fmt.Sprintf("%012d %012d %q", c.From, math.MaxInt32-c.Until, c.Text))
		}
		slices.Sort(lines)
		return lines
	}
	if got, want := order(got), order(want); !slices.Equal(got, want) {
		t.Errorf("%s: we read\n%s\nthey read\n%s", name, strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// Times and texts of captions are those that the parser of the standard's community
// finds, in good files and in bad ones. Source: npm webvtt-parser.
func TestCaptionsAgainstParser(t *testing.T) {
	files := captionFiles(t)
	var names, texts []string
	for name, text := range files {
		names, texts = append(names, name), append(texts, text)
	}
	given, err := json.Marshal(texts)
	if err != nil {
		t.Fatal(err)
	}
	node := program(t, "install Node.js", "node")
	cmd := exec.Command(node, "-e", parserScript, checker(t, "webvtt-parser/parser.js"), checker(t, "webvtt-parser/html-entities.json"))
	cmd.Stdin = strings.NewReader(string(given))
	cmd.Stderr = os.Stderr
	said, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	var theirs [][]heard
	if err := json.Unmarshal(said, &theirs); err != nil {
		t.Fatal(err)
	}
	for i, name := range names {
		expectAlike(t, name, ours(name, texts[i]), theirs[i])
	}
}

// The same against the reader that counts: a browser's.
func TestCaptionsAgainstBrowser(t *testing.T) {
	p := openPage(t, built(t), "index.html")
	p.do(chromedp.Navigate("about:blank")) // the site's own policy lets no test in
	for name, text := range captionFiles(t) {
		want := ours(name, text)
		if strings.HasSuffix(name, "unsigned.vtt") {
			want = nil
		}
		expectAlike(t, name, want, evalTo[[]heard](p, browserScript, text))
	}
}
