package asset

import (
	"fmt"
	"testing"

	"plait/internal/shade"
)

// Dark lines and numbers can be read on every wash: WCAG 2.2 asks for a contrast of 4.5
// (1.4.3).
func TestWashesAreLight(t *testing.T) {
	ink := rgb{0x24, 0x1a, 0x15}
	for level := shade.Level(0); level <= 10; level++ {
		for hue := shade.NoHue; hue <= shade.Hue(len(hueColours)); hue++ {
			tint := Tint{Level: level, Hue: hue}
			var wash rgb
			if _, err := fmt.Sscanf(tint.Wash(), "#%02x%02x%02x", &wash.r, &wash.g, &wash.b); err != nil {
				t.Fatal(err)
			}
			if c := contrast(wash, ink); c < 4.5 {
				t.Errorf("%s: a contrast of %.1f", tint.Class(), c)
			}
		}
	}
}
