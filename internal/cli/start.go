package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"plait/internal/starter"
)

type startCommand struct {
	Dir string `arg:"" help:"The folder to make; it must be new or empty." type:"path"`
}

// Run writes the starter course into a new folder.
func (cmd startCommand) Run(c console) error {
	entries, err := os.ReadDir(cmd.Dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return useError{fmt.Errorf("cannot make a course in %s: %w", shortPath(cmd.Dir), err)}
	case len(entries) > 0:
		return useError{fmt.Errorf("%s is not empty; name a new folder, so that nothing of yours is written over", shortPath(cmd.Dir))}
	}
	if err := os.CopyFS(cmd.Dir, starter.Files()); err != nil {
		return fmt.Errorf("making the course: %w", err)
	}
	dir := shortPath(cmd.Dir)
	where, preview := dir, "plait preview --course "+dir
	if dir == "." {
		where, preview = "this folder", "plait preview"
	}
	fmt.Fprintf(c.out, "A course stands in %s. See it with\n\n  %s\n\nand change %s; the page follows.\n",
		where, preview, filepath.Join(dir, "lessons", "01-first-bowl", "lesson.md"))
	return nil
}
