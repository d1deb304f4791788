package course

import (
	"io/fs"
	"path"
	"strings"

	"plait/internal/diag"
	"plait/internal/lesson"
	"plait/internal/markdown"
	"plait/internal/yamlpos"
)

// PageFiles returns the Markdown files of the standing pages, in order.
func PageFiles(fsys fs.FS) ([]string, error) { return filesIn(fsys, PagesFolder, ".md") }

// filesIn lists the files of a folder with the given ending; a folder that is not
// there has none.
func filesIn(fsys fs.FS, folder, ending string) ([]string, error) {
	entries, err := fs.ReadDir(fsys, folder)
	if err != nil {
		return nil, ignoreMissing(err)
	}
	var names []string
	for _, e := range entries {
		if !e.IsDir() && strings.HasSuffix(e.Name(), ending) && !strings.HasPrefix(e.Name(), ".") {
			names = append(names, path.Join(folder, e.Name()))
		}
	}
	return names, nil
}

// ReadPage reads a standing page.
func ReadPage(fsys fs.FS, name string) (*Page, []diag.Diagnostic) {
	p := &Page{Name: strings.TrimSuffix(path.Base(name), ".md"), Doc: &markdown.Document{}}
	file, fault := lesson.ReadText(fsys, name)
	p.File = file
	if fault != nil {
		return p, []diag.Diagnostic{*fault}
	}
	header, body, fault := lesson.SplitHeader(file)
	if fault != nil {
		return p, []diag.Diagnostic{*fault}
	}
	node, faults := yamlpos.Parse(header)
	r := yamlpos.NewReader(faults...)
	f := r.Fields(node, "a page's header", "title", "summary")
	p.Title, _ = f.Need("title")
	p.Summary, _ = f.Text("summary")
	doc, faults := markdown.Parse(file, body, markdown.Options{})
	r.Report(faults...)
	p.Doc = doc
	for _, img := range doc.Images {
		name, small, fault := lesson.Picture(fsys, PagesFolder, img.Target)
		switch {
		case fault != nil:
			r.Report(*fault)
		case small != nil:
			if p.Small == nil {
				p.Small = map[string][]byte{}
			}
			p.Small[name] = small
		}
	}
	return p, r.Diagnostics()
}
