package cli

import (
	"context"
	"fmt"
	"slices"

	"plait/internal/build"
	"plait/internal/check"
	"plait/internal/diag"
	"plait/internal/disk"
	"plait/layouts"
)

type checkCommand struct {
	courseFlag
	As   string `help:"text for people, json for programs, sarif for editors." enum:"text,json,sarif" default:"text" placeholder:"text|json|sarif"`
	Mend bool   `help:"First apply the mends that need no judgement, such as the right grams, to the lessons."`
}

// Run prints what is wrong with the course, after mending what it may.
func (cmd checkCommand) Run(ctx context.Context, c console) error {
	if cmd.Mend {
		if err := mend(ctx, cmd.Course, c); err != nil {
			return err
		}
	}
	defer makeRoom(cmd.Course)()
	result, err := readCourse(ctx, cmd.Course, build.Options{Facts: true})
	if err != nil {
		return err
	}
	defer result.close()
	if err := cmd.print(c, result.Result); err != nil {
		return err
	}
	if diag.HasErrors(result.Diagnostics) {
		return errCourse
	}
	return nil
}

func (cmd checkCommand) print(c console, r *build.Result) error {
	switch cmd.As {
	case "json":
		return diag.WriteJSON(c.out, r.Diagnostics)
	case "sarif":
		return diag.WriteSARIF(c.out, r.Diagnostics, tool())
	}
	if err := printDiagnostics(c.out, r.Diagnostics, c); err != nil {
		return err
	}
	_, err := fmt.Fprintln(c.out, summary(r))
	return err
}

// tool describes plait and its rules for other tools.
func tool() diag.Tool {
	t := diag.Tool{Name: "plait", Version: version}
	for _, r := range check.Rules() {
		t.Rules = append(t.Rules, diag.ToolRule{ID: r.ID, Title: r.Title, Why: r.Why, Severity: r.Severity})
	}
	return t
}

// mendRounds bounds how often a course is mended anew: a mended ratio can show that
// a weight, right by the old one, is wrong.
const mendRounds = 4

// mend applies the mechanical mends of a course to its files until there are none
// left, and says which files it changed.
func mend(ctx context.Context, dir string, c console) error {
	var changed []string
	for range mendRounds {
		names, err := mendOnce(ctx, dir, c)
		if err != nil {
			return err
		}
		if len(names) == 0 {
			break
		}
		changed = append(changed, names...)
	}
	slices.Sort(changed)
	for _, name := range slices.Compact(changed) {
		fmt.Fprintln(c.err, "mended", name)
	}
	return nil
}

// mendOnce applies what the course's findings offer, each file whole. Where two mends
// contradict each other it applies none.
func mendOnce(ctx context.Context, dir string, c console) (changed []string, err error) {
	result, err := readCourse(ctx, dir, build.Options{Facts: true})
	if err != nil {
		return nil, err
	}
	defer result.close()
	mended, err := diag.Apply(result.Diagnostics)
	if err != nil {
		fmt.Fprintln(c.err, "plait: nothing was mended:", err)
		return nil, errCourse
	}
	for _, m := range mended {
		old, data := m.File.Encode(m.File.Text()), m.File.Encode(m.Text)
		if err := result.folder.Replace(m.File.Name(), old, data); err != nil {
			return nil, err
		}
		changed = append(changed, m.File.Name())
	}
	return changed, nil
}

// opened is a course that was read, with its folder still open.
type opened struct {
	*build.Result
	folder *disk.Folder
}

// close releases the folder, if there is one; what was written in it is written by
// then.
func (o opened) close() {
	if o.folder != nil {
		_ = o.folder.Close()
	}
}

// readCourse opens, reads and judges the course in a folder.
func readCourse(ctx context.Context, dir string, opts build.Options) (opened, error) {
	folder, err := disk.Open(dir)
	if err != nil {
		return opened{}, err
	}
	opts.Files, opts.Layouts = folder, layouts.FS
	result, err := build.Read(ctx, opts)
	if err != nil {
		_ = folder.Close()
		return opened{}, err
	}
	return opened{Result: result, folder: folder}, nil
}

// readSound reads a course for a command that needs it whole: errors are printed, and
// then it is refused.
func readSound(ctx context.Context, dir string, c console) (opened, error) {
	result, err := readCourse(ctx, dir, build.Options{Facts: true})
	if err != nil || !diag.HasErrors(result.Diagnostics) {
		return result, err
	}
	err = printDiagnostics(c.err, result.Diagnostics, c)
	result.close()
	if err == nil {
		err = errCourse
	}
	return opened{}, err
}

// summary says in one line what was read and found.
func summary(r *build.Result) string {
	s := counted(len(r.Course.Lessons), "lesson") + ", " + counted(len(r.Derived.Formulas), "formula")
	drafts := 0
	for _, l := range r.Course.Drafts {
		if l.Draft {
			drafts++
		}
	}
	if drafts > 0 {
		s += ", " + counted(drafts, "draft")
	}
	for _, severity := range []diag.Severity{diag.Error, diag.Warning, diag.Note} {
		if n := diag.Count(r.Diagnostics, severity); n > 0 || severity != diag.Note {
			s += ", " + counted(n, severity.String())
		}
	}
	return s
}
