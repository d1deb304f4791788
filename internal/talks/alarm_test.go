package talks

import (
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"plait/internal/build"
	"plait/internal/diag"
	"plait/internal/draft"
)

// demo returns the demo course as files that can be added to.
func demo(t *testing.T) fstest.MapFS {
	t.Helper()
	files := fstest.MapFS{}
	for _, dir := range []string{"content", "lessons"} {
		err := fs.WalkDir(os.DirFS("../.."), dir, func(name string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			data, err := os.ReadFile("../../" + name)
			files[name] = &fstest.MapFile{Data: data}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return files
}

// alarms returns what the rules find that hold captions against cards, and what else
// stops the course.
func alarms(t *testing.T, files fs.FS) (spoken, errors []diag.Diagnostic) {
	t.Helper()
	result, err := build.Read(t.Context(), build.Options{Files: files})
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range result.Diagnostics {
		switch {
		case strings.HasPrefix(d.Rule, "spoken/"):
			spoken = append(spoken, d)
		case d.Severity == diag.Error && d.Rule != "text/open":
			errors = append(errors, d)
		}
	}
	return spoken, errors
}

// draftOf drafts a talk into the demo course.
func (k talk) draftOf(t *testing.T, files fstest.MapFS) string {
	t.Helper()
	data, err := os.ReadFile("testdata/" + k.name + ".vtt")
	if err != nil {
		t.Fatal(err)
	}
	files["lessons/90-talk/talk.vtt"] = &fstest.MapFile{Data: data}
	made := draft.Make(draft.Talk{
		Name: "talk", Cues: k.cues, Captions: "talk.vtt", Ranges: ranges(t), Range: "meadow", Tests: []string{"allergy alert test"},
	})
	if made.Sheet != "" {
		files["lessons/90-talk/"+draft.SheetFile] = &fstest.MapFile{Data: []byte(made.Sheet)}
	}
	return made.Text
}

func put(files fstest.MapFS, text string) fstest.MapFS {
	files["lessons/90-talk/lesson.md"] = &fstest.MapFile{Data: []byte(text)}
	return files
}

// A draft has no error but open questions, and the talk it was made of agrees with it.
func TestDraftsAgreeWithTheirTalk(t *testing.T) {
	for _, set := range []string{"tune", "test", "blind", "final", "third", "fourth", "fifth"} {
		for _, k := range load(t, set) {
			files := demo(t)
			text := k.draftOf(t, files)
			spoken, errors := alarms(t, put(files, text))
			for settled, ok := draft.Settle(text, errors); ok; settled, ok = draft.Settle(settled, errors) {
				spoken, errors = alarms(t, put(files, settled))
			}
			for _, d := range append(spoken, errors...) {
				t.Errorf("%s: %s: %s", k.name, d.Rule, d.Message)
			}
		}
	}
}

// wrong are slips of an author that the film contradicts.
var wrong = []struct{ rule, value, with string }{
	{"spoken/strength", `(?m)^(developer: (?:[\d.]+ g of )?)\d+ (?:vol|%)(?: \([\d.]+ %\))?`, "${1}9 %"},
	{"spoken/ratio", `(?m)^ratio: 1:[\d.]+`, "ratio: 1:3"},
	{"spoken/time", `(?m)^time: (?:up to )?\d+ min (from \w+ \w+)`, "time: 52 min $1"},
}

// answered answers the questions that keep a bowl of the talks from being computed, where a
// line may be left out by leaving it out.
func answered(text string) string {
	return unanswered.ReplaceAllString(strings.ReplaceAll(text, "\nkind: ?", "\nkind: permanent"), "")
}

var unanswered = regexp.MustCompile(`(?m)^(on|time): \?.*\n`)

// Where the card of a talk is changed the rules hear it. A card that contradicts itself
// then, as a ratio does with a weight that was said too, is stopped before its bowl can be
// held against the talk; no wrong card passes.
func TestWrongCardsAreNoticed(t *testing.T) {
	tried, heard := map[string]int{}, map[string]int{}
	for _, set := range []string{"tune", "test", "blind", "final"} {
		for _, k := range load(t, set) {
			for _, w := range wrong {
				files := demo(t)
				text := answered(k.draftOf(t, files))
				changed := regexp.MustCompile(w.value).ReplaceAllString(text, w.with)
				if changed == text {
					continue
				}
				tried[set]++
				switch spoken, errors := alarms(t, put(files, changed)); {
				case slices.ContainsFunc(spoken, of(w.rule)):
					heard[set]++
				case slices.ContainsFunc(errors, of("formula/developer-weight")):
					t.Logf("%s: %s says nothing, the card contradicts itself", k.name, w.rule)
				default:
					t.Errorf("%s: %s says nothing", k.name, w.rule)
				}
			}
		}
	}
	t.Logf("of the wrong cards %v were heard, of %v", heard, tried)
	known := []string{"tune", "test", "blind"}
	all, noticed := 0, 0
	for _, set := range known {
		all, noticed = all+tried[set], noticed+heard[set]
	}
	if all < 12 || float64(noticed) < 0.9*float64(all) {
		t.Errorf("of %d wrong cards of %v only %d were heard", all, known, noticed)
	}
}

func of(rule string) func(diag.Diagnostic) bool {
	return func(d diag.Diagnostic) bool { return d.Rule == rule }
}

// Talk about bread and about a wall says nothing about any lesson of the demo, and a talk
// about cutting nothing about its bowls.
func TestOtherTalkRaisesNoAlarm(t *testing.T) {
	for _, name := range []string{"tune-other", "test-other", "tune-cut-1", "tune-cut-2", "test-cut-1", "test-cut-2", "blind-other", "final-other", "third-other", "more-other", "fifth-other", "final-cut-1", "final-cut-2", "third-cut-1", "third-cut-2", "fifth-cut-1", "fifth-cut-2"} {
		files := demo(t)
		vtt, err := os.ReadFile("testdata/" + name + ".vtt")
		if err != nil {
			t.Fatal(err)
		}
		lessons := 0
		for file, f := range files {
			if dir, ok := strings.CutSuffix(file, "/lesson.md"); ok {
				text := string(f.Data)
				if strings.Contains(text, "\nrecording:") {
					continue
				}
				lessons++
				files[dir+"/other.vtt"] = &fstest.MapFile{Data: vtt}
				f.Data = []byte(strings.Replace(text, "\n---\n", "\nrecording: {captions: other.vtt}\n---\n", 1))
			}
		}
		spoken, _ := alarms(t, files)
		if lessons < 5 {
			t.Errorf("only %d lessons hear the talk", lessons)
		}
		for _, d := range spoken {
			t.Errorf("%s: %s: %s: %s", name, d.Span.File().Name(), d.Rule, d.Message)
		}
	}
}
