package cli

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"time"

	"plait/internal/build"
	"plait/internal/disk"
)

// Source: the convention NO_COLOR: any value that is not empty turns colours off.
func TestWantsColour(t *testing.T) {
	for _, c := range []struct {
		env      map[string]string
		terminal bool
		want     bool
	}{
		{nil, true, true},
		{nil, false, false},
		{map[string]string{"NO_COLOR": "1"}, true, false},
		{map[string]string{"NO_COLOR": "0"}, true, false},
		{map[string]string{"NO_COLOR": ""}, true, true},
		{map[string]string{"TERM": "dumb"}, true, false},
	} {
		env := func(name string) string { return c.env[name] }
		if got := wantsColour(env, c.terminal); got != c.want {
			t.Errorf("%v on a terminal (%v): %v", c.env, c.terminal, got)
		}
	}
}

func TestDiagnosticsInColour(t *testing.T) {
	for colour, want := range map[bool]bool{true: true, false: false} {
		var out, errs bytes.Buffer
		got := run(context.Background(), []string{"mix", "6N, 20 vol at 2:1, 45 g", "--course", t.TempDir()}, console{out: &out, err: &errs, colour: colour})
		if got != exitCourse || strings.Contains(errs.String(), "\x1b[") != want || out.Len() > 0 {
			t.Errorf("with colour %v: exit %d, %q, %q", colour, got, out.String(), errs.String())
		}
	}
}

func TestExitCodes(t *testing.T) {
	for want, list := range map[int][]error{
		exitFine:    {nil},
		exitCourse:  {errCourse, fmt.Errorf("%w: no template", build.ErrLayouts)},
		exitUse:     {useError{errors.New("which range?")}, fmt.Errorf("x %w", disk.ErrForeign), fmt.Errorf("x %w", disk.ErrInput)},
		exitMachine: {fs.ErrPermission, context.Canceled, disk.ErrBusy},
	} {
		for _, err := range list {
			var errs bytes.Buffer
			if got := code(console{err: &errs}, err); got != want {
				t.Errorf("%v ends with %d, want %d", err, got, want)
			}
			if silent := errs.Len() == 0; silent != (err == nil || errors.Is(err, errCourse)) {
				t.Errorf("%v prints %q", err, errs.String())
			}
		}
	}
}

// A build that is done at once shows no progress, and a pipe never does.
func TestProgress(t *testing.T) {
	var errs bytes.Buffer
	p := newProgress(console{err: &errs, terminal: true})
	p.show(1, 10)
	p.clear()
	if errs.Len() > 0 {
		t.Errorf("a quick build prints %q", errs.String())
	}
	p.began = p.began.Add(-time.Hour)
	p.show(2, 10)
	p.show(3, 10) // too soon after the last
	p.clear()
	if got, want := errs.String(), "\r\x1b[Kreading lessons: 2 of 10\r\x1b[K"; got != want {
		t.Errorf("a long build prints %q, want %q", got, want)
	}
	p = newProgress(console{err: &errs})
	p.began = p.began.Add(-time.Hour)
	errs.Reset()
	p.show(2, 10)
	p.clear()
	if errs.Len() > 0 {
		t.Errorf("in a pipe it prints %q", errs.String())
	}
}

func TestWrap(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"", ""},
		{"one two three", "one two\nthree"},
		{"a\n b  c", "a b c"},
		{"überaus lang", "überaus\nlang"},
		{"unbreakable", "unbreakable"},
	} {
		if got := wrap(c.in, 8, ""); got != c.want {
			t.Errorf("%q wraps to %q, want %q", c.in, got, c.want)
		}
	}
}

func TestCounted(t *testing.T) {
	for n, want := range map[int]string{0: "0 files", 1: "1 file", 2: "2 files"} {
		if got := counted(n, "file"); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}
