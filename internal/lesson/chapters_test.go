package lesson

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
)

// expectChapters reads a lesson with steps under those headings and lists its
// chapters: the stretch, and a star where it is listed.
func expectChapters(t *testing.T, recording, headings, want string) {
	t.Helper()
	text := "---\ntitle: A gloss\nsummary: One bowl.\n" + recording + "---\n"
	for _, h := range strings.Split(headings, ", ") {
		text += "\n## " + h + " Work\n"
	}
	fsys := files(text)
	fsys[folder+"/a.vtt"] = &fstest.MapFile{Data: []byte("WEBVTT\n\n00:42.000 --> 01:30.500\nTwo parts.\n")}
	l, found := Read(fsys, folder)
	if len(found) > 0 {
		t.Fatal(show(found))
	}
	var got []string
	for _, c := range l.Chapters() {
		star := ""
		if c.Listed {
			star = "*"
		}
		got = append(got, fmt.Sprintf("%s-%s%s", c.From, c.Until, star))
	}
	if strings.Join(got, ", ") != want {
		t.Errorf("%s: got %s, want %s", headings, strings.Join(got, ", "), want)
	}
}

func TestChapters(t *testing.T) {
	const two = "recording: {length: \"2:00\"}\n"
	expectChapters(t, two, "0:00, 0:10, 0:20-0:30, 1:50", "0s-10s*, 10s-20s*, 20s-30s*, 1m50s-2m0s*")
	expectChapters(t, two, "0:05, 0:14, 0:23, 1:51", "5s-14s*, 14s-23s*, 23s-1m51s, 1m51s-2m0s")
	expectChapters(t, two, "0:42, 0:47, 0:52", "42s-47s*, 47s-52s, 52s-2m0s*")
	expectChapters(t, "", "0:42, 1:20", "42s-1m20s*, 1m20s-1m30s*")
	expectChapters(t, "recording: {captions: a.vtt}\n", "0:42, 1:20", "42s-1m20s*, 1m20s-1m30.5s*")
}
