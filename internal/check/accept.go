package check

import (
	"slices"

	"plait/internal/course"
	"plait/internal/diag"
	"plait/internal/lesson"
	"plait/internal/source"
)

// accept drops the warnings and notes that a lesson accepts with a reason, and
// reports acceptances that name no rule, an error or nothing that was found.
func accept(c *course.Course, found []diag.Diagnostic) []diag.Diagnostic {
	var extra []diag.Diagnostic
	for _, list := range [][]*lesson.Lesson{c.Lessons, c.Drafts} {
		for _, l := range list {
			for _, a := range l.Accept {
				var fault *diag.Diagnostic
				if found, fault = acceptOne(l, a, found); fault != nil {
					extra = append(extra, *fault)
				}
			}
		}
	}
	return append(found, extra...)
}

func acceptOne(l *lesson.Lesson, a lesson.Acceptance, found []diag.Diagnostic) ([]diag.Diagnostic, *diag.Diagnostic) {
	fail := func(at source.Span, help, format string, args ...any) *diag.Diagnostic {
		d := diag.Warningf("text/accept", at, format, args...).WithHelp("%s", help)
		return &d
	}
	if _, ok := Find(a.Rule.Value); !ok {
		help := "the rules are listed by `plait explain`"
		if near := diag.DidYouMean(a.Rule.Value, ids()); near != "" {
			help = "did you mean " + near + "?"
		}
		return found, fail(a.Rule.Span, help, "there is no rule %q", a.Rule.Value)
	}
	place, ok := placeOf(l, a)
	if !ok {
		return found, fail(a.At.Span, "at: names a formula of this lesson", "this lesson has no formula %q", a.At.Value)
	}
	kept := slices.DeleteFunc(slices.Clone(found), func(d diag.Diagnostic) bool {
		return d.Rule == a.Rule.Value && d.Severity != diag.Error && place.Contains(d.Span)
	})
	if len(kept) < len(found) {
		return kept, nil
	}
	if slices.ContainsFunc(found, func(d diag.Diagnostic) bool { return d.Rule == a.Rule.Value && place.Contains(d.Span) }) {
		return found, fail(a.Span, "an error has to be mended", "%s is an error here and cannot be accepted", a.Rule.Value)
	}
	return found, fail(a.Span, "delete it from accept", "%s is accepted here, but nothing breaks it", a.Rule.Value)
}

// placeOf returns the stretch of the lesson's text that an acceptance speaks of.
func placeOf(l *lesson.Lesson, a lesson.Acceptance) (source.Span, bool) {
	if a.At.Value == "" {
		return l.File.Whole(), true
	}
	f, ok := l.Formula(a.At.Value)
	if !ok {
		return source.Span{}, false
	}
	return f.Fence.Span.To(f.Fence.Body.Whole()), true
}

func ids() []string {
	out := make([]string, len(rules))
	for i, r := range rules {
		out[i] = r.ID
	}
	return out
}
