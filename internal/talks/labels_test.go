package talks

import (
	"bufio"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"plait/internal/caption"
	"plait/internal/course"
	"plait/internal/diag"
	"plait/internal/shade"
	"plait/internal/source"
)

// talk is one of the talks and what was labelled in it by hand.
type talk struct {
	name   string
	cues   []caption.Cue
	steps  []int // index of the cue each step begins with
	facts  []label
	denied []label // said and taken back
}

// label is one fact, by the index of the cue it stands in.
type label struct {
	cue         int
	kind, value string
}

// load reads all talks whose names begin with a word: tune, test, blind, final, third, more, fourth, fifth or sixth.
func load(t testing.TB, set string) []talk {
	t.Helper()
	names, err := filepath.Glob("testdata/" + set + "-*.vtt")
	if err != nil || len(names) < 3 {
		t.Fatalf("%d talks in the set %s, %v", len(names), set, err)
	}
	var out []talk
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		track, found := caption.Read(source.NewFile(name, data))
		if diag.HasErrors(found) {
			t.Fatalf("%s: %v", name, found)
		}
		one := talk{name: strings.TrimSuffix(filepath.Base(name), ".vtt"), cues: track.Cues}
		one.readLabels(t, strings.TrimSuffix(name, ".vtt")+".labels")
		out = append(out, one)
	}
	return out
}

func (k *talk) readLabels(t testing.TB, name string) {
	t.Helper()
	file, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines := bufio.NewScanner(file)
	for lines.Scan() {
		number, rest, _ := strings.Cut(lines.Text(), " ")
		kind, value, ok := strings.Cut(rest, " ")
		n, err := strconv.Atoi(number)
		if err != nil || !ok || n < 1 || n > len(k.cues) {
			t.Fatalf("%s: cannot read %q", name, lines.Text())
		}
		switch kind {
		case "step":
			k.steps = append(k.steps, n-1)
		case "withdrawn":
			kind, value, _ = strings.Cut(value, " ")
			k.denied = append(k.denied, label{n - 1, kind, value})
		default:
			k.facts = append(k.facts, label{n - 1, kind, value})
		}
	}
}

// ranges are the ranges of the demo course, by which its shades are known.
func ranges(t testing.TB) []*shade.Range {
	t.Helper()
	var out []*shade.Range
	for _, name := range []string{"content/ranges/meadow.yaml", "content/ranges/saltmarsh.yaml"} {
		r, found := course.ReadRange(os.DirFS("../.."), name)
		if diag.HasErrors(found) {
			t.Fatalf("%s: %v", name, found)
		}
		out = append(out, r.Range)
	}
	return out
}
