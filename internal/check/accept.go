package check

import (
	"slices"

	"plait/internal/course"
	"plait/internal/diag"
	"plait/internal/lesson"
	"plait/internal/source"
)

// Accepted is a finding that a lesson lets stand, with its reason.
type Accepted struct {
	diag.Diagnostic
	Because string
}

// accept parts what was found into what stays and what a lesson accepts with a
// reason. It reports acceptances that name no rule, an error or nothing that was
// found.
func accept(c *course.Course, found []diag.Diagnostic) (rest []diag.Diagnostic, accepted []Accepted) {
	var faults []diag.Diagnostic
	for _, l := range slices.Concat(c.Lessons, c.Drafts) {
		for _, a := range l.Accept {
			kept, let, fault := acceptOne(l, a, found)
			if fault != nil {
				faults = append(faults, *fault)
				continue
			}
			found, accepted = kept, append(accepted, let...)
		}
	}
	return append(found, faults...), accepted
}

func acceptOne(l *lesson.Lesson, a lesson.Acceptance, found []diag.Diagnostic) (kept []diag.Diagnostic, let []Accepted, fault *diag.Diagnostic) {
	fail := func(at source.Span, help, format string, args ...any) *diag.Diagnostic {
		d := diag.Warningf("text/accept", at, format, args...).WithHelp("%s", help)
		return &d
	}
	if _, ok := Find(a.Rule.Value); !ok {
		help := "the rules are listed by `plait explain`"
		if near := diag.DidYouMean(a.Rule.Value, ids()); near != "" {
			help = "did you mean " + near + "?"
		}
		return nil, nil, fail(a.Rule.Span, help, "there is no rule %q", a.Rule.Value)
	}
	places, ok := stretchesOf(l, a)
	if !ok {
		return nil, nil, fail(a.At.Span, "at: names a formula or a head sheet of this lesson", "this lesson has no formula and no head sheet %q", a.At.Value)
	}
	isError := false
	for _, d := range found {
		hit := d.Rule == a.Rule.Value && slices.ContainsFunc(places, func(at source.Span) bool { return at.Contains(d.Span) })
		if hit && d.Severity != diag.Error {
			let = append(let, Accepted{Diagnostic: d, Because: a.Because.Value})
			continue
		}
		isError = isError || hit
		kept = append(kept, d)
	}
	switch {
	case len(let) > 0:
		return kept, let, nil
	case isError:
		return nil, nil, fail(a.Span, "an error has to be mended", "%s is an error here and cannot be accepted", a.Rule.Value)
	}
	return nil, nil, fail(a.Span, "delete it from accept", "%s is accepted here, but nothing breaks it", a.Rule.Value)
}

// stretchesOf returns the stretches of the lesson's files that an acceptance speaks of.
func stretchesOf(l *lesson.Lesson, a lesson.Acceptance) (places []source.Span, ok bool) {
	if a.At.Value == "" {
		return wholeLesson(l), true
	}
	if f, ok := l.Formula(a.At.Value); ok {
		return []source.Span{f.Fence.Span.To(f.Fence.Body.Whole())}, true
	}
	if s, ok := l.Sheet(a.At.Value); ok {
		return []source.Span{s.File.Whole()}, true
	}
	return nil, false
}

// wholeLesson returns all of a lesson's text, head sheets and captions.
func wholeLesson(l *lesson.Lesson) []source.Span {
	places := []source.Span{l.File.Whole()}
	for _, s := range l.Sheets {
		places = append(places, s.File.Whole())
	}
	if l.Captions != nil {
		places = append(places, l.Captions.File.Whole())
	}
	return places
}

func ids() []string {
	out := make([]string, len(rules))
	for i, r := range rules {
		out[i] = r.ID
	}
	return out
}
