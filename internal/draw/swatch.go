package draw

import (
	"html"

	"plait/internal/path"
)

// Size of a swatch in pixels.
const (
	swatchWidth  = 30
	swatchHeight = 20
)

// Swatch returns a small picture of a section's tint and hatching for a legend. Beside
// its words it says nothing new, so that it is kept from readers of the page's text.
func (d *Drawings) Swatch(section int) []byte {
	tint := d.sheet.Sections[section].Tint
	return []byte(`<svg class="hd hd-key" viewBox="0 0 30 20" width="30" height="20" aria-hidden="true" fill="none" stroke="` + ink + `">` +
		element(`class="t `+html.EscapeString(tint.Class)+`" fill="`+html.EscapeString(tint.Fill)+`" stroke="none"`, "M0 0h30v20h-30z") +
		element(`class="x" stroke="#555" stroke-width=".8"`, flatHatch(d.hatches[section])) +
		element(`class="h"`, "M.5.5h29v19h-29z") + `</svg>`)
}

// flatHatch returns the lines of a family over a swatch, as they are in profile. Lines
// along the head are upright, as they are from behind.
func flatHatch(h Hatch) string {
	if h.plain() {
		return ""
	}
	across := path.Point{X: -h.Across.X, Y: -h.Across.Z}
	if h.Across == lengthwise {
		across = path.Point{X: 1}
	}
	var d path.Data
	step := float64(h.Spacing * swatchPixels)
	middle := path.Point{X: swatchWidth / 2, Y: swatchHeight / 2}
	for k := -20; k <= 20; k++ {
		foot := middle.Add(across.Scale(float64((float64(k) + 0.5) * step)))
		if from, to, ok := clipped(foot, across.Normal()); ok {
			d.Add(path.Polyline(from, to))
		}
	}
	return d.String()
}

// swatchPixels is the scale of a swatch, in pixels for a centimetre.
const swatchPixels = 12

// clipped returns the part of a line that lies on the swatch; ok is false where none
// does.
func clipped(through, direction path.Point) (from, to path.Point, ok bool) {
	first, last := -100.0, 100.0
	for _, side := range []struct{ at, by, end float64 }{
		{through.X, direction.X, swatchWidth}, {through.Y, direction.Y, swatchHeight},
	} {
		if side.by == 0 {
			if side.at < 0 || side.at > side.end {
				return from, to, false
			}
			continue
		}
		a, b := -side.at/side.by, (side.end-side.at)/side.by
		first, last = max(first, min(a, b)), min(last, max(a, b))
	}
	if last-first < 1 {
		return from, to, false
	}
	return through.Add(direction.Scale(first)), through.Add(direction.Scale(last)), true
}
