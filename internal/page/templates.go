package page

import (
	"fmt"
	"html/template"
	"io/fs"
	"strings"
	"sync"

	"plait/internal/compiled"
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
	parts *compiled.Set
	kinds map[string]*compiled.Set
}

// ParseTemplates reads templates/NAME.html from layouts.
func ParseTemplates(layouts fs.FS) (*Templates, error) {
	parts, kinds, err := parseAll(layouts)
	if err != nil {
		return nil, err
	}
	set := &Templates{parts: compiled.New(parts), kinds: map[string]*compiled.Set{}}
	for name, page := range kinds {
		set.kinds[name] = compiled.New(page)
	}
	return set, nil
}

// parseAll reads the templates as the library has them.
func parseAll(layouts fs.FS) (shared *template.Template, pages map[string]*template.Template, err error) {
	shared, pages = template.New("parts"), map[string]*template.Template{}
	for _, name := range parts {
		if err := parse(shared, layouts, name); err != nil {
			return nil, nil, err
		}
	}
	for _, name := range kinds {
		page, err := shared.Clone()
		if err != nil {
			return nil, nil, fmt.Errorf("template %s: %w", name, err)
		}
		if err := parse(page, layouts, name); err != nil {
			return nil, nil, err
		}
		pages[name] = page
	}
	return shared, pages, nil
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

// page appends a whole page of one kind to out.
func (t *Templates) page(out []byte, kind string, view any) ([]byte, error) {
	page, err := t.kinds[kind].Append(out, "base", view)
	if err != nil {
		return nil, fmt.Errorf("page %s: %w", kind, err)
	}
	return page, nil
}

// appendPart appends a shared part to out.
func (t *Templates) appendPart(out []byte, name string, view any) ([]byte, error) {
	html, err := t.parts.Append(out, name, view)
	if err != nil {
		return out, fmt.Errorf("part %s: %w", name, err)
	}
	return html, nil
}

// part renders a shared part by itself, to be set into pages.
func (t *Templates) part(name string, view any) (template.HTML, error) {
	memory := lent.Get().(*[]byte)
	defer lent.Put(memory)
	html, err := t.appendPart((*memory)[:0], name, view)
	*memory = html
	return template.HTML(html), err
}

// lent is memory that has grown to the size of a part already.
var lent = sync.Pool{New: func() any { return new([]byte) }}

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
