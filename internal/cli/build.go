package cli

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"plait/internal/build"
	"plait/internal/diag"
	"plait/internal/disk"
)

type buildCommand struct {
	courseFlag
	Out string `help:"Where the pages go. If left out it is the folder public of the course." type:"path" placeholder:"DIR"`
}

// Help is what --help says beside the flags.
func (buildCommand) Help() string {
	return `Nothing is written while the course has an error. Pages that did not change are left
alone, and only files that plait itself has made are ever removed. The pages open from the
folder: no server and no network is needed.`
}

// Run checks the course and writes its pages.
func (cmd buildCommand) Run(ctx context.Context, c console) error {
	began := time.Now()
	out := cmd.Out
	if out == "" {
		out = filepath.Join(cmd.Course, "public")
	}
	memory := recallBuild(cmd.Course, out, c)
	if last, ok := memory.known(); ok {
		fmt.Fprint(c.err, last.Found)
		sayBuilt(c, last.Summary, disk.Report{Unchanged: last.Files}, began, out)
		return nil
	}
	defer makeRoom(cmd.Course)()
	memory.look()
	line := newProgress(c)
	result, err := readCourse(ctx, cmd.Course, build.Options{Progress: line.show, Lazy: true, Pages: memory.left()})
	line.clear()
	if err != nil {
		return err
	}
	defer result.close()
	var found strings.Builder
	if err := printDiagnostics(&found, result.Diagnostics, c); err != nil {
		return err
	}
	fmt.Fprint(c.err, found.String())
	if diag.HasErrors(result.Diagnostics) {
		fmt.Fprintf(c.err, "%s; nothing was written\n", summary(result.Result))
		return errCourse
	}
	tree, err := result.Pages()
	if err != nil {
		return err
	}
	report, err := disk.Write(tree, result.folder, out, disk.Options{Course: cmd.Course, Inputs: ownInputs(result.Course.Layouts.Value)})
	if err != nil {
		return err
	}
	memory.keep(began, report.Written+report.Unchanged, result.Course.Layouts.Value, found.String(), summary(result.Result))
	sayBuilt(c, summary(result.Result), report, began, out)
	return nil
}

// sayBuilt says what a build did.
func sayBuilt(c console, summary string, report disk.Report, began time.Time, out string) {
	fmt.Fprintf(c.out, "%s; %s written, %d unchanged, %d removed; %s\nopen %s\n", summary,
		counted(report.Written, "file"), report.Unchanged, report.Removed, time.Since(began).Round(time.Millisecond), shortPath(filepath.Join(out, "index.html")))
}

// ownInputs returns the folders a course reads beside the usual ones.
func ownInputs(layouts string) []string {
	if layouts == "" {
		return nil
	}
	return []string{layouts}
}

// shortPath returns a path as seen from here, where that is shorter.
func shortPath(path string) string {
	here, err := os.Getwd()
	if err != nil {
		return path
	}
	if rel, err := filepath.Rel(here, path); err == nil && len(rel) < len(path) {
		return rel
	}
	return path
}

// progress is one line on a terminal that says how far a build is. Short builds
// never show it.
type progress struct {
	mutex  sync.Mutex
	w      io.Writer // nil where there is no terminal
	began  time.Time
	last   time.Time
	showed bool
}

// How soon the line appears and how often it changes.
const (
	progressAfter = 300 * time.Millisecond
	progressEvery = 100 * time.Millisecond
)

func newProgress(c console) *progress {
	p := &progress{began: time.Now()}
	if c.terminal {
		p.w = c.err
	}
	return p
}

func (p *progress) show(n, of int) {
	p.mutex.Lock()
	defer p.mutex.Unlock()
	now := time.Now()
	if p.w == nil || now.Sub(p.began) < progressAfter || now.Sub(p.last) < progressEvery {
		return
	}
	p.last, p.showed = now, true
	fmt.Fprintf(p.w, "\r\x1b[Kreading lessons: %d of %d", n, of)
}

func (p *progress) clear() {
	p.mutex.Lock()
	defer p.mutex.Unlock()
	if p.showed {
		fmt.Fprint(p.w, "\r\x1b[K")
	}
}
