package check

import (
	"fmt"
	"io/fs"
	"strings"
	"testing"
)

// gloss is the head of a WebM file of 231 seconds.
const gloss = "\x1a\x45\xdf\xa3\x80\x18\x53\x80\x67\x90\x15\x49\xa9\x66\x8b\x44\x89\x88\x41\x0c\x32\xc0\x00\x00\x00\x00"

// withFilm is the test course with a film whose lesson names it.
func withFilm(header, film string) fs.FS {
	files := testCourse(Header, header)
	files["lessons/01-gloss/gloss.webm"] = file(film)
	return files
}

// expectRecording lists what the rules about recordings find in a course: the line,
// the severity and the message of each, with the places that have to do with it.
func expectRecording(t *testing.T, files fs.FS, want ...string) {
	t.Helper()
	var got []string
	for _, d := range judge(t, files) {
		if !strings.HasPrefix(d.Rule, "recording/") {
			continue
		}
		line := fmt.Sprintf("%d %s %s: %s", d.Span.Start().Line, d.Severity, strings.TrimPrefix(d.Rule, "recording/"), d.Message)
		for _, n := range d.Notes {
			line += fmt.Sprintf(" (%d)", n.Span.Start().Line)
		}
		got = append(got, line)
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func steps(length string, headings ...string) fs.FS {
	return testCourse(Lesson, filmed(length, headings...))
}

func TestRecordingSteps(t *testing.T) {
	expectRecording(t, steps("2:00", "## 0:00 Look", "## 0:10-0:40 Mix", "## 0:40-1:50 Apply", "## Wait", "## 1:50 Rinse"))
	expectRecording(t, steps("2:00", "## 0:20 Mix", "## 0:20 Rinse"),
		"11 error order: this step begins at 0:20, not after the step before it (7)")
	expectRecording(t, steps("2:00", "## 0:20-0:41 Mix", "## Wait", "## 0:40 Rinse"),
		"7 error overlap: this step runs to 0:41, but the next begins at 0:40 (15)")
	expectRecording(t, steps("2:00", "## 0:20 Mix", "## 1:40-2:01 Rinse"))
	expectRecording(t, steps("2:00", "## 0:20 Mix", "## 1:40-2:02 Rinse"),
		"11 error beyond: this step runs to 2:02, but the recording ends at 2:00 (4)")
	expectRecording(t, steps("2:00", "## 0:20 Mix", "## 1:59 Rinse"),
		"11 note short-step: this step begins at 1:59 and is too short for a chapter")
	expectRecording(t, steps("2:00", "## 0:20 Mix", "## 2:00 Rinse"),
		"11 error beyond: this step begins at 2:00, but the recording ends at 2:00 (4)")
}

func TestRecordingLength(t *testing.T) {
	const uncaptioned = "4 warning uncaptioned: the film has no captions"
	header := func(length string) string { return `recording: {film: gloss.webm, length: "` + length + `"}` }
	expectRecording(t, withFilm(header("3:51"), gloss), uncaptioned)
	expectRecording(t, withFilm(header("3:50"), gloss), uncaptioned,
		"4 error length: the recording is said to run for 3:50, but the film runs for 3:51 (4)")
	expectRecording(t, withFilm("recording: {film: gloss.webm}", gloss), uncaptioned)
}

// cues is a course with captions: a stretch and a text for each.
func cues(lines ...string) fs.FS {
	var text strings.Builder
	for _, line := range lines {
		stretch, words, _ := strings.Cut(line, "|")
		from, until, _ := strings.Cut(stretch, "-")
		fmt.Fprintf(&text, "00:%s --> 00:%s\n%s\n\n", from, until, strings.ReplaceAll(words, "/", "\n"))
	}
	return testCourse(Files, captioned(text.String()))
}

// The limits and the worked figures T-8.16 to T-8.18 are those of published guides
// for captions: 84 characters in 6 s are 14 a second, 90 in 4 s are 22.5.
func TestCaptionLimits(t *testing.T) {
	line := func(n int) string { return strings.Repeat("x", n) }
	expectRecording(t, cues("10.000-16.000|"+line(37)+"/"+line(37)))
	expectRecording(t, cues("10.000-14.000|"+line(29)+"/"+line(30)))
	expectRecording(t, cues("10.000-14.000|"+line(30)+"/"+line(31)), "3 note caption-speed: this caption runs at 15.5 characters a second")
	expectRecording(t, cues("10.000-13.000|"+line(30)+"/"+line(37)), "3 warning caption-speed: this caption runs at 22.7 characters a second")
	expectRecording(t, cues("10.000-14.000|"+line(38)), "3 note caption-lines: a line of this caption has 38 characters")
	expectRecording(t, cues("10.000-14.000|"+line(43)), "3 warning caption-lines: a line of this caption has 43 characters")
	expectRecording(t, cues("10.000-14.000|one/two/three"), "3 warning caption-lines: this caption has 3 lines")
	expectRecording(t, cues("10.000-12.000|one", "20.000-21.900|two"), "6 note caption-time: this caption stands for 1.9 seconds")
	expectRecording(t, cues("10.000-11.400|one", "20.000-21.900|two"),
		"3 warning caption-time: this caption stands for 1.4 seconds; with it, 2 of 2 captions are beyond the usual")
	expectRecording(t, cues("10.000-17.000|one", "20.000-27.100|two"), "6 warning caption-time: this caption stands for 7.1 seconds")
	expectRecording(t, cues("10.000-13.000|one", "12.999-15.000|two"), "6 warning caption-overlap: this caption begins while the one before it still stands (3)")
	expectRecording(t, cues("10.000-12.000|one", "12.083-15.000|two", "15.084-17.100|three", "17.150-19.200|four"),
		"6 note caption-gap: this caption comes 83 ms after the one before it, so that the text flickers; with it, 2 of 4 captions do (3)")
	expectRecording(t, cues("01:59.000-02:01.000|one"))
	expectRecording(t, cues("01:59.000-02:01.100|one"), "3 error beyond: this caption stands until 2:01, but the recording ends at 2:00 (4)")
}

// A lesson can let a finding in its captions stand.
func TestAcceptInCaptions(t *testing.T) {
	text := strings.Replace(captioned("00:10.000 --> 00:11.000\none"), "summary:",
		"accept: [{rule: recording/caption-time, because: it is a shout}]\nsummary:", 1)
	expectRecording(t, testCourse(Files, text))
}
