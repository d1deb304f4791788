package browsertest

import (
	"bufio"
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	cdpage "github.com/chromedp/cdproto/page"
)

// hostile is a text that tries to run a script wherever it could be put without being
// escaped: in text, in an attribute, in a script element and as a script's string.
const hostile = `'"></script></title></textarea></style><script>ran=1</script><img src=x onerror=ran=1><svg onload=ran=1>` +
	"${ran=1}`;ran=1;//{{ran=1}}"

// hostileWord is for places that take a word.
const hostileWord = `<img src=x onerror=ran=1>`

// hostileCourse is a course whose author, or whoever sent a file in, is nobody's friend:
// every text that can be free is hostile.
func hostileCourse(t *testing.T) string {
	t.Helper()
	quote := func(s string) string {
		b := &bytes.Buffer{}
		e := json.NewEncoder(b) // a JSON string is a YAML one
		e.SetEscapeHTML(false)
		if err := e.Encode(s); err != nil {
			t.Fatal(err)
		}
		return strings.TrimSpace(b.String())
	}
	fill := strings.NewReplacer("HOSTILE", quote(hostile), "WORD", quote(hostileWord), "BARE", hostile, "ESCAPED", regexp.MustCompile("[!-/:-@[-`{-~]").ReplaceAllString(hostile, `\$0`)).Replace
	dir := t.TempDir()
	for name, text := range map[string]string{
		"content/course.yaml": `title: HOSTILE
summary: HOSTILE
language: en
edition: HOSTILE
law: GB
range: example
modules: [{name: all, title: HOSTILE, summary: HOSTILE, lessons: [bowl]}]
class: {heads: 6, waste: 10 %}
`,
		"content/ranges/example.yaml": `name: WORD
checked: 2026-03-01
code: {style: letters}
levels: {7: WORD, 8: HOSTILE}
tones: {N: {name: HOSTILE}, V: {name: WORD, base: violet}}
shades: [7N, 8N, 8V]
kinds: {demi: {ratio: "1:2", time: 10-20 min, strengths: [1.8 %]}}
packs: {colour: 60 g, developer: 1000 g}
prices: {colour: 8.00 GBP, developer: 9.00 GBP}
`,
		"content/words.yaml":          "- {term: HOSTILE, meaning: HOSTILE, see: [WORD]}\n- {term: WORD, meaning: HOSTILE}\n",
		"content/about.md":            "---\ntitle: HOSTILE\nsummary: HOSTILE\n---\n\nESCAPED\n\n```\nBARE\n```\n\n```formula x\nBARE\n```\n",
		"content/safety.md":           "---\ntitle: Safety\nsummary: HOSTILE\n---\n\n## ESCAPED\n\nRead it.\n",
		"content/papers/first.yaml":   "title: HOSTILE\nsummary: HOSTILE\ntime: 10 min\npass: 50 %\ndraw: [{questions: 2, module: all}]\n",
		"lessons/01-bowl/a.svg":       `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 4"><title>&lt;script></title></svg>`,
		"lessons/01-bowl/p.head.yaml": "title: HOSTILE\nsections:\n  - {part: horseshoe, gives: [top, lengths]}\ndraw: {views: [left], number: [lengths]}\n",
		"lessons/01-bowl/talk.vtt":    "WEBVTT\n\n00:00.000 --> 00:05.000\n&lt;script&gt;ran=1&lt;/script&gt;\n\n00:05.000 --> 00:10.000\n<v &lt;script&gt;>BARE</v>\n",
		"lessons/01-bowl/lesson.md": "---\ntitle: HOSTILE\nsummary: HOSTILE\noutcomes: {one: HOSTILE}\nhair: {roots: 7 natural, lengths: 8 lightened, warmth: yellow, white: 0 %, length: chin, density: medium}\n" +
			"recording: {link: \"https://film.example/a\", captions: talk.vtt, length: \"0:10\"}\nuses: [colour]\nkit: [HOSTILE, WORD]\n---\n\nESCAPED\n\n" +
			"## 0:00 ESCAPED\n\nThe allergy alert test was 48 hours ago.\n\n![ESCAPED](a.svg \"ESCAPED\")\n\n![Where](p.head.yaml \"left\")\n\n[ESCAPED](https://elsewhere.example/?ran=1 \"ESCAPED\")\n\n`BARE`\n\n" +
			"```formula gloss\non: [HOSTILE, lengths]\nkind: demi\ncolour: 2 parts 8N + 1 part 8V\nadd: 3 g <script>ran=1</script>\ndeveloper: 6 vol\nratio: 1:2\namount: 24 g colour\ntime: 15 min from last section\nhair: 8 lightened\ntarget: 8 cool\n```\n\n" +
			"```care\n- HOSTILE\n```\n\n## 0:05 ESCAPED\n\n" +
			"```question pick\nask: HOSTILE\nchoose: {right: HOSTILE, wrong: [WORD, other]}\ntests: one\npaper: yes\nbecause: HOSTILE\n```\n\n" +
			"```question pair\nask: HOSTILE\npairs: {a: HOSTILE, WORD: b, c: d}\ntests: one\npaper: yes\nbecause: HOSTILE\n```\n\n" +
			"```question sort\nask: HOSTILE\norder: [HOSTILE, WORD, x]\ntests: one\nbecause: HOSTILE\n```\n\n" +
			"```question type\nask: HOSTILE\ngiven: {formula: gloss, colour: 52 g}\nfind: developer\ntests: one\nbecause: HOSTILE\nslips: {100 g: HOSTILE}\n```\n\n" +
			"```practical hand\ntests: one\nshow: [HOSTILE, WORD]\n```\n",
	} {
		file := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(fill(text)), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// expectHarmless opens a page with its policy switched off, so that the escaping has to
// hold by itself, and as it is, and looks for a script that ran or waits to.
func expectHarmless(t *testing.T, s *site, name string) {
	t.Helper()
	policies := []string{"without its policy"}
	if strings.Contains(name, "/") || name == "report.html" { // all others are alike
		policies = append(policies, "with its policy")
	}
	for _, policy := range policies {
		p := openPage(t, s, name, func(p *page) {
			send(p, cdpage.SetBypassCSP, cdpage.SetBypassCSPParams{Enabled: policy == "without its policy"})
		})
		if name == "find.html" {
			p.fill("#find_field", "img")
		}
		for _, fault := range evalTo[[]string](p, `() => {
			const found = typeof ran === 'undefined' ? [] : ['a script ran']
			for (const e of document.querySelectorAll('*'))
				for (const a of e.attributes)
					if (/^on/i.test(a.name) || /^\s*(javascript|data:text)/i.test(a.value)) found.push(e.outerHTML.slice(0, 200))
			return found
		}`) {
			t.Errorf("%s %s: %s", name, policy, fault)
		}
		if (strings.Contains(name, "bowl") || strings.Contains(name, "key") || strings.Contains(name, "report")) && !strings.Contains(p.text("body"), "onerror=ran=1") {
			t.Errorf("%s does not show what was written", name)
		}
	}
}

// learnerTexts are the names in an answer file, with their closing quotes.
var learnerTexts = regexp.MustCompile(`"(name|class|assessor)": "[^"]*"`)

// TestHostileTexts tries to run scripts through every text of a course, from its folder
// and by preview, and through what learners hand in.
func TestHostileTexts(t *testing.T) {
	course, work := hostileCourse(t), t.TempDir()
	bin := filepath.Join(work, "plait")
	said := func(fine bool, name string, args ...string) {
		t.Helper()
		if out, err := exec.Command(name, args...).CombinedOutput(); fine && err != nil {
			t.Fatalf("%s: %v\n%s", args, err, out)
		}
	}
	said(true, "go", "build", "-o", bin, "plait/cmd/plait")
	said(true, bin, "build", "--course", course, "--out", filepath.Join(work, "site"))
	said(true, bin, "mark", "--course", course, "--out", filepath.Join(work, "keys"))

	// Learners of the demo under other names: their files count as damaged, and are marked.
	name, err := json.Marshal(hostile)
	if err != nil {
		t.Fatal(err)
	}
	class := filepath.Join(repository(), "content", "papers", "class")
	for _, learner := range []string{"ada-thorn", "ben-cole", "cleo-marsh"} {
		data, err := os.ReadFile(filepath.Join(class, learner+".json"))
		if err != nil {
			t.Fatal(err)
		}
		changed := learnerTexts.ReplaceAllStringFunc(string(data), func(m string) string {
			return strings.TrimSuffix(m, `"`) + " " + string(name[1:])
		})
		if err := os.WriteFile(filepath.Join(work, learner+".json"), []byte(changed), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	said(false, bin, "mark", "--course", repository(), "--out", filepath.Join(work, "marked"),
		filepath.Join(work, "ada-thorn.json"), filepath.Join(work, "ben-cole.json"), filepath.Join(work, "cleo-marsh.json"))

	s, err := readSite(filepath.Join(work, "site"))
	if err != nil {
		t.Fatal(err)
	}
	report := &site{dir: filepath.Join(work, "marked")}
	for name, of := range map[string]*site{
		"report.html":    report,
		"key-first.html": {dir: filepath.Join(work, "keys")},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			expectHarmless(t, of, name)
		})
	}
	for _, name := range s.pages() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			expectHarmless(t, s, name)
		})
	}
	t.Run("preview", func(t *testing.T) {
		t.Parallel()
		cmd := exec.Command(bin, "preview", "--course", course, "--port", "0")
		out, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { // after the pages have been listened to
			_ = cmd.Process.Kill()
			_ = cmd.Wait()
		})
		lines := bufio.NewScanner(out)
		address := ""
		for !strings.Contains(lines.Text(), " errors") && lines.Scan() { // the line about the first build
			if at, ok := strings.CutPrefix(lines.Text(), "preview at "); ok {
				address, _, _ = strings.Cut(at, " ")
			}
		}
		shown := &site{address: strings.TrimSuffix(address, "/")}
		for _, name := range []string{"index.html", "lessons/bowl.html", "words.html", "-/problems"} {
			expectHarmless(t, shown, name)
		}
	})
}
