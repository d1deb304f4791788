package page

import (
	"fmt"
	"html/template"
	"math"
	"path"
	"slices"
	"strconv"
	"strings"

	"plait/internal/asset"
	"plait/internal/derive"
	"plait/internal/draw"
	"plait/internal/head"
	"plait/internal/lesson"
	"plait/internal/markdown"
	"plait/internal/mix"
	"plait/internal/sheet"
	"plait/internal/strand"
)

// sheetPath is the printable page of a lesson's head sheets.
func sheetPath(l *lesson.Lesson) string { return "sheets/" + l.Name + ".html" }

// hasSheets reports whether a lesson has a head sheet that can be shown.
func (b *builder) hasSheets(l *lesson.Lesson) bool {
	return slices.ContainsFunc(b.derived.Sheets(l), func(s *derive.Sheet) bool { return s.OK })
}

// sheetTitle is what a sheet is called: its title, else the name of its file.
func sheetTitle(s *derive.Sheet) string {
	if s.Title.Value != "" {
		return s.Title.Value
	}
	return bowlTitle(s.Name)
}

// sheetViews are the views that are shown of a sheet anywhere: those that it names and
// those of the text, each once.
func sheetViews(s *derive.Sheet) []sheet.View {
	var views []sheet.View
	add := func(v sheet.View) {
		if !slices.Contains(views, v) {
			views = append(views, v)
		}
	}
	for _, v := range s.Draw.Views {
		add(v.Value)
	}
	for _, d := range s.Lesson.Drawings {
		if d.Sheet == s.Sheet {
			for _, v := range d.Views {
				add(v.Value)
			}
		}
	}
	if len(views) == 0 {
		return sheet.UsualViews()
	}
	return views
}

// tappedViews are the views of a sheet on which a section can be tapped.
func tappedViews(s *derive.Sheet) []sheet.View {
	views := slices.DeleteFunc(sheetViews(s), func(v sheet.View) bool { return v.Show != sheet.ShowSections })
	if len(views) == 0 {
		return sheet.UsualViews()
	}
	return views
}

// headsToTap draws the sheet of a question for a place; none for other questions. id is
// that of the question.
func (b *builder) headsToTap(s *derive.Sheet, id string) []HeadDrawing {
	if s == nil {
		return nil
	}
	var heads []HeadDrawing
	for _, view := range tappedViews(s) {
		heads = append(heads, headDrawing(b.drawBlank(s), view, id))
	}
	return heads
}

// sectionTints gives the sections of a sheet the colours of their bowls, thinned. Where
// no bowl goes on any of them each has a tint of its own.
func sectionTints(s *derive.Sheet) []draw.Tint {
	tints := make([]draw.Tint, len(s.Sections))
	coloured := hasBowls(s)
	for i, section := range s.Sections {
		switch {
		case len(section.Bowls) > 0:
			t := bowlTint(section.Bowls[0])
			tints[i] = draw.Tint{Class: "wash " + t.Class(), Fill: t.Wash()}
		case coloured:
			tints[i] = draw.Plain
		default:
			tints[i] = draw.Tints[i%len(draw.Tints)]
		}
	}
	return tints
}

func hasBowls(s *derive.Sheet) bool {
	return slices.ContainsFunc(s.Sections, func(section derive.SheetSection) bool { return len(section.Bowls) > 0 })
}

// bowlTint is what stands for a bowl: its heaviest shade with a tone, which tells it
// from other bowls, else its heaviest shade.
func bowlTint(f *derive.Formula) asset.Tint {
	var best asset.Tint
	var heaviest, toned mix.Part
	for _, p := range f.Bowl.Parts {
		if p.Role != mix.ColourRole || f.Range == nil {
			continue
		}
		t := tint(p.Shade, f.RangeOf(p.Shade))
		switch {
		case t.Hue != 0 && p.Exact.Cmp(toned.Exact) > 0:
			best, toned = t, p
		case toned.Exact.IsZero() && p.Exact.Cmp(heaviest.Exact) > 0:
			best, heaviest = t, p
		}
	}
	return best
}

// figure writes a picture of the text that shows a head sheet. Its legend stands with
// the first one of the sheet on the page.
func (b *builder) figure(l *lesson.Lesson, img *markdown.Image) (string, error) {
	d, ok := l.Drawing(img)
	if !ok {
		return "", nil
	}
	s, ok := b.derived.SheetOf(l, d.Sheet)
	if !ok || !s.OK {
		return "", nil
	}
	at := slices.Index(l.Drawings, d)
	first := !slices.ContainsFunc(l.Drawings[:at], func(other *lesson.Drawing) bool { return other.Sheet == d.Sheet })
	v := HeadsView{ID: fmt.Sprintf("heads_%d", at+1), Sheet: s.Name, Title: img.Alt.Value}
	for _, view := range d.Views {
		v.Drawings = append(v.Drawings, headDrawing(b.draw(s), view.Value, v.ID))
	}
	if first {
		v.Legend = b.legend(s, "")
		v.Print = "../" + sheetPath(l) + "#" + b.sheetID(s)
	}
	html, err := b.templates.part("heads", v)
	return string(html), err
}

// sheetID is the place of a sheet on its page, by its number: the name of a file may
// hold what an id may not.
func (b *builder) sheetID(s *derive.Sheet) string {
	return fmt.Sprintf("sheet_%d", slices.Index(b.derived.Sheets(s.Lesson), s)+1)
}

// headDrawing is one view of a drawn sheet. within is the id of the figure it stands in.
func headDrawing(d *drawn, v sheet.View, within string) HeadDrawing {
	id := within + "_" + strings.ReplaceAll(v.String(), " ", "_")
	return HeadDrawing{Picture: template.HTML(d.picture(v, id)), Caption: capital(viewWords(v))}
}

// viewWords says what a view shows: left profile, lengths, seen from the back.
func viewWords(v sheet.View) string {
	from, _ := draw.ViewNamed(string(v.From))
	if v.Show == sheet.ShowSections {
		return from.Long()
	}
	return showWords[v.Show] + ", " + from.Long()
}

var showWords = map[sheet.Show]string{
	sheet.ShowLifted: "lifted for the cut", sheet.ShowLengths: "lengths", sheet.ShowShape: "the shape that falls",
}

// legend is the table beside the drawings of a sheet. toLesson is the way to the page
// of the lesson, on which the bowls are.
func (b *builder) legend(s *derive.Sheet, toLesson string) *LegendView {
	v := &LegendView{
		Whole: spaced(fmt.Sprintf("%.0f cm²", s.Area)), Assume: assumption(s), Coloured: hasBowls(s),
	}
	drawings := b.draw(s)
	for i, section := range s.Sections {
		row := LegendRow{
			Swatch: template.HTML(drawings.swatches[i]), Name: section.Name,
			Area: fmt.Sprintf("%.0f", section.Area), Share: spaced(section.Percent),
			ExactArea: fmt.Sprintf("%.1f", section.Area),
		}
		if !section.Product.IsZero() {
			row.Product, v.Products = grams(section.Product), true
		}
		if s.Cut != nil {
			row.Lengths, v.Cut = lengthsAfter(s.Cut.Lengths[i]), true
		}
		if section.Number > 0 {
			row.Number = fmt.Sprint(section.Number)
		}
		for _, f := range section.Bowls {
			row.Bowls = append(row.Bowls, BowlLink{
				ID: bowlID(f), Text: bowlTitle(f.Name.Value), Path: toLesson + "#" + bowlID(f), Said: bowlSaid(f),
				Weight: portion(f, section.Name),
			})
		}
		v.Rows = append(v.Rows, row)
	}
	slices.SortStableFunc(v.Rows, func(a, b LegendRow) int { return cmpNumbers(a.Number, b.Number) })
	return v
}

// portion is what a section takes of a bowl whose amount is shared out by areas, ""
// for any other bowl.
func portion(f *derive.Formula, section string) string {
	if f.Shared == nil {
		return ""
	}
	for _, p := range f.Shared.Parts {
		if p.Section == section {
			return grams(p.Mixed)
		}
	}
	return ""
}

// lengthsAfter says how long the hair of a section is after the cut: "4–9.5 cm".
func lengthsAfter(l strand.Lengths) string {
	if l.Longest == 0 {
		return ""
	}
	half := func(cm float64) string { return strconv.FormatFloat(math.Round(2*cm)/2, 'f', -1, 64) }
	shortest, longest := half(l.Shortest), half(l.Longest)
	if shortest == longest {
		return spaced(longest + " cm")
	}
	return spaced(shortest + "–" + longest + " cm")
}

// cmpNumbers orders numbers as they are written, those that are not there last.
func cmpNumbers(a, b string) int {
	switch {
	case a == b:
		return 0
	case a == "":
		return 1
	case b == "":
		return -1
	case len(a) != len(b):
		return len(a) - len(b)
	}
	return strings.Compare(a, b)
}

// assumption says which head the areas are of.
func assumption(s *derive.Sheet) string {
	switch {
	case s.Head.Ball:
		return "Areas on a ball of 9 cm with hair on its upper half."
	case s.Head.Circumference > 0:
		return fmt.Sprintf("Areas on a head of %g cm round. Heads differ: the shares hold better than the areas.", s.Head.Circumference)
	}
	return fmt.Sprintf("Areas on the reference head, %g cm round. Heads differ: the shares hold better than the areas.", head.ReferenceCircumference)
}

// sheet makes the page of a lesson's head sheets, to be printed.
func (b *builder) sheet(out []byte, l *lesson.Lesson) ([]byte, error) {
	v := SheetView{
		Frame:  b.frame(sheetPath(l), "sheet", "Head sheet: "+l.Title.Value, "Partings, sections and bowls of "+l.Title.Value+", to be printed."),
		Lesson: Link{Text: l.Title.Value, Path: "../" + lessonPath(l)},
		Work:   "../" + b.work.Path,
	}
	var err error
	if v.Codes, err = b.codes(l); err != nil {
		return nil, err
	}
	for _, s := range b.derived.Sheets(l) {
		if !s.OK {
			continue
		}
		heads := HeadsView{ID: b.sheetID(s), Sheet: s.Name, Title: sheetTitle(s), Legend: b.legend(s, "../lessons/"+path.Base(lessonPath(l)))}
		heads.Legend.Formulas = true
		for _, view := range sheetViews(s) {
			heads.Drawings = append(heads.Drawings, headDrawing(b.draw(s), view, heads.ID))
		}
		html, err := b.templates.part("heads", heads)
		if err != nil {
			return nil, err
		}
		v.Sheets = append(v.Sheets, html)
	}
	return b.templates.page(out, "sheet", v)
}
