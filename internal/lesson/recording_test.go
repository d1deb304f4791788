package lesson

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"plait/internal/caption"
	"plait/internal/diag"
)

// withCaptions reads the good lesson with captions of that name and text.
func withCaptions(t *testing.T, named, name, text string) (*Lesson, []diag.Diagnostic) {
	t.Helper()
	fsys := files(replaced(t, "film: gloss.webm", "captions: "+named))
	fsys[folder+"/"+name] = &fstest.MapFile{Data: []byte(text)}
	l, found := Read(fsys, folder)
	return l, diag.Sorted(found)
}

func replaced(t *testing.T, old, with string) string {
	t.Helper()
	before, after, ok := strings.Cut(good, old)
	if !ok {
		t.Fatalf("%q is not in the lesson", old)
	}
	return before + with + after
}

func TestCaptions(t *testing.T) {
	l, found := withCaptions(t, "gloss.en.vtt", "gloss.en.vtt", "WEBVTT\n\n00:42.000 --> 00:44.000\nTwo parts of 8N.\n")
	if len(found) > 0 || l.Captions == nil || len(l.Captions.Cues) != 1 {
		t.Fatalf("captions %v, found %s", l.Captions, show(found))
	}
	at := l.Captions.Cues[0].Body
	if at.File().Name() != folder+"/gloss.en.vtt" || at.Start().Line != 4 {
		t.Errorf("the cue stands in %s, line %d", at.File().Name(), at.Start().Line)
	}
	l, _ = withCaptions(t, "talk.srt", "talk.srt", "1\n00:00:42,000 --> 00:00:44,000\nTwo parts.\n")
	if l.Captions == nil || l.Captions.Format != caption.FormatSubRip {
		t.Errorf("SubRip captions are %v", l.Captions)
	}
}

func expectCaptionFaults(t *testing.T, named, name, text string, want ...string) {
	t.Helper()
	_, found := withCaptions(t, named, name, text)
	var got []string
	for _, d := range found {
		got = append(got, d.Span.File().Name()+" "+show([]diag.Diagnostic{d}))
		if d.Help == "" {
			t.Errorf("%s: no way out", d.Message)
		}
	}
	if !slices.Equal(got, want) {
		t.Errorf("%s: got %q, want %q", named, got, want)
	}
}

func TestCaptionFaults(t *testing.T) {
	const lesson = folder + "/lesson.md "
	expectCaptionFaults(t, "a.vtt", "b.vtt", "", lesson+`6:23 "a.vtt" recording/file: there is no file "a.vtt"`)
	expectCaptionFaults(t, "a.doc", "a.doc", "", lesson+`6:23 "a.doc" recording/file: "a.doc" is not of a kind that can be read`)
	expectCaptionFaults(t, "../../../a.vtt", "a.vtt", "", lesson+`6:23 "../../../a.vtt" recording/file: "../../../a.vtt" lies outside the course`)
	expectCaptionFaults(t, "https://example.org/a.vtt", "a.vtt", "", lesson+`6:23 "https://example.org/a.vtt" recording/file: "https://example.org/a.vtt" lies on another site`)
	expectCaptionFaults(t, "a.vtt", "a.vtt/b", "", lesson+`6:23 "a.vtt" recording/file: "a.vtt" is a folder`)
	expectCaptionFaults(t, "a.vtt", "a.vtt", "WEBVTT\n", folder+`/a.vtt 1:1 "" recording/captions: there is no caption in the file`)
}
