package page

import (
	"cmp"
	"encoding/json"
	"fmt"
	"html/template"
	"net/url"
	"path"
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"plait/internal/asset"
	"plait/internal/course"
	"plait/internal/lesson"
)

// Standing pages with a place of their own in the menu.
const (
	safetyPage = "safety"
	aboutPage  = "about"
)

// newSite gathers what all pages share.
func (b *builder) newSite(bundle *asset.Bundle, live string) *Site {
	c := b.course
	return &Site{
		Title:    c.Title.Value,
		ID:       siteID(c),
		Language: cmp.Or(c.Language.Value, "en"),
		Edition:  c.Edition.Value,
		Law:      country(c.Law.Value),
		Menu:     b.menu(),
		Icon:     bundle.Icon.Path,
		Style:    b.style.Path,
		Script:   bundle.Script.Path,
		Live:     live,
		Policy:   policy(live),
	}
}

func (b *builder) menu() []Link {
	menu := []Link{{Text: "Lessons", Path: "index.html"}}
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

// siteID tells the courses of one device apart. Pages opened from folders may all
// share one store.
func siteID(c *course.Course) string {
	return slug(cmp.Or(c.Address.Value, c.Title.Value))
}

// slug keeps the letters and digits of a text, with hyphens between words.
func slug(s string) string {
	words := strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	return strings.Join(words, "-")
}

// country words the law a course states; a code that is not known stands as it is.
func country(code string) string {
	switch code {
	case "GB", "UK":
		return "the United Kingdom"
	case "EU":
		return "the European Union"
	case "IE":
		return "Ireland"
	case "US":
		return "the United States"
	}
	return code
}

// markCurrent marks the link to a page within links that were rendered once for
// many pages.
func markCurrent(links, page string) string {
	link := `href="` + page + `"`
	return strings.Replace(links, "<a "+link, `<a aria-current="page" `+link, 1)
}

// home makes the first page.
func (b *builder) home() ([]byte, error) {
	c := b.course
	v := HomeView{
		Frame: b.frame("index.html", "home", c.Title.Value, ""),
		Plait: plait(),
		Facts: b.courseFacts(),
	}
	if len(c.Lessons) > 0 {
		v.First = &Link{Text: c.Lessons[0].Title.Value, Path: lessonPath(c.Lessons[0])}
	}
	for i, m := range c.Modules {
		v.Modules = append(v.Modules, ModuleRow{
			ID:      "module_" + m.Name.Value,
			Number:  i + 1,
			Title:   m.Title.Value,
			Summary: m.Summary.Value,
			Path:    modulePath(m),
			Lessons: b.rows(m, ""),
		})
	}
	for _, p := range c.Pages {
		v.Pages = append(v.Pages, Link{Text: p.Title.Value, Path: standingPath(p)})
	}
	return b.templates.page("home", v)
}

func (b *builder) courseFacts() []Fact {
	bowls := 0
	for _, l := range b.course.Lessons {
		bowls += len(l.Formulas)
	}
	facts := []Fact{count(len(b.course.Modules), "module"), count(len(b.course.Lessons), "lesson")}
	if bowls > 0 {
		facts = append(facts, count(bowls, "bowl"))
	}
	return facts
}

// module makes the page of a module.
func (b *builder) module(i int, m *course.Module) ([]byte, error) {
	modules := b.course.Modules
	v := ModuleView{
		Frame:   b.frame(modulePath(m), "module", m.Title.Value, m.Summary.Value),
		Number:  i + 1,
		Of:      len(modules),
		Lead:    m.Summary.Value,
		Facts:   []Fact{count(len(m.Lessons), "lesson")},
		Lessons: b.rows(m, "../"),
	}
	if i > 0 {
		v.Previous = &Link{Before: "Module before", Text: modules[i-1].Title.Value, Path: path.Base(modulePath(modules[i-1]))}
	}
	if i+1 < len(modules) {
		v.Next = &Link{Before: "Next module", Text: modules[i+1].Title.Value, Path: path.Base(modulePath(modules[i+1]))}
	}
	return b.templates.page("module", v)
}

// rows lists the lessons of a module for a page that far from the root.
func (b *builder) rows(m *course.Module, root string) []LessonRow {
	rows := make([]LessonRow, len(m.Lessons))
	for i, l := range m.Lessons {
		rows[i] = LessonRow{
			Title:   l.Title.Value,
			Summary: l.Summary.Value,
			Path:    root + lessonPath(l),
		}
		for _, f := range b.lessonFacts(l) {
			rows[i].Facts = append(rows[i].Facts, f.Value+" "+f.Text)
		}
		for _, f := range l.Formulas {
			if d := b.derived.Of(f); d.OK && d.Range != nil {
				rows[i].Stripe = stripe(d.Bowl, d.Range)
				break
			}
		}
	}
	return rows
}

// withinRows lists the lessons of a module for the pages of its lessons.
func (b *builder) withinRows(m *course.Module) []LessonRow {
	rows := make([]LessonRow, len(m.Lessons))
	for i, l := range m.Lessons {
		rows[i] = LessonRow{Title: l.Title.Value, Path: path.Base(lessonPath(l))}
	}
	return rows
}

// words makes the word list.
func (b *builder) words() ([]byte, error) {
	v := WordsView{Frame: b.frame("words.html", "words", "Word list", "What the words of this course mean.")}
	list := slices.Clone(b.course.Words)
	slices.SortStableFunc(list, func(x, y course.Word) int { return strings.Compare(sortKey(x.Term.Value), sortKey(y.Term.Value)) })
	for _, w := range list {
		letter := initial(w.Term.Value)
		if n := len(v.Letters); n == 0 || v.Letters[n-1].Letter != letter {
			v.Letters = append(v.Letters, LetterView{ID: fmt.Sprintf("letter_%d", n+1), Letter: letter})
		}
		last := &v.Letters[len(v.Letters)-1]
		word := WordView{ID: wordID(w.Term.Value), Term: w.Term.Value, Meaning: w.Meaning.Value}
		for _, see := range w.See {
			word.See = append(word.See, Link{Text: see.Value, Path: "#" + wordID(see.Value)})
		}
		last.Words = append(last.Words, word)
	}
	return b.templates.page("words", v)
}

// wordID is the id of a word in the word list. Ids of headings have no low lines,
// so the ids of our own that do never meet them.
func wordID(term string) string { return "word_" + strings.ReplaceAll(term, " ", "_") }

// sortKey sorts without regard to case and accents.
func sortKey(s string) string {
	return strings.ToLower(strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return r
	}, norm.NFD.String(s)))
}

// initial is the letter a word is listed under; words that begin with none stand
// under a sign of their own.
func initial(s string) string {
	for _, r := range sortKey(s) {
		if unicode.IsLetter(r) {
			return string(unicode.ToUpper(r))
		}
		break
	}
	return "0–9"
}

// standing makes a page of prose.
func (b *builder) standing(p *course.Page) ([]byte, error) {
	hooks := b.hooks(p.File, course.PagesFolder, "")
	v := StandingView{
		Frame: b.frame(standingPath(p), "standing", p.Title.Value, p.Summary.Value),
		Lead:  p.Summary.Value,
		Body:  template.HTML(p.Doc.HTML(hooks)),
	}
	for _, s := range p.Doc.Sections {
		v.Contents = append(v.Contents, Link{Text: s.Title.Value, Path: "#" + s.ID})
	}
	return b.templates.page("standing", v)
}

// find makes the page that finds things.
func (b *builder) find() ([]byte, error) {
	v := FindView{Frame: b.frame("find.html", "find", "Find", "Find a shade, a word or a step."), Index: b.index.Path}
	for _, m := range b.course.Modules {
		group := LinkGroup{Title: m.Title.Value}
		for _, l := range m.Lessons {
			group.Links = append(group.Links, Link{Text: l.Title.Value, Path: lessonPath(l)})
		}
		v.Groups = append(v.Groups, group)
	}
	pages := LinkGroup{Title: "Pages"}
	for _, p := range b.course.Pages {
		pages.Links = append(pages.Links, Link{Text: p.Title.Value, Path: standingPath(p)})
	}
	v.Groups = append(v.Groups, pages)
	return b.templates.page("find", v)
}

// findIndex is the script of the find page with its index: a list of title, path,
// where it stands, and further words.
func (b *builder) findIndex(script []byte) asset.File {
	var entries [][4]string
	for _, l := range b.course.Lessons {
		title := l.Title.Value
		entries = append(entries, [4]string{title, lessonPath(l), "Lesson in " + b.places[l].module.Title.Value, l.Summary.Value})
		for _, s := range l.Steps {
			entries = append(entries, [4]string{s.Title.Value, lessonPath(l) + "#" + s.ID, title, b.stepWords(l, s)})
		}
	}
	for _, w := range b.course.Words {
		entries = append(entries, [4]string{w.Term.Value, "words.html#" + wordID(w.Term.Value), "Word list", w.Meaning.Value})
	}
	for _, p := range b.course.Pages {
		entries = append(entries, [4]string{p.Title.Value, standingPath(p), b.course.Title.Value, p.Summary.Value})
		for _, s := range p.Doc.Sections {
			entries = append(entries, [4]string{s.Title.Value, standingPath(p) + "#" + s.ID, p.Title.Value, ""})
		}
	}
	text, err := json.Marshal(entries)
	if err != nil {
		panic(err) // texts always encode
	}
	data := append(slices.Clip(script), "plaitFind.start("...)
	data = append(data, text...)
	data = append(data, ");\n"...)
	return asset.File{Path: asset.Name("find.js", data), Data: data}
}

// stepWords are the words a step is found by beside its title: its bowls, with
// their shades.
func (b *builder) stepWords(l *lesson.Lesson, s *lesson.Step) string {
	var words []string
	for _, f := range l.Formulas {
		if f.Step != s {
			continue
		}
		words = append(words, f.Name.Value, string(f.Kind.Value))
		for _, item := range f.Colour {
			words = append(words, item.Code.Value)
		}
	}
	return strings.Join(words, " ")
}

// missing makes the page for addresses that lead nowhere. A server shows it at any
// depth, so where the address of the course is known its links begin there.
func (b *builder) missing() ([]byte, error) {
	frame := b.frame("404.html", "missing", "This page is not here", "")
	if address, err := url.Parse(b.course.Address.Value); err == nil && address.Host != "" {
		frame.Root = strings.TrimSuffix(address.Path, "/") + "/"
		chrome, err := b.templates.chrome(b.site, frame.Root)
		if err != nil {
			return nil, err
		}
		frame.Chrome = chrome
	}
	return b.templates.page("missing", MissingView{frame})
}
