package draft

import (
	"strings"
	"testing"
	"testing/fstest"
	"unicode/utf8"

	"plait/internal/diag"
	"plait/internal/lesson"
)

// FuzzLesson drafts from any words. Whatever is said, the draft can be read, and has no
// fault of its own making but open questions.
func FuzzLesson(f *testing.F) {
	f.Add("Hair and scalp. Today we mix two parts of 8N, one part of 8V, six volume.\n1. Next <b>cut</b> the *ends* #now {a of b} ![x](y)")
	f.Add("hair scalp \"quoted\" \\ 'it' # no: comment - ? 6N 30 g of 6N: 1:2 … ``` --- ===\n| a | b |\n[^1]: x &amp; :x: ~~y~~")
	f.Add("So today \uFFFD \x00 6N")
	f.Add("Hair, scalp, nape. Centre parting, ear to ear, a horseshoe and a triangle.\nNo elevation, 45 degrees.\nThe shortest layer is eight inches, a travelling guide.")
	f.Fuzz(func(t *testing.T, words string) {
		if !utf8.ValidString(words) {
			return
		}
		talk := talkOf(strings.Split(words, "\n")...)
		if len(talk.Cues) == 0 {
			return
		}
		made := Make(talk)
		files := fstest.MapFS{
			"lessons/01-talk/lesson.md": {Data: []byte(made.Text)},
			"lessons/01-talk/talk.vtt":  {Data: []byte("WEBVTT\n\n00:00.000 --> 24:00:00.000\nx\n")},
		}
		if made.Sheet != "" {
			files["lessons/01-talk/"+SheetFile] = &fstest.MapFile{Data: []byte(made.Sheet)}
		}
		_, found := lesson.Read(files, "lessons/01-talk")
		for _, d := range found {
			if d.Severity == diag.Error && d.Rule != "text/open" && !strings.HasSuffix(d.Span.File().Name(), ".vtt") {
				t.Fatalf("%s: %s: %q in\n%s", d.Rule, d.Message, d.Span.Text(), made.Text+made.Sheet)
			}
		}
	})
}
