package asset

import (
	"io/fs"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"plait/internal/shade"
	"plait/layouts"
)

// The pairs and ratios are computed by the formula of WCAG 2.2 (relative
// luminance, contrast ratio) in an independent colour library, to four digits.
func TestContrast(t *testing.T) {
	expectContrast(t, "#000000", "#ffffff", 21)
	expectContrast(t, "#767676", "#ffffff", 4.5422)
	expectContrast(t, "#777777", "#ffffff", 4.4781)
	expectContrast(t, "#ff0000", "#ffffff", 3.9985)
	expectContrast(t, "#1a1a1a", "#e6c9a8", 11.0100)
	expectContrast(t, "#d4a373", "#3b2417", 6.4010)
}

func expectContrast(t *testing.T, a, b string, want float64) {
	t.Helper()
	if got := contrast(hexColour(t, a), hexColour(t, b)); math.Abs(got-want) > 0.0001 {
		t.Errorf("contrast(%s, %s) = %.4f, want %.4f", a, b, got, want)
	}
}

func hexColour(t *testing.T, s string) rgb {
	t.Helper()
	n, err := strconv.ParseUint(strings.TrimPrefix(s, "#"), 16, 24)
	if err != nil {
		t.Fatal(err)
	}
	return rgb{uint8(n >> 16), uint8(n >> 8), uint8(n)}
}

// The value is that of an independent colour library for #8a4b2a: oklch
// 0.48216 0.09718 46.949.
func TestOklab(t *testing.T) {
	c := hexColour(t, "#8a4b2a").oklab()
	chroma, hue := math.Hypot(c.a, c.b), math.Atan2(c.b, c.a)*180/math.Pi
	if math.Abs(c.L-0.48216) > 0.001 || math.Abs(chroma-0.09718) > 0.001 || math.Abs(hue-46.949) > 0.05 {
		t.Errorf("oklch of #8a4b2a = %.5f %.5f %.3f", c.L, chroma, hue)
	}
	for _, want := range levelColours {
		if got := want.oklab().rgb(); got != want {
			t.Errorf("%s there and back is %s", want, got)
		}
	}
}

// Text on a swatch can be read (WCAG 2.2, 1.4.3: 4.5 to 1).
func TestInkOnEverySwatch(t *testing.T) {
	for _, tint := range everyTint() {
		ground := tint.colour()
		if got := contrast(ground, inkOn(ground)); got < 4.5 {
			t.Errorf("ink on %s (%s) has a contrast of %.2f", tint.Class(), ground, got)
		}
	}
}

// The ladder is lighter on every rung, in every tone, so that it is a ladder in
// print without colour too.
func TestLadderRises(t *testing.T) {
	for _, tint := range everyTint() {
		if tint.Level < 2 {
			continue
		}
		below := Tint{Level: tint.Level - 1, Hue: tint.Hue}
		if tint.colour().luminance() <= below.colour().luminance() {
			t.Errorf("%s is not lighter than %s", tint.Class(), below.Class())
		}
	}
}

func everyTint() []Tint {
	var tints []Tint
	for level := shade.Level(0); level <= shade.Lightest; level++ {
		for hue := shade.NoHue; hue <= shade.RedViolet; hue++ {
			tints = append(tints, Tint{Level: level, Hue: hue})
		}
	}
	return tints
}

func TestSwatchesHaveRules(t *testing.T) {
	css := swatches(everyTint())
	for _, tint := range everyTint() {
		if strings.Count(css, "."+tint.Class()+"{--s:#") != 1 {
			t.Errorf("no single rule for %s", tint.Class())
		}
	}
	if css := swatches(nil); !strings.Contains(css, ".s10{--s:#ead5a9}") || strings.Contains(css, "h11") {
		t.Errorf("without tints there is more or less than the ladder: %s", css)
	}
	above, top := Tint{Level: 12, Hue: shade.Violet}, Tint{Level: 10, Hue: shade.Violet}
	if above.Class() != top.Class() || above.colour() != top.colour() {
		t.Error("a level beyond the ladder has a swatch of its own")
	}
}

// Every text colour stands out from every ground it is used on, light and dark.
// 4.5 is the ratio for text (WCAG 2.2, 1.4.3), 3 for the edges of controls
// (1.4.11).
func TestContrastOfStyleSheet(t *testing.T) {
	text, err := fs.ReadFile(layouts.FS, "styles/tokens.css")
	if err != nil {
		t.Fatal(err)
	}
	light, dark, ok := strings.Cut(string(text), "@media")
	if !ok {
		t.Fatal("tokens.css has no dark part")
	}
	schemes := map[string]map[string]rgb{"light": tokens(t, light), "dark": tokens(t, dark)}
	pairs := []struct {
		ink     string
		grounds string
		ratio   float64
	}{
		{"ink", "paper sheet well accent-wash warn-wash", 4.5},
		{"soft", "paper sheet well", 4.5},
		{"accent", "paper sheet well accent-wash", 4.5},
		{"accent-ink", "accent", 4.5},
		{"good", "sheet well", 4.5},
		{"warn", "sheet well warn-wash", 4.5},
		{"bad", "sheet well", 4.5},
		{"dev-ink", "dev", 4.5},
		{"count", "well", 4.5},
		{"edge", "paper sheet", 3},
	}
	for scheme, colours := range schemes {
		for _, p := range pairs {
			for ground := range strings.FieldsSeq(p.grounds) {
				a, ok1 := colours[p.ink]
				b, ok2 := colours[ground]
				if !ok1 || !ok2 {
					t.Fatalf("%s: tokens.css has no --%s or no --%s", scheme, p.ink, ground)
				}
				if got := contrast(a, b); got < p.ratio {
					t.Errorf("%s: --%s on --%s has a contrast of %.2f, want %.1f", scheme, p.ink, ground, got, p.ratio)
				}
			}
		}
	}
}

var token = regexp.MustCompile(`--([a-z-]+): (#[0-9a-f]{6});`)

func tokens(t *testing.T, css string) map[string]rgb {
	t.Helper()
	out := map[string]rgb{}
	for _, m := range token.FindAllStringSubmatch(css, -1) {
		out[m[1]] = hexColour(t, m[2])
	}
	return out
}
