package markdown

import (
	"bytes"
	"strings"
	"testing"

	"github.com/yuin/goldmark"

	"plait/internal/source"
)

// lessonText is a lesson of about 900 words, with what lessons have in them.
var lessonText = strings.Repeat(lessonPart, 6)

const lessonPart = `
## 0:42 Mix the gloss

Two parts of 8N hold the level. One part of 8V lays violet over the yellow that faces it on the wheel.
The developer is weak on purpose: nothing here is *meant* to lift, and **nothing** does.

` + "```formula gloss" + `
on: ["lengths, below the parietal ridge"]
kind: demi
colour: 2 parts 8N (20 g) + 1 part 8V (10 g)
developer: 60 g of 6 vol
ratio: 1:2
amount: 30 g colour
` + "```" + `

Zero the scale with the bowl on it and pour ` + "`{developer of gloss}`" + ` of 6 vol first; a gloss this runny
mixes cleaner when the colour goes into the liquid. Zero again for ` + "`{8N of gloss}`" + ` of 8N, and again.

- Gloves on, towel tucked in
- Slices a finger deep, from the nape upwards
- Two fingers' breadth from the natural root; see [the safety page](safety.html)

Keep it off the root. From the fifth minute on, wipe a strand every two minutes and hold it against the
towel. The yellow goes quiet before it goes; a hint of it left is what makes blonde look alive. Why not
8V by itself? A cool shade without a natural one has no body: on porous hair it goes flat first.

![The head from the left, the lengths tinted.](plan.svg "left")
`

func BenchmarkLesson(b *testing.B) {
	file := source.NewFile("lesson.md", []byte(lessonText))
	h := Hooks{Value: func(*Value) string { return "60 g" }, Block: func(out []byte, _ *Block) []byte { return out }}
	b.SetBytes(int64(len(lessonText)))
	b.ReportAllocs()
	for b.Loop() {
		d, _ := Parse(file, file.Whole(), lessonOptions)
		for _, s := range d.Sections {
			s.TitleHTML(h)
			s.HTML(h)
		}
	}
}

// BenchmarkBare is the measure that the other is held against: the library with
// nothing added, on the same text.
func BenchmarkBare(b *testing.B) {
	md, src := goldmark.New(), []byte(lessonText)
	b.SetBytes(int64(len(src)))
	b.ReportAllocs()
	for b.Loop() {
		var out bytes.Buffer
		_ = md.Convert(src, &out)
	}
}
