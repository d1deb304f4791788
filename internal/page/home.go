package page

import (
	"path"

	"plait/internal/course"
)

// home makes the first page.
func (b *builder) home(out []byte) ([]byte, error) {
	c := b.course
	v := HomeView{
		Frame: b.frame("index.html", "home", c.Title.Value, c.Summary.Value),
		Lead:  c.Summary.Value,
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
	if b.hasOrder() {
		v.Pages = append(v.Pages, Link{Text: orderTitle, Path: orderPage})
	}
	for _, p := range c.Papers {
		v.Pages = append(v.Pages, Link{Text: p.Title.Value, Path: paperPath(p.Name)})
	}
	if b.hasOutcomes() {
		v.Pages = append(v.Pages, Link{Text: outcomesTitle, Path: outcomesPage})
	}
	for _, p := range c.Pages {
		v.Pages = append(v.Pages, Link{Text: p.Title.Value, Path: standingPath(p)})
	}
	return b.templates.page(out, "home", v)
}

// bowls returns how many bowls the course has.
func (b *builder) bowls() int {
	n := 0
	for _, l := range b.course.Lessons {
		n += len(l.Formulas)
	}
	return n
}

func (b *builder) courseFacts() []Fact {
	facts := []Fact{count(len(b.course.Modules), "module"), count(len(b.course.Lessons), "lesson")}
	if bowls := b.bowls(); bowls > 0 {
		facts = append(facts, count(bowls, "bowl"))
	}
	return facts
}

// module makes the page of a module.
func (b *builder) module(out []byte, i int, m *course.Module) ([]byte, error) {
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
	return b.templates.page(out, "module", v)
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
			if d, ok := b.computed(f); ok {
				rows[i].Stripe = stripe(d.Bowl, d.RangeOf)
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
