package course

import (
	"slices"

	"plait/internal/diag"
	"plait/internal/lesson"
)

// Kept is what one run of a process leaves to the next: a course as it was linked. Where
// nothing has changed but what lessons say under the headings that they had, all else stands
// where it stood. The zero Kept is ready; one serves one run at a time.
type Kept struct {
	course  *Course
	lessons []*lesson.Lesson    // all, in the order of their folders
	placed  bool                // each in its place, without a fault
	faults  [][]diag.Diagnostic // of what lessons name, in the order of the course's lessons and drafts
}

// Link is the function [Link] for what has changed since the run before.
func (k *Kept) Link(p Parts) (*Course, []diag.Diagnostic) {
	c := &Course{Settings: p.Settings, Ranges: p.Ranges, Words: p.Words, Pages: p.Pages, Papers: p.Papers}
	to := &linker{lessons: p.Lessons, Course: c}
	if p.Unlisted {
		*k = Kept{}
		return c, nil
	}
	old := Kept{course: &Course{}}
	if k.standsFor(p) {
		old = *k
	}
	if old.placed {
		to.replace(old)
	} else {
		to.place()
	}
	placed := len(to.found) == 0
	to.ranges()
	to.limits()
	to.stock()
	if c.texts = old.course.texts; c.texts == nil {
		to.goals()
	}
	lessons, before := c.all(), old.course.all()
	faults := make([][]diag.Diagnostic, len(lessons))
	for i, l := range lessons {
		if i < len(before) && before[i] == l {
			faults[i] = old.faults[i]
			to.found = append(to.found, faults[i]...)
			continue
		}
		from := len(to.found)
		to.rangesOf(l)
		to.linksOf(l.File, l.Doc)
		faults[i] = slices.Clone(to.found[from:])
	}
	for _, p := range c.Pages {
		to.linksOf(p.File, p.Doc)
	}
	to.papers()
	*k = Kept{c, p.Lessons, placed, faults}
	return c, to.found
}

// standsFor reports whether links of parts lead where they led, and lessons stand in the same
// places.
func (k *Kept) standsFor(p Parts) bool {
	c := k.course
	return c != nil && c.File == p.Settings.File && slices.Equal(c.Ranges, p.Ranges) &&
		slices.Equal(c.Pages, p.Pages) && slices.Equal(c.Papers, p.Papers) &&
		slices.EqualFunc(k.lessons, p.Lessons, func(a, b *lesson.Lesson) bool { return a == b || sameGoal(a, b) })
}

// sameGoal reports whether two lessons are the same to all that name them.
func sameGoal(a, b *lesson.Lesson) bool {
	return a.File.Name() == b.File.Name() && a.Name == b.Name && a.Draft == b.Draft &&
		a.Title.Span.Valid() == b.Title.Span.Valid() && slices.Equal(a.Doc.IDs(), b.Doc.IDs())
}

// replace puts lessons where they stood before.
func (k *linker) replace(old Kept) {
	now := map[*lesson.Lesson]*lesson.Lesson{}
	for i, l := range old.lessons {
		if l != k.lessons[i] {
			now[l] = k.lessons[i]
		}
	}
	renew := func(list []*lesson.Lesson) []*lesson.Lesson {
		list = slices.Clone(list)
		for i, l := range list {
			if l, changed := now[l]; changed {
				list[i] = l
			}
		}
		return list
	}
	for _, m := range old.course.Modules {
		k.Modules = append(k.Modules, &Module{m.Outline, renew(m.Lessons)})
	}
	k.Lessons, k.Drafts = renew(old.course.Lessons), renew(old.course.Drafts)
}
