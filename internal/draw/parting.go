package draw

import "plait/internal/path"

// partings returns the lines between sections and the hairline, and the partings on
// the far side where the sheet asks for those.
func (d *Drawings) partings(s *scene, borders []border) string {
	text := ""
	if d.sheet.Hidden {
		text = element(`class="q" stroke="#8a7d72" stroke-width="1" stroke-dasharray="4 3"`, s.far(borders))
	}
	between, hairline := strokes(borders)
	return text + element(`class="h" stroke-width="1"`, hairline) +
		element(`class="p" stroke-width="1.9"`, between)
}

// strokes returns the path data of the borders between two sections and of those with
// bare skin.
func strokes(borders []border) (between, hairline string) {
	var partings, edge path.Data
	for _, b := range borders {
		switch {
		case b.right > skin:
			partings.Add(b.chain)
		case b.right == skin:
			edge.Add(b.chain)
		}
	}
	return partings.String(), edge.String()
}

// far returns the path data of the partings on the far side as far as they lie behind
// hair: over the face they would be taken for lines of it.
func (s *scene) far(near []border) string {
	var hair region
	for _, b := range near {
		if b.right <= skin {
			hair.lines = append(hair.lines, b.points)
		}
	}
	var d path.Data
	for _, b := range s.borders(s.keys(false)) {
		if b.right <= skin {
			continue
		}
		var run []path.Point
		for _, p := range append(b.points, path.Point{X: -1}) { // the last is outside
			if hair.contains(p) {
				run = append(run, p)
				continue
			}
			if lengthOf(run) > shortest {
				d.Add(path.Fit(run, path.Fine))
			}
			run = nil
		}
	}
	return d.String()
}
