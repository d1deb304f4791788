package page

import (
	"slices"

	"plait/internal/care"
	"plait/internal/lesson"
)

// care gathers the cautions of a lesson; nil where it calls for none.
func (b *builder) care(l *lesson.Lesson) *CareView {
	uses := l.CallsFor()
	v := &CareView{Title: "Before you begin"}
	if slices.Contains(uses, care.Colour) {
		v.Title = "Before any colour"
	}
	for _, c := range care.For(uses...) {
		v.Items = append(v.Items, CareItem{Lead: c.Lead, Text: c.Text})
	}
	if len(v.Items) == 0 {
		return nil
	}
	if p := b.page(safetyPage); p != nil {
		v.More = &Link{Text: "More on safety", Path: "../" + standingPath(p)}
	}
	return v
}
