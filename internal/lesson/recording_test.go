package lesson

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

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

func TestFilm(t *testing.T) {
	l, found := Read(files(good), folder)
	if len(found) > 0 || l.Film == nil || l.Film.Path != folder+"/gloss.webm" || l.Film.Length != 231*time.Second {
		t.Fatalf("the film is %+v, found %s", l.Film, show(found))
	}
	if length, at, ok := l.RecordingLength(); !ok || length != 231*time.Second || at != l.Recording.Film.Span {
		t.Errorf("the recording runs %v, %v, by %q", length, ok, at.Text())
	}
	l, _ = Read(files(replaced(t, "film: gloss.webm, ", "link: https://films.example/gloss, ")), folder)
	if length, at, ok := l.RecordingLength(); !ok || length != 231*time.Second || at.Text() != "3:51" || l.Recording.Link.Value == "" {
		t.Errorf("the recording runs %v, %v, by %q", length, ok, at.Text())
	}
}

func TestFilmFaults(t *testing.T) {
	expectFaults(t, "gloss.webm", "none.webm", `6:19 "none.webm" recording/file: there is no file "none.webm"`)
	expectFaults(t, "gloss.webm", "notes.txt", `6:19 "notes.txt" recording/file: "notes.txt" is not of a kind that can be read`)
	expectFaults(t, "film: gloss.webm", "link: http://films.example/gloss", `6:19 "http://films.example/gloss" recording/link: "http://films.example/gloss" is no address of a film`)
	expectFaults(t, "film: gloss.webm", `link: "https://"`, `6:20 "https://" recording/link: "https://" is no address of a film`)
}

// expectFilm reads the good lesson with another film.
func expectFilm(t *testing.T, data string, stated bool, want string) {
	t.Helper()
	text := good
	if !stated {
		text = replaced(t, `, length: "3:51"`, "")
	}
	fsys := files(text)
	fsys[folder+"/gloss.webm"] = &fstest.MapFile{Data: []byte(data)}
	_, found := Read(fsys, folder)
	if got := show(found); got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestFilmThatCannotBeRead(t *testing.T) {
	expectFilm(t, "no film at all", true, `6:19 "gloss.webm" recording/film: cannot read "gloss.webm": this is no MP4, MOV, M4A, WebM, MKV, MP3 or WAV`)
	expectFilm(t, film[:20], true, `6:19 "gloss.webm" recording/film: cannot read "gloss.webm": the file is damaged: a part of it is larger than the whole`)
	const endless = "\x1a\x45\xdf\xa3\x80\x18\x53\x80\x67\x85\x15\x49\xa9\x66\x80"
	expectFilm(t, endless, true, "")
	expectFilm(t, endless, false, `6:19 "gloss.webm" recording/film: "gloss.webm" does not say how long it runs`)
}
