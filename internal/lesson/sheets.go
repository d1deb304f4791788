package lesson

import (
	"io/fs"
	"path"
	"strings"

	"plait/internal/diag"
	"plait/internal/markdown"
	"plait/internal/sheet"
	"plait/internal/source"
	"plait/internal/yamlpos"
)

// Drawing is a place in the text where a head sheet is shown.
type Drawing struct {
	Image *markdown.Image
	Sheet *sheet.Sheet
	Views []source.Stated[sheet.View] // at least one
}

// Sheet returns the head sheet of a name.
func (l *Lesson) Sheet(name string) (*sheet.Sheet, bool) {
	for _, s := range l.Sheets {
		if s.Name == name {
			return s, true
		}
	}
	return nil, false
}

// Drawing returns what a picture of the text shows of a head sheet; ok is false for
// an ordinary picture.
func (l *Lesson) Drawing(img *markdown.Image) (d *Drawing, ok bool) {
	for _, d := range l.Drawings {
		if d.Image == img {
			return d, true
		}
	}
	return nil, false
}

// IsSheet reports whether a picture's target is a head sheet.
func IsSheet(target string) bool { return strings.HasSuffix(target, sheet.Ending) }

// readSheets reads the head sheets in the lesson's folder. A folder that cannot be
// listed has been reported by whoever found it.
func (l *Lesson) readSheets(fsys fs.FS, r *yamlpos.Reader) {
	names, err := source.Files(fsys, l.Folder, sheet.Ending)
	if err != nil {
		r.Report(unreadable(l.Folder, err))
		return
	}
	for _, name := range names {
		file, fault := ReadText(fsys, path.Join(l.Folder, name))
		if fault != nil {
			r.Report(*fault)
			l.Sheets = append(l.Sheets, &sheet.Sheet{Name: strings.TrimSuffix(name, sheet.Ending), File: file, Broken: true})
			continue
		}
		s, faults := sheet.Read(file)
		r.Report(faults...)
		if f, twice := l.Formula(s.Name); twice {
			r.Report(diag.Errorf("head/name", s.Span(), "a formula of this lesson is called %q too", s.Name).
				WithNote(f.Name.Span, "the formula is here").WithHelp("give the file or the formula another name"))
		}
		l.Sheets = append(l.Sheets, s)
	}
}

// readDrawing reads a picture of a head sheet, whose title lists the views.
func (l *Lesson) readDrawing(img *markdown.Image, r *yamlpos.Reader) {
	s := l.sheetAt(img.Target, r)
	if s == nil {
		return
	}
	if !img.Alone {
		r.Report(diag.Errorf("text/picture", img.Target.Span, "a head sheet stands in the middle of a sentence").
			WithHelp("give it a paragraph of its own, with an empty line before and behind"))
	}
	d := &Drawing{Image: img, Sheet: s, Views: s.Draw.Views}
	if img.Title.Value != "" {
		d.Views = nil
		for _, t := range img.Title.Split(",") {
			if v, ok := sheet.ReadView(r, t); ok {
				d.Views = append(d.Views, v)
			}
		}
	}
	if len(d.Views) == 0 {
		for _, v := range sheet.UsualViews() {
			d.Views = append(d.Views, source.Stated[sheet.View]{Value: v, Span: img.Target.Span})
		}
	}
	if !s.Broken && len(s.Cuts) == 0 {
		for _, v := range d.Views {
			if v.Value.OfCut() {
				r.Report(diag.Errorf("head/view", v.Span, "%q shows a cut, and the sheet %s has none", v.Value, s.Name).
					WithHelp("show the sections, as in left, back, or add cut: to the sheet"))
			}
		}
	}
	l.Drawings = append(l.Drawings, d)
}

// sheetAt returns the sheet that a picture names.
func (l *Lesson) sheetAt(target source.Text, r *yamlpos.Reader) *sheet.Sheet {
	name := path.Join(l.Folder, target.Value)
	var files []string
	for _, s := range l.Sheets {
		if s.File.Name() == name {
			return s
		}
		files = append(files, path.Base(s.File.Name()))
	}
	help := "add the file to the folder of the lesson, or mend its name"
	if near := diag.DidYouMean(target.Value, files); near != "" {
		help = "did you mean " + near + "?"
	}
	r.Report(diag.Errorf("text/picture", target.Span, "this lesson has no head sheet %q", target.Value).WithHelp("%s", help))
	return nil
}
