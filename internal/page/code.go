package page

import (
	"fmt"
	"html/template"
	"strings"

	"rsc.io/qr"

	"plait/internal/lesson"
)

// codes are the steps of a lesson's film as codes for a telephone; none where the
// course has no public address or the lesson no film.
func (b *builder) codes(l *lesson.Lesson) ([]CodeView, error) {
	if !l.Recording.Set() || b.course.Address.Value == "" {
		return nil, nil
	}
	var views []CodeView
	for _, c := range l.Chapters() {
		drawing, err := code(b.moment(l, c))
		if err != nil {
			return nil, fmt.Errorf("code of step %d of %s: %w", c.Number, l.Folder, err)
		}
		views = append(views, CodeView{Drawing: drawing, Time: clock(c.From), Title: c.Title.Value, Path: "../" + lessonPath(l) + "#" + c.ID})
	}
	return views, nil
}

// quiet is the empty border that a code needs, in modules (ISO/IEC 18004).
const quiet = 4

// code draws an address as a QR code: black on white in any light, so that it can be
// read from a dark screen too, one path for all its modules.
func code(address string) (template.HTML, error) {
	c, err := qr.Encode(address, qr.M)
	if err != nil {
		return "", err
	}
	var path strings.Builder
	for y := range c.Size {
		for x := 0; x < c.Size; x++ {
			run := x
			for run < c.Size && c.Black(run, y) {
				run++
			}
			if run > x {
				fmt.Fprintf(&path, "M%d %dh%dv1h-%dz", x+quiet, y+quiet, run-x, run-x)
				x = run
			}
		}
	}
	side := c.Size + 2*quiet
	return template.HTML(fmt.Sprintf(`<svg viewBox="0 0 %d %d" shape-rendering="crispEdges" aria-hidden="true"><rect width="%d" height="%d" fill="#fff"/><path d="%s"/></svg>`,
		side, side, side, side, path.String())), nil
}
