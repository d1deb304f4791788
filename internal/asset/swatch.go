package asset

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"plait/internal/shade"
)

// Colours on a page illustrate a shade; they promise nothing. The ground of a
// swatch is the natural colour of its level turned towards the hue of its tone at
// the same lightness, so that the ladder of levels stays a ladder in every tone
// and in print without colour.

// levelColours are natural hair colours from black to lightest blonde, chosen by
// eye.
var levelColours = [...]rgb{
	{0x1b, 0x14, 0x12}, {0x2a, 0x1d, 0x17}, {0x3c, 0x28, 0x1d}, {0x50, 0x34, 0x24}, {0x6a, 0x45, 0x2d},
	{0x85, 0x59, 0x3a}, {0xa4, 0x75, 0x4b}, {0xc1, 0x96, 0x63}, {0xd9, 0xb7, 0x82}, {0xea, 0xd5, 0xa9},
}

// hueColours are the twelve hues of the wheel, red first, as dyes rather than as
// lights.
var hueColours = [...]rgb{
	{0xb3, 0x20, 0x2c}, {0xc4, 0x40, 0x1f}, {0xd0, 0x66, 0x1c}, {0xd9, 0x9a, 0x22}, {0xd8, 0xbf, 0x3a}, {0x9a, 0xa8, 0x3a},
	{0x4d, 0x7a, 0x46}, {0x2f, 0x7a, 0x78}, {0x35, 0x61, 0x9b}, {0x4f, 0x4f, 0x9d}, {0x6f, 0x4a, 0x97}, {0x93, 0x35, 0x6b},
}

// Inks that stand on a swatch. One of the two always has a contrast of 4.5 or
// more: the product of their contrasts with any ground is that of black on white,
// 21, and 4.5² is less.
var (
	darkInk  = rgb{0, 0, 0}
	lightInk = rgb{0xff, 0xff, 0xff}
)

const (
	// clearColour is the ground of a clear, a mixer without a hue, an additive.
	clearLightness = 0.86
	// toneShare is how far a swatch turns from its level towards its hue.
	toneShare = 0.62
)

// Tint is what a swatch shows: a level turned towards a hue. Level 0 is a clear or
// a mixer.
type Tint struct {
	Level shade.Level
	Hue   shade.Hue
}

// Class returns the class of the tint's swatch. Levels beyond the ladder take its
// end.
func (t Tint) Class() string {
	level := min(t.Level, shade.Level(len(levelColours)))
	if t.Hue == shade.NoHue {
		return "s" + strconv.Itoa(int(level))
	}
	return "s" + strconv.Itoa(int(level)) + "h" + strconv.Itoa(int(t.Hue))
}

// Ladder returns the tints that every page may show: the ten levels, and the
// ground of what has none.
func Ladder() []Tint {
	tints := make([]Tint, len(levelColours)+1)
	for i := range tints {
		tints[i].Level = shade.Level(i)
	}
	return tints
}

// swatches returns the style rules of the ladder and the given tints: --s is the
// ground, --i the ink that can be read on it.
func swatches(tints []Tint) string {
	colours := map[string]rgb{}
	for _, t := range append(Ladder(), tints...) {
		colours[t.Class()] = t.colour()
	}
	var css strings.Builder
	var onDark []string
	for _, class := range slices.Sorted(maps.Keys(colours)) {
		ground := colours[class]
		css.WriteString("." + class + "{--s:" + ground.String() + "}")
		if inkOn(ground) == lightInk {
			onDark = append(onDark, "."+class)
		}
	}
	fmt.Fprintf(&css, ":root{--i:%s}%s{--i:%s}\n", darkInk, strings.Join(onDark, ","), lightInk)
	return css.String()
}

// colour is the ground of the tint's swatch.
func (t Tint) colour() rgb {
	base := oklab{L: clearLightness}
	if t.Level > 0 {
		base = levelColours[min(int(t.Level), len(levelColours))-1].oklab()
	}
	if t.Hue == shade.NoHue {
		return base.rgb()
	}
	tone := hueColours[t.Hue-1].oklab()
	if t.Level == 0 {
		return tone.rgb()
	}
	return oklab{
		L: base.L,
		a: base.a + (tone.a-base.a)*toneShare,
		b: base.b + (tone.b-base.b)*toneShare,
	}.rgb()
}

// washShare is how much of a swatch's colour is left in its wash.
const washShare = 0.36

// Wash returns the colour thinned with paper until dark lines and numbers can be read
// on it: what a section of a head is filled with, "#d6c3ab". The style sheet gives the
// same to the class "wash" beside the tint's own.
func (t Tint) Wash() string {
	paper, c := rgb{0xfd, 0xfa, 0xf6}, t.colour()
	mix := func(a, b uint8) uint8 { return uint8(math.Round(float64(a) + (float64(b)-float64(a))*washShare)) }
	return rgb{mix(paper.r, c.r), mix(paper.g, c.g), mix(paper.b, c.b)}.String()
}

func inkOn(ground rgb) rgb {
	if contrast(ground, lightInk) >= contrast(ground, darkInk) {
		return lightInk
	}
	return darkInk
}

// rgb is an sRGB colour.
type rgb struct{ r, g, b uint8 }

// String prints the colour as CSS does, "#c19663".
func (c rgb) String() string { return fmt.Sprintf("#%02x%02x%02x", c.r, c.g, c.b) }

// contrast returns the contrast ratio of two colours (WCAG 2.2, 1.4.3), from 1
// to 21.
func contrast(a, b rgb) float64 {
	x, y := a.luminance(), b.luminance()
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// luminance is the relative luminance of WCAG 2.2.
func (c rgb) luminance() float64 {
	return 0.2126*linear(c.r) + 0.7152*linear(c.g) + 0.0722*linear(c.b)
}

// linear undoes the transfer function of sRGB.
func linear(v uint8) float64 {
	c := float64(v) / 255
	if c <= 0.04045 {
		return c / 12.92
	}
	return math.Pow((c+0.055)/1.055, 2.4)
}

// encode applies the transfer function of sRGB, clipping what lies outside it.
func encode(c float64) uint8 {
	c = min(max(c, 0), 1)
	if c <= 0.0031308 {
		c *= 12.92
	} else {
		c = 1.055*math.Pow(c, 1/2.4) - 0.055
	}
	return uint8(math.Round(c * 255))
}

// oklab is a colour in the space Oklab (CSS Color Module Level 4, section 9.4),
// in which equal steps of L look equal.
type oklab struct{ L, a, b float64 }

func (c rgb) oklab() oklab {
	r, g, b := linear(c.r), linear(c.g), linear(c.b)
	l := math.Cbrt(0.4122214708*r + 0.5363325363*g + 0.0514459929*b)
	m := math.Cbrt(0.2119034982*r + 0.6806995451*g + 0.1073969566*b)
	s := math.Cbrt(0.0883024619*r + 0.2817188376*g + 0.6299787005*b)
	return oklab{
		L: 0.2104542553*l + 0.7936177850*m - 0.0040720468*s,
		a: 1.9779984951*l - 2.4285922050*m + 0.4505937099*s,
		b: 0.0259040371*l + 0.7827717662*m - 0.8086757660*s,
	}
}

func (c oklab) rgb() rgb {
	l := cube(c.L + 0.3963377774*c.a + 0.2158037573*c.b)
	m := cube(c.L - 0.1055613458*c.a - 0.0638541728*c.b)
	s := cube(c.L - 0.0894841775*c.a - 1.2914855480*c.b)
	return rgb{
		r: encode(4.0767416621*l - 3.3077115913*m + 0.2309699292*s),
		g: encode(-1.2684380046*l + 2.6097574011*m - 0.3413193965*s),
		b: encode(-0.0041960863*l - 0.7034186147*m + 1.7076147010*s),
	}
}

func cube(x float64) float64 { return x * x * x }
