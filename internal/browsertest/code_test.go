package browsertest

import (
	"encoding/json"
	"os"
	"os/exec"
	"strings"
	"testing"
)

// coded is a course with a public address and a lesson with a film and a head sheet: its
// sheet carries a code for each step.
const coded = `-- content/course.yaml --
title: Codes
language: en-GB
address: https://course.example/first/
modules: [{name: films, title: Films, lessons: [gloss]}]
-- lessons/01-gloss/lesson.md --
---
title: A film and a sheet
summary: Three steps.
recording: {link: "https://films.example/gloss.webm", length: "1:01:00"}
---

## 0:00 Look

![Where it goes](plan.head.yaml)

## 0:31 Mix

Mix.

## 1:00:05 Rinse at the basin

Rinse.
-- lessons/01-gloss/plan.head.yaml --
title: Where it goes
sections:
  - {part: horseshoe, gives: [top, lengths]}
`

// pixelsScript draws each code of a sheet as the browser shows it, four dots to a module,
// and returns its dots.
const pixelsScript = `async selector => {
	const out = []
	for (const code of document.querySelectorAll(selector)) {
		const side = 4 * code.viewBox.baseVal.width
		const copy = code.cloneNode(true)
		copy.setAttribute('xmlns', 'http://www.w3.org/2000/svg')
		copy.setAttribute('width', side)
		copy.setAttribute('height', side)
		const image = new Image()
		image.src = 'data:image/svg+xml,' + encodeURIComponent(copy.outerHTML)
		await image.decode()
		const ink = new OffscreenCanvas(side, side).getContext('2d')
		ink.drawImage(image, 0, 0)
		out.push({side, dots: [...ink.getImageData(0, 0, side, side).data]})
	}
	return out
}`

// decodeScript reads codes from their dots.
const decodeScript = `
const decode = require(process.argv[1])
const codes = JSON.parse(require('fs').readFileSync(0, 'utf8'))
console.log(JSON.stringify(codes.map(c => decode(Uint8ClampedArray.from(c.dots), c.side, c.side)?.data ?? '')))`

// A telephone that looks at the codes of a head sheet is led to the second of the step in
// the film. Source: an independent reader of QR codes (ISO/IEC 18004), npm jsqr, looks at
// what the browser shows.
func TestCodesAreRead(t *testing.T) {
	p := openPage(t, builtFrom(t, coded), "sheets/gloss.html")
	dots, err := json.Marshal(evalTo[[]struct {
		Side int   `json:"side"`
		Dots []int `json:"dots"`
	}](p, pixelsScript, ".codes svg"))
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(program(t, "install Node.js", "node"), "-e", decodeScript, checker(t, "jsqr/dist/jsQR.js"))
	cmd.Stdin, cmd.Stderr = strings.NewReader(string(dots)), os.Stderr
	said, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	var read []string
	if err := json.Unmarshal(said, &read); err != nil {
		t.Fatal(err)
	}
	const page = "https://course.example/first/lessons/gloss.html?t="
	if got, want := strings.Join(read, "\n"), page+"0#look\n"+page+"31#mix\n"+page+"3605#rinse-at-the-basin"; got != want {
		t.Errorf("the codes say\n%s\nwant\n%s", got, want)
	}
}
