package page

import (
	"cmp"
	"html/template"
	"net/url"
	"slices"
	"strings"

	"plait/internal/asset"
	"plait/internal/course"
)

// Standing pages with a place of their own in the menu.
const (
	safetyPage = "safety"
	aboutPage  = "about"
)

// newSite gathers what all pages share.
func (b *builder) newSite(icon asset.File, live string) *Site {
	c := b.course
	return &Site{
		Title:    c.Title.Value,
		ID:       c.ID(),
		Language: cmp.Or(c.Language.Value, "en"),
		Edition:  c.Edition.Value,
		Law:      c.Limits().Place,
		Menu:     b.menu(),
		Icon:     icon.Path,
		Live:     live,
	}
}

func (b *builder) menu() []Link {
	menu := []Link{{Text: "Lessons", Path: "index.html"}, {Text: reviseTitle, Path: revisePage}}
	if len(b.course.Words) > 0 {
		menu = append(menu, Link{Text: "Word list", Path: "words.html"})
	}
	for _, page := range []Link{{Text: "Safety", Path: safetyPage}, {Text: "About", Path: aboutPage}} {
		if p := b.page(page.Path); p != nil {
			menu = append(menu, Link{Text: page.Text, Path: standingPath(p)})
		}
	}
	return append(menu, Link{Text: "Find", Path: "find.html"})
}

// page returns the standing page of a name, nil for none.
func (b *builder) page(name string) *course.Page {
	i := slices.IndexFunc(b.course.Pages, func(p *course.Page) bool { return p.Name == name })
	if i < 0 {
		return nil
	}
	return b.course.Pages[i]
}

// markCurrent marks the link to a page within links that were rendered once for
// many pages.
func markCurrent(links, page string) string {
	link := `href="` + page + `"`
	return strings.Replace(links, "<a "+link, `<a aria-current="page" `+link, 1)
}

// standing makes a page of prose.
func (b *builder) standing(out []byte, p *course.Page) ([]byte, error) {
	at := len(b.course.Lessons) + slices.Index(b.course.Pages, p)
	hooks := b.hooks(p.File, course.PagesFolder, "", b.pictures[at])
	v := StandingView{
		Frame: b.frame(standingPath(p), "standing", p.Title.Value, p.Summary.Value),
		Lead:  p.Summary.Value,
		Body:  template.HTML(p.Doc.HTML(hooks)),
	}
	for _, s := range p.Doc.Sections {
		v.Contents = append(v.Contents, Link{Text: s.Title.Value, Path: "#" + s.ID})
	}
	return b.templates.page(out, "standing", v)
}

// missing makes the page for addresses that lead nowhere. A server shows it at any
// depth, so where the address of the course is known its links begin there.
func (b *builder) missing(out []byte) ([]byte, error) {
	frame := b.frame("404.html", "missing", "This page is not here", "")
	if address, err := url.Parse(b.course.Address.Value); err == nil && address.Host != "" {
		frame.Root = strings.TrimSuffix(address.Path, "/") + "/"
		frame.Style, frame.Script = b.styles[usualSet].Path, b.scripts[usualSet].Path
		chrome, err := b.templates.chrome(frame)
		if err != nil {
			return nil, err
		}
		frame.Chrome = chrome
	}
	return b.templates.page(out, "missing", MissingView{frame})
}
