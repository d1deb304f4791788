package cli

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"net"
	"path"
	"runtime/debug"
	"slices"
	"strings"
	"time"

	"plait/internal/artifact"
	"plait/internal/build"
	"plait/internal/diag"
	"plait/internal/page"
	"plait/internal/preview"
	"plait/internal/source"
	"plait/internal/watch"
)

type previewCommand struct {
	courseFlag
	Port uint16 `help:"Where the browser finds the course. Another number is taken if this one is in use; 0 takes any. If left out it is ${default}." default:"8642" placeholder:"N"`
}

// Help is what --help says beside the flags.
func (previewCommand) Help() string {
	return `Open the address it prints in a browser and leave both open while you write: each time
you save, the page follows. While the course has errors the page stays as it was and the
errors are shown over it, each with its file and line. Nothing is written to the course, and
only this computer can see the pages.`
}

// Run serves the course and builds it again after each change, until it is
// interrupted.
func (cmd previewCommand) Run(ctx context.Context, c console) error {
	ln, moved, err := preview.Listen(cmd.Port)
	if err != nil {
		return err
	}
	if moved {
		fmt.Fprintf(c.err, "port %d is in use by another program, so the preview has another\n", cmd.Port)
	}
	defer debug.SetGCPercent(debug.SetGCPercent(PreviewPercent))
	// Watching begins before the first build, so that nothing saved meanwhile is missed.
	watcher, err := watch.New(cmd.Course, notWatched)
	if err != nil {
		_ = ln.Close()
		return err
	}
	fmt.Fprintf(c.out, "preview at http://%s/ — stop with Ctrl-C\n", ln.Addr())
	p := &previewer{dir: cmd.Course, console: c, server: preview.New()}
	return p.run(ctx, ln, watcher)
}

// notWatched tells which parts of a course's folder no build reads: the pages it
// makes, and what other tools keep in bulk.
func notWatched(name string) bool {
	return name == "public" || path.Base(name) == "node_modules"
}

// previewer builds a course again and again.
type previewer struct {
	dir     string
	console console
	server  *preview.Server

	theme   *page.Theme // of the last build that came so far; nil when it is to be made anew
	layouts string      // the folder the theme is from
	lessons build.Kept
	drawn   page.Kept

	// The course whose site the server shows, and the one before, from whose folder
	// a request that began earlier may still read a picture.
	shown, before opened
}

// run serves and builds until the context is done or one of both cannot go on.
func (p *previewer) run(ctx context.Context, ln net.Listener, watcher *watch.Watcher) error {
	ctx, stop := context.WithCancel(ctx)
	batches := make(chan []string)
	ended := make(chan error, 2)
	go func() { ended <- p.server.Serve(ctx, ln) }()
	go func() { ended <- watcher.Run(ctx, batches) }()
	var changed []string
	for {
		p.build(ctx, changed)
		idle := time.AfterFunc(idleAfter, Tidy)
		select {
		case changed = <-batches:
			idle.Stop()
		case err := <-ended:
			idle.Stop()
			stop()
			err = errors.Join(err, <-ended)
			p.keep(opened{})
			p.keep(opened{})
			return err
		}
	}
}

// build reads the course, shows what comes of it and tells about it.
func (p *previewer) build(ctx context.Context, changed []string) {
	began := time.Now()
	if slices.ContainsFunc(changed, func(name string) bool { return within(name, p.layouts) }) {
		p.theme = nil
	}
	p.lessons.Forget(changed)
	p.drawn.Forget(changed)
	line := newProgress(p.console)
	course, err := readCourse(ctx, p.dir, build.Options{Live: preview.Script, Progress: line.show, Lazy: true, Kept: &p.lessons, Pages: &p.drawn})
	line.clear()
	if err != nil {
		p.complain(ctx, err)
		return
	}
	tree := p.pages(course.Result)
	p.server.Update(preview.Result{Tree: tree, Inputs: course.folder, Diagnostics: course.Diagnostics, Whole: hasScripts(course.folder, p.layouts)})
	if tree == nil {
		course.close()
	} else {
		p.keep(course)
	}
	if err := printDiagnostics(p.console.err, course.Diagnostics, p.console); err != nil {
		p.complain(ctx, err)
	}
	fmt.Fprintf(p.console.out, "%s%s; %s\n", whatChanged(changed), summary(course.Result), time.Since(began).Round(time.Millisecond))
}

// keep holds on to the course that is shown now, and lets go of the one before last.
func (p *previewer) keep(course opened) {
	p.before.close()
	p.before, p.shown = p.shown, course
}

// complain tells of what is wrong with the machine. It does not end the preview:
// the folder may be on its way back, and the watcher knows when it is gone for good.
func (p *previewer) complain(ctx context.Context, err error) {
	if ctx.Err() == nil {
		fmt.Fprintln(p.console.err, "plait:", err)
	}
}

// pages makes the site, nil for a course with errors. Pages that cannot be made are
// an error of the course too.
func (p *previewer) pages(r *build.Result) *artifact.Tree {
	if diag.HasErrors(r.Diagnostics) {
		return nil
	}
	tree, err := p.pagesWithTheme(r)
	if err != nil {
		r.Diagnostics = append(r.Diagnostics, pagesFault(r, err))
	}
	return tree
}

// pagesWithTheme makes the site with the theme of the last build where it is still
// the right one: to make it takes longer than all the rest of a small course.
func (p *previewer) pagesWithTheme(r *build.Result) (*artifact.Tree, error) {
	if own := r.Course.Layouts.Value; p.theme == nil || p.layouts != own {
		theme, err := r.Theme()
		p.theme, p.layouts = theme, own
		if err != nil {
			return nil, err
		}
	}
	return r.PagesWith(p.theme)
}

// pagesFault says why pages could not be made of a course without errors: a layout
// of its own, or a picture, cannot be read as what it should be.
func pagesFault(r *build.Result, err error) diag.Diagnostic {
	at := source.Span{}
	if errors.Is(err, build.ErrLayouts) {
		at = r.Course.Layouts.Span
	}
	return diag.Errorf("text/unreadable", at, "the pages could not be made: %v", err).
		WithHelp("mend the file that is named, and save it")
}

// hasScripts reports whether layouts of the course's own bring scripts. Nobody knows whether
// these can do with new elements on a page that is open.
func hasScripts(files fs.FS, layouts string) bool {
	if layouts == "" {
		return false
	}
	list, err := fs.ReadDir(files, path.Join(layouts, "scripts"))
	return len(list) > 0 || err != nil && !errors.Is(err, fs.ErrNotExist)
}

// within reports whether a path is a folder or lies in it.
func within(name, folder string) bool {
	return folder != "" && (folder == "." || name == folder || strings.HasPrefix(name, folder+"/"))
}

// whatChanged begins the line about a build with its reason; the first has none.
func whatChanged(names []string) string {
	switch len(names) {
	case 0:
		return ""
	case 1:
		return names[0] + " changed: "
	}
	return fmt.Sprintf("%s and %d more changed: ", names[0], len(names)-1)
}
