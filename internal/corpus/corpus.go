// Package corpus makes synthetic courses for tests and benchmarks: as many lessons
// as are asked for, each with the shape of a real one, the same for the same seed.
//
// A lesson has about 900 words of prose in six steps, each with a list of four items,
// three formulas, two pictures, a question, a block of code and values in its prose. One
// lesson of each module shows a head sheet, one of five in the whole course, and one has
// captions. The words mean nothing; the formulas and the questions are right, so a course
// builds without errors.
package corpus

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing/fstest"
)

// perModule is how many lessons one module teaches.
const perModule = 20

// Course returns the folder of a course with n lessons.
func Course(n int, seed uint64) fstest.MapFS {
	w := &writer{rng: rand.New(rand.NewPCG(seed, 0))}
	fsys := fstest.MapFS{
		"content/course.yaml":        {Data: []byte(settings(n))},
		"content/ranges/meadow.yaml": {Data: []byte(meadow)},
	}
	for i := range n {
		folder := fmt.Sprintf("lessons/%04d-%s", i+1, name(i))
		fsys[folder+"/lesson.md"] = &fstest.MapFile{Data: []byte(w.lesson(i, n))}
		fsys[folder+"/left.svg"] = &fstest.MapFile{Data: []byte(picture(i, "left"))}
		fsys[folder+"/back.svg"] = &fstest.MapFile{Data: []byte(picture(i, "back"))}
		if hasSheet(i) {
			fsys[folder+"/plan.head.yaml"] = &fstest.MapFile{Data: []byte(sheets[i/perModule%len(sheets)])}
		}
		if hasCaptions(i) {
			fsys[folder+"/talk.vtt"] = &fstest.MapFile{Data: []byte(w.captions())}
		}
	}
	return fsys
}

func name(i int) string { return fmt.Sprintf("lesson-%d", i+1) }

// hasSheet and hasCaptions pick a lesson of each module.
func hasSheet(i int) bool    { return i%perModule == 0 }
func hasCaptions(i int) bool { return i%perModule == 1 }

// sheets are all head sheets of a course.
var sheets = []string{
	"title: Below the ridge\nsections:\n  - {part: horseshoe, gives: [top, lengths]}\ndraw: {views: [left, back]}\n",
	"title: Above the ridge\nsections:\n  - {part: horseshoe, gives: [crown, sides]}\ndraw: {views: [top]}\n",
	"title: Left and right\nsections:\n  - {part: centre, gives: [left, right]}\ndraw: {views: [front, back]}\n",
	"title: Two halves\nsections:\n  - {part: centre, gives: [one half, other half]}\ndraw: {views: [top, back]}\n",
	"title: The cap\nsections:\n  - {part: horseshoe, gives: [cap, rest]}\ndraw: {views: [left, right]}\n",
}

func settings(n int) string {
	var b strings.Builder
	b.WriteString("title: A synthetic course\nlanguage: en-GB\nscale: 0.1 g\nrange: meadow\nmodules:\n")
	for from := 0; from < n; from += perModule {
		m := from/perModule + 1
		fmt.Fprintf(&b, "  - name: module-%d\n    title: Module %d\n    lessons:\n", m, m)
		for i := from; i < min(from+perModule, n); i++ {
			fmt.Fprintf(&b, "      - %s\n", name(i))
		}
	}
	return b.String()
}

const meadow = `name: Meadow
checked: 2026-03-01
code: {style: letters}
levels: {6: lightest brown, 7: dark blonde, 8: medium blonde, 9: light blonde}
tones:
  N: {name: natural}
  V: {name: violet, base: violet}
  B: {name: blue ash, base: blue}
shades: [6N, 6B, 7N, 7B, 8N, 8V, 9N, 9V]
kinds:
  permanent: {ratio: "1:1.5", time: 30-45 min, strengths: [3 %, 6 %]}
  demi: {ratio: "1:2", time: 10-20 min, strengths: [1.8 %]}
`

func picture(i int, side string) string {
	return fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 40"><title>%s %d</title><circle cx="20" cy="20" r="%d" fill="#7a4a2b"/></svg>`+"\n", side, i+1, 8+i%12)
}

type writer struct{ rng *rand.Rand }

var words = strings.Fields(`section brush bowl parting nape crown temple level tone warmth violet yellow strand scale
	gloves towel comb clip weigh pour paint rinse check wait lift hold turn read slow even clean wet dry cool warm light
	dark natural left right front back over under between before after again until once twice and then with from into
	across along the a each every first last next same other small thin broad gentle careful`)

// sentence returns a sentence of n words.
func (w *writer) sentence(n int) string {
	out := make([]string, n)
	for i := range out {
		out[i] = words[w.rng.IntN(len(words))]
	}
	s := strings.Join(out, " ")
	return strings.ToUpper(s[:1]) + s[1:] + "."
}

// lineLength is where authors begin a new line, in bytes.
const lineLength = 100

func (w *writer) paragraph(sentences int) string {
	var out strings.Builder
	line := 0
	for range sentences {
		for _, word := range strings.Fields(w.sentence(8 + w.rng.IntN(9))) {
			switch {
			case line+len(word) >= lineLength:
				out.WriteByte('\n')
				line = 0
			case out.Len() > 0:
				out.WriteByte(' ')
			}
			out.WriteString(word)
			line += len(word) + 1
		}
	}
	return out.String()
}

// lesson writes lesson i of n.
func (w *writer) lesson(i, n int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "---\ntitle: Synthetic lesson %d\nsummary: %s\nhair: {roots: 7 natural, lengths: 8 lightened}\nuses: [colour]\nkit: [scale, bowl, gloves]\n", i+1, w.sentence(9))
	b.WriteString("outcomes:\n  weighs: Weigh a bowl of two shades\n")
	if hasCaptions(i) {
		b.WriteString("recording: {captions: talk.vtt, length: \"6:30\"}\n")
	}
	fmt.Fprintf(&b, "---\n\n%s\n", w.paragraph(4))
	for step := range 6 {
		fmt.Fprintf(&b, "\n## %d:%02d %s\n\n%s\n\n", step, w.rng.IntN(60), strings.TrimSuffix(w.sentence(4), "."), w.paragraph(7))
		fmt.Fprintf(&b, "- %s\n- *%s*\n- **%s**\n- %s\n\n", w.sentence(7), w.sentence(7), w.sentence(7), w.sentence(7))
		switch step {
		case 0:
			fmt.Fprintf(&b, "![%s](left.svg)\n", w.sentence(6))
			if hasSheet(i) {
				b.WriteString("\n![Where it goes](plan.head.yaml)\n")
			}
		case 1, 2, 3:
			w.formula(&b, step)
		case 4:
			fmt.Fprintf(&b, "%s\n![%s](back.svg)\n", samples[i%len(samples)], w.sentence(6))
		case 5:
			next := (i + 1) % n
			fmt.Fprintf(&b, "%s\nGo on to [the next](../%04d-%s/lesson.md).\n", w.question(), next+1, name(next))
		}
	}
	return b.String()
}

// samples are the blocks of code, which repeat from lesson to lesson.
var samples = []string{
	"```yaml\ncolour: 2 parts 8N + 1 part 8V\ndeveloper: 6 vol\n```\n",
	"```yaml\nask: How much 6 vol goes in?\nfind: developer\n```\n",
	"```text\nzero, pour, zero, squeeze\n```\n",
}

// formula writes one of the three bowls and a sentence that names its weights.
func (w *writer) formula(b *strings.Builder, number int) {
	grams := 20 + 2*w.rng.IntN(20)
	bowl := fmt.Sprintf("bowl-%d", number)
	fmt.Fprintf(b, "Weigh `{8N of %s}` of 8N and pour `{developer of %s}`; `{mixed of %s}` in all.\n\n", bowl, bowl, bowl)
	fmt.Fprintf(b, "```formula %s\non: [\"lengths\"]\nkind: demi\ncolour: %d parts 8N + 1 part 8V\ndeveloper: 6 vol (1.8 %%)\nratio: 1:2\namount: %d g colour\ntime: 15 min from last section\nhair: 8 lightened\ntarget: 8 cool\n```\n", bowl, 1+number, grams)
}

// question writes a question about the first bowl.
func (w *writer) question() string {
	return fmt.Sprintf("```question pours\nask: You need %d g of colour in all. How much 6 vol goes in?\ngiven: {formula: bowl-1, colour: %[1]d g}\nfind: developer\ntests: weighs\nbecause: Same ratio, more colour.\n```\n", 41+2*w.rng.IntN(20))
}

// captions writes what is said in six minutes, a short sentence every five seconds.
func (w *writer) captions() string {
	var b strings.Builder
	b.WriteString("WEBVTT\n")
	for at := 0; at < 6*60; at += 5 {
		fmt.Fprintf(&b, "\n00:%02d:%02d.000 --> 00:%02d:%02d.000\n%s\n", at/60, at%60, (at+5)/60, (at+5)%60, w.sentence(6))
	}
	return b.String()
}
