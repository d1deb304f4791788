// Package build runs the phases of a build in their one order: read every file,
// link the course, recompute it, judge it, and make its pages in memory.
//
// [Read] ends with the judgement and is all that a check needs. [Result.Pages]
// goes on to the pages, and refuses to while the course has an error. Lessons are
// read side by side, each into its own slot, so the number of workers never shows
// in the result. Nothing here writes to a disk.
package build

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"sync/atomic"

	"plait/internal/artifact"
	"plait/internal/asset"
	"plait/internal/check"
	"plait/internal/course"
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/lesson"
	"plait/internal/page"
	"plait/internal/parallel"
)

// Options say how a course is built.
type Options struct {
	Files    fs.FS           // the course's folder
	Layouts  fs.FS           // plait's own templates, styles and scripts
	Live     string          // address of a script for all pages of a live preview
	Workers  int             // 0 for one per processor
	Progress func(n, of int) // told how many of the lessons are read; may be nil
	Facts    bool            // the course is only judged: no pages can be made of it, and nothing is kept
	Lazy     bool            // pages are made when they are asked for, as far as that is safe
	Kept     *Kept           // what goes from build to build; nil keeps nothing
	Pages    *page.Kept      // what pages keep; nil keeps nothing
}

// Result is a course that was read, computed and judged.
type Result struct {
	Course      *course.Course
	Derived     *derive.Derived
	Diagnostics []diag.Diagnostic // sorted
	Accepted    []check.Accepted  // what lessons let stand
	opts        Options
}

// ErrCourse is returned by [Result.Pages] and its parts for a course that has errors.
var ErrCourse = errors.New("the course has errors")

// Read reads and judges a course. The error is that of a cancelled context;
// everything about the author's text and files is in the diagnostics.
func Read(ctx context.Context, opts Options) (*Result, error) {
	if opts.Facts {
		opts.Kept = nil // what is kept may be asked for pages later
	}
	parts, found, err := read(ctx, opts)
	if err != nil {
		return nil, err
	}
	memory := opts.Kept
	if memory == nil {
		memory = &Kept{}
	}
	c, faults := memory.linked.Link(parts)
	found = append(found, faults...)
	d, faults := memory.derived.Run(c)
	found = append(found, faults...)
	judged, accepted := memory.judged.Run(c, d)
	found = diag.Sorted(append(found, judged...))
	return &Result{Course: c, Derived: d, Diagnostics: found, Accepted: accepted, opts: opts}, nil
}

func read(ctx context.Context, opts Options) (course.Parts, []diag.Diagnostic, error) {
	var p course.Parts
	settings, found := kept(opts.Kept, opts.Files, course.SettingsFile, func(files fs.FS, _ string) (course.Settings, []diag.Diagnostic) {
		return course.ReadSettings(files)
	})
	p.Settings = settings
	words, faults := kept(opts.Kept, opts.Files, course.WordsFile, func(files fs.FS, _ string) ([]course.Word, []diag.Diagnostic) {
		return course.ReadWords(files)
	})
	p.Words, found = words, append(found, faults...)
	list := func(folder string, files func(fs.FS) ([]string, error)) []string {
		names, err := opts.Kept.list(opts.Files, folder, files)
		if err != nil {
			p.Unlisted, found = true, append(found, course.Unlisted(folder, err))
		}
		return names
	}
	for _, name := range list(course.RangesFolder, course.RangeFiles) {
		r, faults := kept(opts.Kept, opts.Files, name, course.ReadRange)
		p.Ranges, found = append(p.Ranges, r), append(found, faults...)
	}
	for _, name := range list(course.PagesFolder, course.PageFiles) {
		page, faults := kept(opts.Kept, opts.Files, name, course.ReadPage)
		p.Pages, found = append(p.Pages, page), append(found, faults...)
	}
	for _, name := range list(course.PapersFolder, course.PaperFiles) {
		paper, faults := kept(opts.Kept, opts.Files, name, course.ReadPaper)
		p.Papers, found = append(p.Papers, paper), append(found, faults...)
	}
	lessons, faults, err := readLessons(ctx, opts, list(course.LessonsFolder, course.LessonFolders))
	p.Lessons = lessons
	return p, append(found, faults...), err
}

// readLessons reads the lessons in the given folders, several at a time.
func readLessons(ctx context.Context, opts Options, folders []string) ([]*lesson.Lesson, []diag.Diagnostic, error) {
	lessons := make([]*lesson.Lesson, len(folders))
	faults := make([][]diag.Diagnostic, len(folders))
	var done atomic.Int64
	read := lesson.Read
	if opts.Facts {
		read = lesson.ReadFacts
	}
	err := parallel.Each(opts.Workers, len(folders), func(_, i int) error {
		lessons[i], faults[i] = kept(opts.Kept, opts.Files, folders[i], read)
		if n := done.Add(1); opts.Progress != nil {
			opts.Progress(int(n), len(folders))
		}
		return ctx.Err()
	})
	if err != nil {
		return nil, nil, err
	}
	var found []diag.Diagnostic
	for _, f := range faults {
		found = append(found, f...)
	}
	return lessons, found, nil
}

// ErrFacts is returned by [Result.Pages] and its parts for a course that was read for
// its facts alone.
var ErrFacts = errors.New("the course was read without its texts")

// ErrLayouts is wrapped by the errors of [Result.Pages] for a course whose own
// templates, styles or scripts cannot be used.
var ErrLayouts = errors.New("the course's own layouts cannot be used")

// refused says why no pages can be made, nil if they can.
func (r *Result) refused() error {
	switch {
	case r.opts.Facts:
		return ErrFacts
	case diag.HasErrors(r.Diagnostics):
		return ErrCourse
	}
	return nil
}

// Pages makes the site of a course without errors.
func (r *Result) Pages() (*artifact.Tree, error) {
	theme, err := r.Theme()
	if err != nil {
		return nil, err
	}
	return r.PagesWith(theme)
}

// PagesWith is Pages with a theme that was kept from an earlier build. It must be
// of the same layouts.
func (r *Result) PagesWith(theme *page.Theme) (*artifact.Tree, error) {
	if err := r.refused(); err != nil {
		return nil, err
	}
	// Layouts of the course's own can fail. What is to be written is made first then; a preview
	// tries them, and shows a fault that is left in place of its page.
	own, live := r.Course.Layouts.Value != "", r.opts.Live != ""
	tree, err := page.Render(r.Course, r.Derived, page.Options{
		Theme: theme, Files: r.opts.Files, Found: r.Diagnostics, Accepted: r.Accepted, Live: r.opts.Live, Workers: r.opts.Workers,
		Lazy: r.opts.Lazy && (live || !own), Sample: own, Kept: r.opts.Pages,
	})
	if err != nil && own {
		return nil, fmt.Errorf("%w: %w", ErrLayouts, err)
	}
	return tree, err
}

// Theme makes the look of the pages of a course without errors: plait's own, with
// the course's files in place of those of the same name.
func (r *Result) Theme() (*page.Theme, error) {
	if err := r.refused(); err != nil {
		return nil, err
	}
	own := r.Course.Layouts.Value
	if own == "" {
		return page.NewTheme(r.opts.Layouts, r.opts.Pages)
	}
	sub, err := fs.Sub(r.opts.Files, own)
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrLayouts, err)
	}
	theme, err := page.NewTheme(asset.Overlay(sub, r.opts.Layouts), r.opts.Pages)
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrLayouts, err)
	}
	return theme, nil
}
