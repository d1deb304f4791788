// Package corpus makes synthetic courses for tests and benchmarks: as many lessons
// as are asked for, each with the shape of a real one, the same for the same seed.
//
// A lesson has about 900 words in six steps, three formulas, two pictures, a block
// of code and values in its prose. The words mean nothing; the formulas are right,
// so a course builds without errors.
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
	}
	return fsys
}

func name(i int) string { return fmt.Sprintf("lesson-%d", i+1) }

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

func (w *writer) paragraph(sentences int) string {
	out := make([]string, sentences)
	for i := range out {
		out[i] = w.sentence(8 + w.rng.IntN(9))
	}
	return strings.Join(out, " ")
}

// lesson writes lesson i of n.
func (w *writer) lesson(i, n int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "---\ntitle: Synthetic lesson %d\nsummary: %s\nhair: {roots: 7 natural, lengths: 8 lightened}\nuses: [colour]\nkit: [scale, bowl, gloves]\n---\n\n%s\n", i+1, w.sentence(9), w.paragraph(2))
	for step := range 6 {
		fmt.Fprintf(&b, "\n## %d:%02d %s\n\n%s\n\n", step, w.rng.IntN(60), strings.TrimSuffix(w.sentence(4), "."), w.paragraph(8))
		switch step {
		case 0:
			fmt.Fprintf(&b, "![%s](left.svg)\n", w.sentence(6))
		case 1, 2, 3:
			w.formula(&b, step)
		case 4:
			fmt.Fprintf(&b, "```text\n%s\n%s\n```\n\n![%s](back.svg)\n", w.sentence(6), w.sentence(6), w.sentence(6))
		case 5:
			next := (i + 1) % n
			fmt.Fprintf(&b, "- %s\n- *%s*\n- **%s**\n\nGo on to [the next](../%04d-%s/lesson.md).\n", w.sentence(7), w.sentence(7), w.sentence(7), next+1, name(next))
		}
	}
	return b.String()
}

// formula writes one of the three bowls and a sentence that names its weights.
func (w *writer) formula(b *strings.Builder, number int) {
	grams := 20 + 2*w.rng.IntN(20)
	bowl := fmt.Sprintf("bowl-%d", number)
	fmt.Fprintf(b, "Weigh `{8N of %s}` of 8N and pour `{developer of %s}`; `{mixed of %s}` in all.\n\n", bowl, bowl, bowl)
	fmt.Fprintf(b, "```formula %s\non: [\"lengths\"]\nkind: demi\ncolour: %d parts 8N + 1 part 8V\ndeveloper: 6 vol (1.8 %%)\nratio: 1:2\namount: %d g colour\ntime: 15 min from last section\nhair: 8 lightened\ntarget: 8 cool\n```\n", bowl, 1+number, grams)
}
