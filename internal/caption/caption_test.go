package caption

import (
	"encoding/binary"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf16"

	"plait/internal/diag"
	"plait/internal/source"
)

func read(name, text string) (*Track, []diag.Diagnostic) {
	return Read(source.NewFile(name, []byte(text)))
}

// show prints a cue on one line: "1s-2.5s Ann: text / more".
func show(cues []Cue) []string {
	var out []string
	for _, c := range cues {
		line := fmt.Sprintf("%s-%s ", c.From, c.Until)
		if c.Voice != "" {
			line += c.Voice + ": "
		}
		text := c.Text
		for _, t := range slices.Backward(c.Turns) {
			text = text[:t.At] + "{" + t.Voice + "}" + text[t.At:]
		}
		out = append(out, line+strings.ReplaceAll(text, "\n", " / "))
	}
	return out
}

func showFound(found []diag.Diagnostic) []string {
	var out []string
	for _, d := range found {
		at := d.Span.Start()
		out = append(out, fmt.Sprintf("%d:%d %s: %s", at.Line, at.Column, d.Severity, d.Message))
	}
	return out
}

func expectLines(t *testing.T, what string, got []string, want ...string) {
	t.Helper()
	if !slices.Equal(got, want) {
		t.Errorf("%s: got\n%s\nwant\n%s", what, strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// expectCues reads a file without a fault.
func expectCues(t *testing.T, name, text string, want ...string) {
	t.Helper()
	track, found := read(name, text)
	expectLines(t, name, show(track.Cues), want...)
	expectLines(t, name, showFound(found))
}

// expectFaults reads a file and lists what is found; every finding has a way out.
func expectFaults(t *testing.T, name, text string, want ...string) {
	t.Helper()
	_, found := read(name, text)
	expectLines(t, fmt.Sprintf("%s %q", name, text), showFound(found), want...)
	for _, d := range found {
		if d.Help == "" {
			t.Errorf("%s: no way out", d.Message)
		}
	}
}

func TestSubRip(t *testing.T) {
	expectCues(t, "a.srt", "1\n00:00:01,000 --> 00:00:02,500\nTwo <i>parts</i>\n{\\an8}of 8N\n\n2\n00:00:03,000 --> 00:00:04,000\nWait.\n",
		"1s-2.5s Two parts / of 8N", "3s-4s Wait.")
	expectCues(t, "no counter, a dot, short times", "0:01.5 --> 0:02\nOne\n1:00:02 --> 1:00:03,25  X1:40 X2:600\nTwo",
		"1.5s-2s One", "1h0m2s-1h0m3.25s Two")
	expectCues(t, "an empty line in a text", "1\n00:01,000 --> 00:02,000\nOne\n\nstill one\n\n2\n00:02,000 --> 00:03,000\nTwo\n",
		"1s-2s One / still one", "2s-3s Two")
	expectCues(t, "no empty line between cues", "1\n00:01,000 --> 00:02,000\nOne\n2\n00:02,000 --> 00:03,000\n30\n",
		"1s-2s One", "2s-3s 30")
	expectCues(t, "a lone sign", "1\n00:01,000 --> 00:02,000\n1 < 2 g > 0 & more -->\n", "1s-2s 1 < 2 g > 0 & more -->")
	expectCues(t, "line ends", "1\r\n00:01,000 --> 00:02,000\rOne\r\n\r\n2\r00:02,000 --> 00:03,000\rTwo",
		"1s-2s One", "2s-3s Two")
	expectFaults(t, "a.srt", "A title\n\n1\n00:01,000 --> 00:02,000\nOne\n\n2\n00:03,000 -->\nLost\n\n3\n00:05,000 --> 00:04,000\nBack\n",
		"1:1 warning: this text has no time, so no caption shows it",
		"8:1 error: the time of this caption cannot be read, so its text is lost",
		"12:1 error: the caption ends before it begins")
}

func TestTranscript(t *testing.T) {
	expectCues(t, "bare.txt", "0:00 Hello\n0:04 Two parts of 8N\nand one of 8V\n\n1:02:03 At 1:1.5 it is thin\n10:30 is no later time\n",
		"0s-4s Hello", "4s-1h2m3s Two parts of 8N / and one of 8V", "1h2m3s-1h2m5.8s At 1:1.5 it is thin / 10:30 is no later time")
	expectCues(t, "brackets.txt", "[00:01] Ann: one\n(00:03.500) two\n1:30 is not in brackets\n", "1s-3.5s Ann: one", "3.5s-5.5s two / 1:30 is not in brackets")
	expectCues(t, "spans.txt", "0:01 - 0:03: one\n0:05–0:06 two\n", "1s-3s one", "5s-6s two")
	expectCues(t, "own lines.txt", "0:01\nthe first line\nand the second\n0:05\nthe third\n", "1s-5s the first line / and the second", "5s-7s the third")
	expectFaults(t, "title.txt", "A talk\n0:01 one\n", "1:1 note: this text has no time, so no caption shows it")
	expectFaults(t, "nothing.txt", "", "1:1 error: there is no caption in the file")
	expectFaults(t, "back.txt", "0:09-0:08 one\n", "1:1 error: the caption ends before it begins")
	expectFaults(t, "talk.txt", "Mix at 1:2.\n", "1:1 note: this text has no time, so no caption shows it")
}

func TestWebVTTFaults(t *testing.T) {
	text, err := os.ReadFile("testdata/broken.vtt")
	if err != nil {
		t.Fatal(err)
	}
	expectFaults(t, "broken.vtt", string(text),
		"5:1 note: a browser does not read this time and drops the caption; it was read as 00:00:01.000 --> 00:00:02.000",
		"8:1 error: the time of this caption cannot be read, so its text is lost",
		"11:1 note: a browser does not read this time and drops the caption; it was read as 00:00:03.000 --> 00:00:04.000",
		"14:1 error: the time of this caption cannot be read, so its text is lost",
		"25:1 error: the caption ends before it begins",
		"32:3 note: a browser takes this sign for the beginning of a tag and hides what follows",
		"36:1 note: a browser does not read this time and drops the caption; it was read as 00:00:11.000 --> 00:00:12.000",
		"39:1 warning: this text has no time, so no caption shows it",
		"42:1 warning: this text has no time, so no caption shows it",
		"44:1 note: a browser does not read this time and drops the caption; it was read as 01:15:00.000 --> 01:15:01.000",
		"48:1 error: the time of this caption cannot be read, so its text is lost",
		"54:6 note: a browser takes this sign for the beginning of a tag and hides what follows")
}

// A mended file has none of the faults that only browsers mind.
func TestMends(t *testing.T) {
	const text = "1\n0:01,5 --> 00:02,000 align:start\n<i>One</i> < 2\n"
	_, found := read("a.vtt", text)
	mended, err := diag.Apply(found)
	if err != nil || len(mended) != 1 {
		t.Fatalf("%d files mended: %v", len(mended), err)
	}
	if want := "WEBVTT\n\n1\n00:00:01.500 --> 00:00:02.000 align:start\n<i>One</i> &lt; 2\n"; mended[0].Text != want {
		t.Errorf("got %q, want %q", mended[0].Text, want)
	}
	expectCues(t, "a.vtt", mended[0].Text, "1.5s-2s One < 2")
}

// encoded16 writes text as UTF-16.
func encoded16(text string, order binary.AppendByteOrder) string {
	var b []byte
	for _, unit := range utf16.Encode([]rune(text)) {
		b = order.AppendUint16(b, unit)
	}
	return string(b)
}

func TestEncodings(t *testing.T) {
	const text = "WEBVTT\n\n00:01.000 --> 00:02.000\nCafé 🎨\n"
	const want = "1s-2s Café 🎨"
	expectCues(t, "mark", "\ufeff"+text, want)
	expectCues(t, "little", encoded16("\ufeff"+text, binary.LittleEndian), want)
	expectCues(t, "big", encoded16("\ufeff"+text, binary.BigEndian), want)
	expectCues(t, "unmarked little", encoded16(text, binary.LittleEndian), want)
	expectCues(t, "unmarked big", encoded16(text, binary.BigEndian), want)

	track, found := read("latin", "WEBVTT\n\n00:01.000 --> 00:02.000\nCaf\xe9 \x96 \x80\n")
	expectLines(t, "latin", show(track.Cues), "1s-2s Café – €")
	expectLines(t, "latin", showFound(found), `4:4 note: the file is not UTF-8; it was read as Latin-1, in which this letter is "é"`)
}

func TestClean(t *testing.T) {
	text, err := os.ReadFile("testdata/rolling.vtt")
	if err != nil {
		t.Fatal(err)
	}
	track, _ := read("rolling.vtt", string(text))
	expectLines(t, "rolling", show(track.Clean()),
		"0s-2.01s two parts of eight N", "2.01s-4.51s and one of eight V", "4.51s-7.01s pour the developer first")

	track, _ = read("growing", "WEBVTT\n\n00:01.000 --> 00:02.000\ntwo\n\n00:02.000 --> 00:03.000\ntwo parts\n\n00:03.000 --> 00:04.000\ntwo parts of 8N\n")
	expectLines(t, "growing", show(track.Clean()), "1s-2s two", "2s-3s parts", "3s-4s of 8N")

	track, _ = read("twice", "WEBVTT\n\n00:01.000 --> 00:02.000\nRinse.\n\n00:02.000 --> 00:03.000\nRinse.\n\n00:04.000 --> 00:05.000\nDry.\n\n00:05.000 --> 00:06.000\nComb.\n")
	expectLines(t, "twice", show(track.Clean()), "1s-2s Rinse.", "2s-3s Rinse.", "4s-5s Dry.", "5s-6s Comb.")

	track, _ = read("order", "WEBVTT\n\n00:04.000 --> 00:05.000\nLater\n\n00:01.000 --> 00:02.000\n <v Ann> One \n <c></c>\n<v Bob>  two <v Eve>\n\n00:03.000 --> 00:02.000\nBack\n\n00:03.000 --> 00:03.500\n \n")
	expectLines(t, "order", show(track.Clean()), "1s-2s Ann: One / {Bob}two", "4s-5s Later")
}

func TestWrite(t *testing.T) {
	cues := []Cue{
		{ID: "step-1", From: 0, Until: 90 * time.Minute, Text: "Mix"},
		{From: 1500 * time.Millisecond, Until: 2 * time.Second, Text: "1 < 2 & 3 --> 4\nand on", Voice: "Ann & Bob"},
		{From: 3 * time.Second, Until: 4 * time.Second, Text: "One two", Turns: []Turn{{At: 4, Voice: "Eve"}}},
	}
	want := "WEBVTT\n" +
		"\nstep-1\n00:00:00.000 --> 01:30:00.000\nMix\n" +
		"\n00:00:01.500 --> 00:00:02.000\n<v Ann &amp; Bob>1 &lt; 2 &amp; 3 --&gt; 4\nand on\n" +
		"\n00:00:03.000 --> 00:00:04.000\nOne <v Eve>two</v>\n"
	if got := string(WebVTT(cues)); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// FuzzRead reads any bytes. Everything found has a place and a way out, every cue
// stands in the file, and what is written out reads back as the same cues.
func FuzzRead(f *testing.F) {
	for _, name := range []string{"valid", "broken", "rolling", "unspaced"} {
		text, err := os.ReadFile("testdata/" + name + ".vtt")
		if err != nil {
			f.Fatal(err)
		}
		f.Add("a.vtt", text)
	}
	f.Add("a.srt", []byte("1\r\n0:01,5 --> 00:00:02,000 X1:4\r\n<i>One</i>\r\n\r\n2\r\n00:03 -->\r\n"))
	f.Add("a.txt", []byte("[0:42] One\n(1:02:03 - 1:02:04) caf\xe9\n"))
	f.Add("a.vtt", []byte(encoded16("WEBVTT\n\n00:01.000 --> 00:02.000\n<v A>a &#10;<v B>b", binary.LittleEndian)))
	f.Fuzz(func(t *testing.T, name string, data []byte) {
		track, found := Read(source.NewFile(name, data))
		whole := track.File.Whole()
		for _, d := range found {
			if d.Message == "" || d.Help == "" || !whole.Contains(d.Span) {
				t.Fatalf("%+v says too little", d)
			}
		}
		for _, c := range track.Cues {
			if c.From < 0 || c.Until < 0 || !whole.Contains(c.Span) || !whole.Contains(c.Body) {
				t.Fatalf("%+v stands outside the file or before the recording", c)
			}
		}
		clean := track.Clean()
		again, found := Read(source.NewFile("clean.vtt", WebVTT(clean)))
		if len(clean) > 0 && len(found) > 0 {
			t.Fatalf("what is written has a fault: %s", found[0].Message)
		}
		if got, want := show(again.Cues), show(clean); !slices.Equal(got, want) {
			t.Fatalf("written %q, read back %q", want, got)
		}
	})
}

func BenchmarkRead(b *testing.B) {
	var text strings.Builder
	text.WriteString("WEBVTT\n")
	for i := range 1500 { // an hour and a quarter of talk
		fmt.Fprintf(&text, "\n%s --> %s\n<v Ann>Bowl %d: two parts of 8N hold the level,\none part of 8V cancels the yellow.\n",
			clock(time.Duration(3*i)*time.Second), clock(time.Duration(3*i+3)*time.Second), i)
	}
	file := source.NewFile("talk.vtt", []byte(text.String()))
	b.SetBytes(int64(text.Len()))
	b.ReportAllocs()
	for b.Loop() {
		if track, found := Read(file); len(found) > 0 || len(track.Clean()) != 1500 {
			b.Fatal(found)
		}
	}
}

func TestLanguage(t *testing.T) {
	for name, want := range map[string]string{"gloss.en.vtt": "en", "a.pt-BR.srt": "pt-BR", "gloss.vtt": "", "gloss.final.vtt": ""} {
		if got := Language(name); got != want {
			t.Errorf("%s is in %q, want %q", name, got, want)
		}
	}
	if !IsEnglish("en-GB") || !IsEnglish("") || IsEnglish("de") {
		t.Error("English is not told from other languages")
	}
}
