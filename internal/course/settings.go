package course

import (
	"errors"
	"io/fs"
	"path"
	"regexp"
	"strings"
	"sync"

	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/law"
	"plait/internal/lesson"
	"plait/internal/measure"
	"plait/internal/source"
	"plait/internal/yamlpos"
)

var settingsKeys = []string{
	"title", "summary", "language", "edition", "address", "law", "scale", "range", "modules", "house", "class", "stock", "layouts",
}

// isName reports whether a text can stand in a path and an address: words of small letters and
// digits with a hyphen between two.
func isName(s string) bool {
	for word := range strings.SplitSeq(s, "-") {
		if word == "" || strings.ContainsFunc(word, func(r rune) bool { return (r < 'a' || r > 'z') && (r < '0' || r > '9') }) {
			return false
		}
	}
	return true
}

// ReadSettings reads course.yaml.
func ReadSettings(fsys fs.FS) (Settings, []diag.Diagnostic) {
	s := Settings{Scale: measure.Grams(exact.Of(1, 10))}
	file, fault := lesson.ReadText(fsys, SettingsFile)
	s.File = file
	if fault != nil {
		if fault.Rule == "text/missing" {
			*fault = fault.WithHelp("a course folder holds content/course.yaml; `plait start DIR` makes a new course")
		}
		s.partial = true
		return s, []diag.Diagnostic{*fault}
	}
	node, faults := yamlpos.Parse(file.Fragment())
	r := yamlpos.NewReader(faults...)
	f := r.Fields(node, "course.yaml", settingsKeys...)
	s.Title, _ = f.Need("title")
	s.Summary, _ = f.Text("summary")
	s.Language, _ = f.Need("language")
	s.Edition, _ = f.Text("edition")
	s.Address, _ = f.Text("address")
	s.readLaw(f, r)
	s.Range, _ = f.Text("range")
	s.Layouts, _ = f.Text("layouts")
	s.checkWords(r)
	s.checkLayouts(fsys, r)
	s.readScale(f, r)
	s.readHouse(f.Node("house"), r)
	s.readClass(f.Node("class"), r)
	if f.Has("stock") {
		s.readStock(f.Entries("stock"), r)
	}
	if f.Require("modules") {
		s.readModules(f.Nodes("modules"), r)
	}
	s.partial = diag.HasErrors(r.Diagnostics())
	return s, r.Diagnostics()
}

var languageForm = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*$`)
})

// checkWords checks values that have a form: language by BCP 47's plain shape, an
// address by its scheme.
func (s *Settings) checkWords(r *yamlpos.Reader) {
	if s.Language.Value != "" && !languageForm().MatchString(s.Language.Value) {
		r.Report(diag.Errorf("course/language", s.Language.Span, "%q is no language tag", s.Language.Value).
			WithHelp("write a tag such as en-GB, de or fr-CA"))
	}
	if s.Address.Value != "" && !addressForm().MatchString(s.Address.Value) {
		r.Report(diag.Errorf("course/address", s.Address.Span, "%q is not the address of a site", s.Address.Value).
			WithHelp("write it whole, as in https://example.org/course/"))
	}
}

// readLaw reads the country whose law holds. Of one whose law is not known nothing can be
// promised, so it is an error and not a course without a law.
func (s *Settings) readLaw(f *yamlpos.Fields, r *yamlpos.Reader) {
	t, ok := f.Text("law")
	if !ok {
		return
	}
	l, known := law.Of(t.Value)
	if !known {
		r.Report(diag.Errorf("course/law", t.Span, "plait knows no limits of the law in %q", t.Value).
			WithHelp("known are: %s\nleave law out, and the strictest of them holds; local law may be stricter still", strings.Join(law.Codes(), ", ")))
		return
	}
	s.Law, s.holds = t, l
}

// checkLayouts checks that the course's own templates lie in a folder of it.
func (s *Settings) checkLayouts(fsys fs.FS, r *yamlpos.Reader) {
	if s.Layouts.Value == "" {
		return
	}
	info, err := fs.Stat(fsys, s.Layouts.Value)
	if err == nil && info.IsDir() {
		return
	}
	r.Report(diag.Errorf("text/unreadable", s.Layouts.Span, "there is no folder %q in this course", s.Layouts.Value).
		WithHelp("name a folder inside the course, from its top, or leave layouts out to use plait's own"))
}

// Unlisted is the fault of a folder of the course whose files cannot be listed.
func Unlisted(folder string, err error) diag.Diagnostic {
	return diag.Errorf("text/unreadable", source.NewFile(folder, nil).Whole(), "cannot list the folder: %v", lesson.Reason(err)).
		WithHelp("it must be a folder inside the course; a link that leads out of the course is not followed")
}

var addressForm = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^https?://[^\s/?#"<>]+(/[^\s?#"<>]*)?$`) })

func (s *Settings) readScale(f *yamlpos.Fields, r *yamlpos.Reader) {
	t, ok := f.Text("scale")
	if !ok {
		return
	}
	m, err := measure.ParseMass(t.Value)
	if err == nil && (m.IsZero() || exact.Int(5).Less(m.Grams())) {
		r.Report(diag.Errorf("course/scale", t.Span, "no scale in a salon reads in steps of %s", m).
			WithHelp("write what the last digit of the scale stands for: 0.1 g or 1 g"))
		return
	}
	if err != nil {
		r.Report(diag.FromError("course/scale", t.Span, err))
		return
	}
	s.Scale = m
}

func (s *Settings) readModules(nodes []*yamlpos.Node, r *yamlpos.Reader) {
	first := map[string]source.Span{}
	for _, n := range nodes {
		f := r.Fields(n, "a module", "name", "title", "summary", "lessons")
		var m Outline
		m.Name, _ = f.Need("name")
		m.Title, _ = f.Need("title")
		m.Summary, _ = f.Text("summary")
		if f.Require("lessons") {
			m.Lessons = f.Texts("lessons")
		}
		if m.Name.Value == "" {
			continue
		}
		if !isName(m.Name.Value) {
			r.Report(diag.Errorf("course/name", m.Name.Span, "the module name %q cannot stand in an address", m.Name.Value).
				WithHelp("use small letters, digits and hyphens, as in on-the-head"))
			continue
		}
		if at, twice := first[m.Name.Value]; twice {
			r.Report(diag.Errorf("course/module-twice", m.Name.Span, "two modules are called %q", m.Name.Value).
				WithNote(at, "the first is here").WithHelp("give one of them another name"))
			continue
		}
		first[m.Name.Value] = m.Name.Span
		s.Outline = append(s.Outline, m)
	}
}

// LessonFolders returns the folders of the lessons, in order.
func LessonFolders(fsys fs.FS) ([]string, error) {
	entries, err := fs.ReadDir(fsys, LessonsFolder)
	if err != nil {
		return nil, ignoreMissing(err)
	}
	var folders []string
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), ".") && !strings.HasPrefix(e.Name(), "_") && isFolder(e) {
			folders = append(folders, path.Join(LessonsFolder, e.Name()))
		}
	}
	return folders, nil
}

// isFolder reports whether an entry is a folder or a link to anything: where a link
// leads is found out, and reported, when the lesson is read.
func isFolder(e fs.DirEntry) bool {
	return e.IsDir() || e.Type()&fs.ModeSymlink != 0
}

func ignoreMissing(err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}
