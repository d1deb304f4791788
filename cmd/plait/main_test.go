package main

import (
	"errors"
	"flag"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "write what the commands print into the scripts")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"plait": main})
}

// The scripts run the program as people do. Each begins in a course that is fine,
// testdata/course; the files of a script stand in place of the course's own.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata",
		Setup: func(env *testscript.Env) error {
			env.Setenv("XDG_CACHE_HOME", filepath.Join(env.WorkDir, ".cache"))
			return addCourse(env.WorkDir)
		},
		Cmds:                map[string]func(*testscript.TestScript, bool, []string){"enlarge": enlarge, "exits": exits, "unescape": unescape},
		RequireUniqueNames:  true,
		RequireExplicitExec: true,
		UpdateScripts:       *update,
	})
}

// addCourse copies the files of testdata/course that the script does not bring
// itself.
func addCourse(dir string) error {
	course := os.DirFS(filepath.Join("testdata", "course"))
	return fs.WalkDir(course, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		to := filepath.Join(dir, filepath.FromSlash(name))
		if _, err := os.Stat(to); !errors.Is(err, fs.ErrNotExist) {
			return err
		}
		data, err := fs.ReadFile(course, name)
		if err != nil {
			return err
		}
		if err := os.MkdirAll(filepath.Dir(to), 0o777); err != nil {
			return err
		}
		return os.WriteFile(to, data, 0o666)
	})
}

// exits CODE PROGRAM ARGUMENTS… runs a program and expects its exit code.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE PROGRAM ARGUMENTS…")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	err = ts.Exec(args[1], args[2:]...)
	got := 0
	var failed *exec.ExitError
	if errors.As(err, &failed) {
		got = failed.ExitCode()
	} else {
		ts.Check(err)
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
}

// enlarge FILE BYTES makes a file as long as that without taking room on the disk.
func enlarge(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: enlarge FILE BYTES")
	}
	size, err := strconv.ParseInt(args[1], 10, 64)
	ts.Check(err)
	ts.Check(os.Truncate(ts.MkAbs(args[0]), size))
}

// unescape FILE replaces the escapes of Go strings in a file, such as \xe9, by the
// bytes they stand for: scripts are UTF-8 themselves.
func unescape(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: unescape FILE")
	}
	text := ts.ReadFile(args[0])
	var out []byte
	for text != "" {
		r, multibyte, tail, err := strconv.UnquoteChar(text, 0)
		ts.Check(err)
		if multibyte {
			out = append(out, string(r)...)
		} else {
			out = append(out, byte(r))
		}
		text = tail
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), out, 0o666))
}
