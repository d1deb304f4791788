package page

import (
	"bytes"
	"fmt"
	"html/template"
	"io/fs"
	"strings"
	"sync"
)

// parts are the templates that pages share; kinds are the pages themselves, each
// of which defines the template "main".
var (
	parts = []string{"base", "head", "top", "foot", "plait", "facts", "rows", "neighbours", "within", "ladder", "care", "patterns", "bowl", "again", "clock", "film", "question", "heads"}
	kinds = []string{"home", "module", "lesson", "words", "standing", "find", "missing", "rules", "order", "paper", "sheet", "revise", "outcomes"}
)

// Templates holds the parsed templates of a course. It is safe for concurrent
// use.
type Templates struct {
	parts *template.Template
	kinds map[string]*template.Template
}

// ParseTemplates reads templates/NAME.html from layouts.
func ParseTemplates(layouts fs.FS) (*Templates, error) {
	shared := template.New("parts")
	for _, name := range parts {
		if err := parse(shared, layouts, name); err != nil {
			return nil, err
		}
	}
	set := &Templates{parts: shared, kinds: map[string]*template.Template{}}
	for _, name := range kinds {
		page, err := shared.Clone()
		if err != nil {
			return nil, fmt.Errorf("template %s: %w", name, err)
		}
		if err := parse(page, layouts, name); err != nil {
			return nil, err
		}
		set.kinds[name] = page
	}
	return set, nil
}

// parse adds the definitions of one file to a set.
func parse(set *template.Template, layouts fs.FS, name string) error {
	text, err := fs.ReadFile(layouts, "templates/"+name+".html")
	if err != nil {
		return err
	}
	if _, err := set.New(name + ".html").Parse(string(text)); err != nil {
		return fmt.Errorf("templates/%s.html: %w", name, err)
	}
	return nil
}

// scratch lends buffers to write pages into. What is kept of a page is a copy of just
// its size: a buffer that grew with it has half of its room to spare, and all pages of
// a course are held at once.
var scratch = sync.Pool{New: func() any { return new(bytes.Buffer) }}

// maxScratch is the largest buffer that is lent again, in bytes: only the few pages that
// list a whole course need more.
const maxScratch = 1 << 20

// executed runs a template of a set.
func executed(set *template.Template, name string, view any) ([]byte, error) {
	out := scratch.Get().(*bytes.Buffer)
	defer func() {
		if out.Cap() <= maxScratch {
			scratch.Put(out)
		}
	}()
	out.Reset()
	if err := set.ExecuteTemplate(out, name, view); err != nil {
		return nil, err
	}
	return bytes.Clone(out.Bytes()), nil
}

// page renders a whole page of one kind.
func (t *Templates) page(kind string, view any) ([]byte, error) {
	page, err := executed(t.kinds[kind], "base", view)
	if err != nil {
		return nil, fmt.Errorf("page %s: %w", kind, err)
	}
	return page, nil
}

// part renders a shared part by itself, to be set into pages.
func (t *Templates) part(name string, view any) (template.HTML, error) {
	html, err := executed(t.parts, name, view)
	if err != nil {
		return "", fmt.Errorf("part %s: %w", name, err)
	}
	return template.HTML(html), nil
}

// chrome renders what all pages of one folder and one set share.
func (t *Templates) chrome(view Frame) (*Chrome, error) {
	c := &Chrome{}
	for name, to := range map[string]*template.HTML{"head": &c.Head, "top": &c.Top, "foot": &c.Foot} {
		html, err := t.part(name, view)
		if err != nil {
			return nil, err
		}
		*to = html
	}
	return c, nil
}

// policy is the content security policy of a page: scripts, styles and pictures that lie
// beside the page and nothing else. Films come from the given sources, where there are
// any. A page of the live preview may also listen to the server that it came from.
func policy(live string, films ...string) string {
	connect := "'none'"
	if live != "" {
		connect = "'self'"
	}
	media := "'none'"
	if len(films) > 0 {
		media = strings.Join(films, " ")
	}
	return "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; media-src " + media +
		"; connect-src " + connect + "; base-uri 'none'; form-action 'none'"
}
