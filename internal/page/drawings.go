package page

import (
	"bytes"
	"fmt"
	"strings"
	"sync"

	"plait/internal/derive"
	"plait/internal/draw"
	"plait/internal/parallel"
	"plait/internal/sheet"
)

// drawn is a sheet with all its drawings.
type drawn struct {
	views    map[sheet.View][]byte // with idMark in place of the id
	swatches []string              // by the index of the section
}

// idMark stands where the id of a drawing is written. It is a character for private
// use, which no text of a course can hold a meaning for.
const idMark = "\uE000"

// picture returns the drawing of a view under an id of its own.
func (d *drawn) picture(v sheet.View, id string) string {
	return string(bytes.ReplaceAll(d.views[v], []byte(idMark), []byte(id)))
}

// draw returns a sheet with the drawings that its lesson and its page show.
func (b *builder) draw(s *derive.Sheet) *drawn {
	tints := sectionTints(s)
	views := sheetViews(s)
	key := fmt.Sprintf("%q %q %v %v", s.File.Text(), sheetTitle(s), views, tints)
	return b.memory.get(key, func() *drawn { return drawSheet(s, drawingOf(s, tints), views) })
}

// drawBlank returns the partings of a sheet and nothing that could answer a question:
// neither numbers nor arrows nor colours.
func (b *builder) drawBlank(s *derive.Sheet) *drawn {
	views := tappedViews(s)
	key := fmt.Sprintf("blank %q %v", s.File.Text(), views)
	return b.memory.get(key, func() *drawn {
		blank := draw.Sheet{Title: "Partings", Plan: s.Plan(), Hidden: s.Draw.Hidden, Plain: true, Silent: true}
		for range s.Sections {
			blank.Sections = append(blank.Sections, draw.Section{Tint: draw.Plain})
		}
		return drawSheet(s, blank, views)
	})
}

// drawSheet draws views of a sheet; d is how its sections are drawn.
func drawSheet(s *derive.Sheet, d draw.Sheet, views []sheet.View) *drawn {
	out := &drawn{views: map[sheet.View][]byte{}}
	sections := draw.New(d)
	for i := range s.Sections {
		out.swatches = append(out.swatches, string(sections.Swatch(i)))
	}
	cuts := sync.OnceValue(func() *draw.Cuts { return draw.NewCuts(sheetTitle(s), s.Fallen()) })
	pictures := make([][]byte, len(views))
	parallel.All(0, len(views), func(i int) {
		pictures[i] = drawView(sections, cuts, views[i])
	})
	for i, v := range views {
		out.views[v] = pictures[i]
	}
	return out
}

// drawView draws one view; a haircut is only made ready where one is shown.
func drawView(sections *draw.Drawings, cuts func() *draw.Cuts, v sheet.View) []byte {
	from, _ := draw.ViewNamed(string(v.From)) // the sides of sheets are the views of drawings
	switch v.Show {
	case sheet.ShowLifted:
		return cuts().Lifted(from, idMark)
	case sheet.ShowLengths:
		return cuts().Lengths(from, idMark)
	case sheet.ShowShape:
		return cuts().Shape(from, idMark)
	}
	return sections.Head(from, idMark)
}

// drawingOf is a sheet as it is drawn.
func drawingOf(s *derive.Sheet, tints []draw.Tint) draw.Sheet {
	d := draw.Sheet{Title: sheetTitle(s), Plan: s.Plan(), Hidden: s.Draw.Hidden, Plain: s.Draw.Plain}
	for i, section := range s.Sections {
		d.Sections = append(d.Sections, draw.Section{Number: section.Number, Tint: tints[i]})
	}
	for _, a := range s.Draw.Arrows {
		for i, section := range s.Sections {
			if strings.Contains(" "+section.Name+" ", " "+a.On.Value+" ") {
				d.Arrows = append(d.Arrows, draw.Arrow{Section: i, Run: draw.Run(a.Run.Value)})
			}
		}
	}
	return d
}
