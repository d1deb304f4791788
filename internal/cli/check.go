package cli

import (
	"context"
	"fmt"

	"plait/internal/build"
	"plait/internal/diag"
	"plait/internal/disk"
	"plait/layouts"
)

type checkCommand struct {
	courseFlag
	As string `help:"How to print what was found: ${enum}." enum:"text,json" default:"text"`
}

// Run prints what is wrong with the course.
func (cmd checkCommand) Run(ctx context.Context, c console) error {
	result, err := readCourse(ctx, cmd.Course, build.Options{})
	if err != nil {
		return err
	}
	defer result.close()
	if cmd.As == "json" {
		err = diag.WriteJSON(c.out, result.Diagnostics)
	} else if err = printDiagnostics(c.out, result.Diagnostics, c); err == nil {
		_, err = fmt.Fprintln(c.out, summary(result.Result))
	}
	if err == nil && diag.HasErrors(result.Diagnostics) {
		return errCourse
	}
	return err
}

// opened is a course that was read, with its folder still open.
type opened struct {
	*build.Result
	folder *disk.Folder
}

func (o opened) close() { _ = o.folder.Close() } // it was only read from

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

// summary says in one line what was read and found.
func summary(r *build.Result) string {
	s := counted(len(r.Course.Lessons), "lesson") + ", " + counted(len(r.Derived.Formulas), "formula")
	if n := len(r.Course.Drafts); n > 0 {
		s += ", " + counted(n, "draft")
	}
	for _, severity := range []diag.Severity{diag.Error, diag.Warning, diag.Note} {
		if n := diag.Count(r.Diagnostics, severity); n > 0 || severity != diag.Note {
			s += ", " + counted(n, severity.String())
		}
	}
	return s
}
