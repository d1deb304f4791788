package browsertest

import (
	"encoding/json"
	"fmt"
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

// faultsScript prints what the same parser finds wrong with a text.
const faultsScript = `
const [parser, entities, mode] = process.argv.slice(1)
const {WebVTTParser} = require(parser)
const text = require('fs').readFileSync(0, 'utf8')
const {errors} = new WebVTTParser(require(entities)).parse(text, mode)
for (const e of errors) console.log(e.line + ':' + (e.col ?? 0) + ': ' + e.message)`

// runParser runs a script on the parser with a text for its input.
func runParser(t *testing.T, script, input string, args ...string) []byte {
	t.Helper()
	node := program(t, "install Node.js", "node")
	args = append([]string{"-e", script, checker(t, "webvtt-parser/parser.js"), checker(t, "webvtt-parser/html-entities.json")}, args...)
	cmd := exec.Command(node, args...)
	cmd.Stdin = strings.NewReader(input)
	cmd.Stderr = os.Stderr
	said, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	return said
}

// parserFaults lists what the parser finds wrong with a text; mode is subtitles or
// chapters.
func parserFaults(t *testing.T, mode, text string) []string {
	t.Helper()
	said := strings.TrimSpace(string(runParser(t, faultsScript, text, mode)))
	if said == "" {
		return nil
	}
	return strings.Split(said, "\n")
}

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
// ends and marks of other systems and with the character that stands for damage. The signature is missing from one of them,
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
		files["nul "+name] = strings.ReplaceAll(text, "e ", "\x00 ")
	}
	return files
}

// ours reads captions with package caption. The cues that it reads otherwise than a
// browser, and says so, come apart.
func ours(name, text string) (cues, lenient []heard) {
	track, found := caption.Read(source.NewFile(name, []byte(text)))
	for _, c := range track.Cues {
		cue := heard{int(c.From.Milliseconds()), int(c.Until.Milliseconds()), c.Text}
		if slices.ContainsFunc(found, func(d diag.Diagnostic) bool { return d.Severity == diag.Note && c.Span.Contains(d.Span) }) {
			lenient = append(lenient, cue)
			continue
		}
		cues = append(cues, cue)
	}
	return cues, lenient
}

// expectAlike compares what we read with what they read, in order of time. Of cues
// that we read otherwise, they have another text or none at all.
func expectAlike(t *testing.T, name, text string, theirs []heard) {
	t.Helper()
	cues, lenient := ours(name, text)
	theirs = slices.DeleteFunc(slices.Clone(theirs), func(c heard) bool {
		return slices.ContainsFunc(lenient, func(l heard) bool { return l.From == c.From && l.Until == c.Until && l.Text != c.Text })
	})
	if got, want := inOrder(cues), inOrder(theirs); !slices.Equal(got, want) {
		t.Errorf("%s: we read\n%s\nthey read\n%s", name, strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func inOrder(cues []heard) []string {
	var lines []string
	for _, c := range cues {
		lines = append(lines, fmt.Sprintf("%09d %09d %q", c.From, c.Until, c.Text))
	}
	slices.Sort(lines)
	return lines
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
	said := runParser(t, parserScript, string(given))
	var theirs [][]heard
	if err := json.Unmarshal(said, &theirs); err != nil {
		t.Fatal(err)
	}
	for i, name := range names {
		expectAlike(t, name, texts[i], theirs[i])
	}
}

// The same against the reader that counts: a browser's.
func TestCaptionsAgainstBrowser(t *testing.T) {
	p := openPage(t, built(t), "index.html")
	p.do(chromedp.Navigate("about:blank")) // the site's own policy lets no test in
	for name, text := range captionFiles(t) {
		theirs := evalTo[[]heard](p, browserScript, text)
		if !strings.HasSuffix(name, "unsigned.vtt") {
			expectAlike(t, name, text, theirs)
		} else if len(theirs) > 0 {
			t.Errorf("%s: a browser reads a file without its first line", name)
		}
	}
}
