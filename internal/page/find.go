package page

import (
	"strings"

	"plait/internal/lesson"
)

// find makes the page that finds things.
func (b *builder) find(out []byte) ([]byte, error) {
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
	if b.hasOrder() {
		pages.Links = append(pages.Links, Link{Text: orderTitle, Path: orderPage})
	}
	if b.hasOutcomes() {
		pages.Links = append(pages.Links, Link{Text: outcomesTitle, Path: outcomesPage})
	}
	pages.Links = append(pages.Links, Link{Text: reviseTitle, Path: revisePage})
	pages.Links = append(pages.Links, Link{Text: rulesTitle, Path: rulesPage})
	v.Groups = append(v.Groups, pages)
	return b.templates.page(out, "find", v)
}

// found is what can be found: title, path, where it stands, and further words.
type found [4]string

// foundIn lists a lesson and its steps.
func (b *builder) foundIn(l *lesson.Lesson) []found {
	title := l.Title.Value
	entries := append(make([]found, 0, 1+len(l.Steps)), found{title, lessonPath(l), "Lesson in " + b.places[l].module.Title.Value, l.Summary.Value})
	for _, s := range l.Steps {
		entries = append(entries, found{s.Title.Value, lessonPath(l) + "#" + s.ID, title, b.stepWords(l, s)})
	}
	return entries
}

// foundBeside lists the words and the standing pages.
func (b *builder) foundBeside() []found {
	var entries []found
	for _, w := range b.course.Words {
		entries = append(entries, found{w.Term.Value, "words.html#" + wordID(w.Term.Value), "Word list", w.Meaning.Value})
	}
	for _, p := range b.course.Pages {
		entries = append(entries, found{p.Title.Value, standingPath(p), b.course.Title.Value, p.Summary.Value})
		for _, s := range p.Doc.Sections {
			entries = append(entries, found{s.Title.Value, standingPath(p) + "#" + s.ID, p.Title.Value, ""})
		}
	}
	return entries
}

// stepWords are the words a step is found by beside its title: its bowls, with
// their shades and what the range calls them.
func (b *builder) stepWords(l *lesson.Lesson, s *lesson.Step) string {
	var words []string
	for _, f := range l.Formulas {
		if f.Step != s {
			continue
		}
		words = append(words, f.Name.Value, string(f.Kind.Value))
		d, ok := b.computed(f)
		if !ok {
			continue
		}
		for _, p := range d.Bowl.Parts {
			words = append(words, p.Name, partName(p, d.RangeOf))
		}
	}
	return strings.Join(words, " ")
}
