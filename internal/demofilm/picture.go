package main

import (
	"fmt"
	"html"
	"math"
	"os"
	"slices"
	"strings"

	"plait/internal/draw"
	"plait/internal/scalp"
	"plait/internal/sheet"
	"plait/internal/source"
)

// The frame leaves its lowest sixth free for captions.
const (
	width  = 640
	height = 360
)

// Colours of the pages, and of the ten levels by eye.
const (
	paper, ink, soft, line1, copper = "#fbf8f3", "#241a15", "#665850", "#e4dacd", "#933a18"
)

var levels = []string{
	"#1b1412", "#2a1d17", "#3c281d", "#503424", "#6a452d", "#85593a", "#a4754b", "#c19663", "#d9b782", "#ead5a9",
}

// frame sets a picture under the title of its step and the ribbon of levels.
func frame(title, picture string) string {
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%d" height="%d" viewBox="0 0 %d %d">`, width, height, width, height)
	fmt.Fprintf(&b, `<rect width="%d" height="%d" fill="%s"/>`, width, height, paper)
	for i, colour := range levels {
		fmt.Fprintf(&b, `<rect x="%d" width="64" height="7" fill="%s"/>`, 64*i, colour)
	}
	b.WriteString(words(28, 44, 23, ink, "DejaVu Serif", title))
	b.WriteString(picture + "</svg>")
	return b.String()
}

func words(x, y, size int, colour, family, text string) string {
	return fmt.Sprintf(`<text x="%d" y="%d" font-family="%s" font-size="%d" fill="%s">%s</text>`, x, y, family, size, colour, html.EscapeString(text))
}

func label(x, y int, text string) string { return words(x, y, 15, soft, "DejaVu Sans", text) }

func rect(x, y, w, h float64, fill string) string {
	return fmt.Sprintf(`<rect x="%g" y="%g" width="%g" height="%g" fill="%s"/>`, x, y, w, h, fill)
}

// ladder is the ladder of ten levels with some of them raised.
func ladder(raised ...int) string {
	var b strings.Builder
	for i, colour := range levels {
		x, y := 40+56*i, 110
		if slices.Contains(raised, i+1) {
			y = 84
		}
		b.WriteString(rect(float64(x), float64(y), 56, float64(150-y), colour))
		number := ink
		if i < 7 {
			number = "#ffffff"
		}
		b.WriteString(words(x+20, 140, 16, number, "DejaVu Sans", fmt.Sprint(i+1)))
	}
	for _, level := range raised {
		text := map[int]string{7: "roots", 8: "lengths"}[level]
		b.WriteString(label(40+56*(level-1)+2, 172, text))
	}
	return b.String()
}

// glow is hair as it has faded: level 8 with its yellow.
func glow() string {
	return tress(120, "#dcb04a") + label(190, 246, "level 8, lightened: yellow shows")
}

// tress is a small bundle of hair.
func tress(x float64, colour string) string {
	var b strings.Builder
	fmt.Fprintf(&b, `<g fill="none" stroke="%s" stroke-width="3" stroke-linecap="round">`, colour)
	for i := range 12 {
		s := float64(i) - 5.5
		fmt.Fprintf(&b, `<path d="M%g 196c%g 30 %g 50 %g 84"/>`, x+s*3.2, s, s*-0.6, s*1.3)
	}
	b.WriteString("</g>")
	return b.String()
}

// strand is one wet hair between two fingers.
func strand() string {
	return `<path d="M150 232C240 220 330 244 420 232" fill="none" stroke="#dcb04a" stroke-width="3"/>` +
		`<circle cx="146" cy="232" r="7" fill="` + copper + `"/><circle cx="424" cy="232" r="7" fill="` + copper + `"/>` +
		label(446, 237, "gives, and comes back")
}

// bowl is the bowl in proportion, as far as it is weighed: 8N, then 8V, then the
// developer under both.
func bowl(filled int) string {
	parts := []struct {
		name, weight, fill string
		share              float64
	}{{"8N", "20 g", levels[7], 20}, {"8V", "10 g", "#a88fb0", 10}, {"6 vol", "60 g", "#efe8dd", 60}}
	var b strings.Builder
	x := 40.0
	for i, p := range parts {
		w := 560 * p.share / 90
		if i < filled {
			b.WriteString(rect(x, 110, w, 84, p.fill))
			b.WriteString(words(int(x)+12, 146, 20, ink, "DejaVu Sans", p.name))
			b.WriteString(words(int(x)+12, 176, 17, ink, "DejaVu Sans", p.weight))
		}
		fmt.Fprintf(&b, `<rect x="%g" y="110" width="%g" height="84" fill="none" stroke="%s" stroke-width="1.5"/>`, x, w, soft)
		x += w
	}
	text := "2 parts"
	switch filled {
	case 2:
		text = "2 parts 8N + 1 part 8V"
	case 3:
		text = "1:2, so 30 g of colour take 60 g of 6 vol: 90 g in the bowl"
	}
	b.WriteString(label(40, 232, text))
	return b.String()
}

// heads are the head of the lesson's head sheet with its partings.
type heads struct{ plan *scalp.Plan }

// sheetOf is the head sheet of the lesson. Of its sections the last is glossed.
const sheetOf = "plan.head.yaml"

func newHeads(folder string) (heads, error) {
	file, err := source.Read(os.DirFS(folder), sheetOf, 1<<20)
	if err != nil {
		return heads{}, err
	}
	s, found := sheet.Read(file)
	if s.Broken {
		return heads{}, fmt.Errorf("%s: %s", sheetOf, found[0].Message)
	}
	plan, err := scalp.New(s.Head.New(), scalp.Print).Part(s.Taken())
	if err == nil && len(plan.Sections) != 2 {
		err = fmt.Errorf("%s has %d sections; the film shows two", sheetOf, len(plan.Sections))
	}
	return heads{plan}, err
}

// pair shows a sheet from the left and from behind.
func (h heads) pair(sections []draw.Section, arrows ...draw.Arrow) string {
	d := draw.New(draw.Sheet{Title: "The lengths", Plan: h.plan, Sections: sections, Arrows: arrows})
	place := func(v draw.View, x int) string {
		return strings.Replace(string(d.Head(v, v.Name())), "<svg ", fmt.Sprintf(`<svg x="%d" y="58" width="220" height="240" `, x), 1)
	}
	return place(draw.Left, 70) + place(draw.Back, 330)
}

func (h heads) parting() string {
	none := draw.Section{Tint: draw.Plain}
	return h.pair([]draw.Section{none, none})
}

func (h heads) sections() string {
	return h.pair([]draw.Section{{Tint: draw.Plain}, {Tint: draw.Tints[3], Number: 1}}) + label(560, 92, "leave") + label(560, 170, "gloss")
}

func (h heads) painting() string {
	return h.pair([]draw.Section{{Tint: draw.Plain}, {Tint: draw.Tints[3], Number: 1}}, draw.Arrow{Section: 1, Run: draw.Down})
}

// clock is a round clock that shows minutes from twelve on.
func clock(minutes int) string {
	angle := 2 * math.Pi * float64(minutes) / 60
	x, y := 590+34*math.Sin(angle), 110-34*math.Cos(angle)
	return fmt.Sprintf(`<circle cx="590" cy="110" r="38" fill="#ffffff" stroke="%s" stroke-width="2.5"/>`+
		`<path d="M590 110V76A34 34 0 0 1 %.1f %.1fZ" fill="%s"/>`, ink, x, y, copper) + label(566, 170, fmt.Sprint(minutes, " min"))
}

// strands are strands wiped at 0, 5, 10 and 15 minutes, as far as they are.
func strands(n int) string {
	colours := []string{"#dcb04a", "#d2ae62", "#c9a56c", "#c19a70"}
	var b strings.Builder
	for i, colour := range colours[:n] {
		x := 110 + 135*float64(i)
		b.WriteString(strings.ReplaceAll(tress(x, colour), " 196c", " 100c"))
		b.WriteString(label(int(x)-26, 214, fmt.Sprintf("%d min", 5*i)))
	}
	return b.String()
}
