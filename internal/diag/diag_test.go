package diag

import (
	"encoding/json"
	"strings"
	"testing"

	"plait/internal/source"
)

func span(f *source.File, needle string) source.Span {
	i := strings.Index(f.Text(), needle)
	return f.Span(i, i+len(needle))
}

func expectText(t *testing.T, d Diagnostic, want string) {
	t.Helper()
	var b strings.Builder
	if err := WriteText(&b, []Diagnostic{d}, TextOptions{}); err != nil {
		t.Fatal(err)
	}
	if b.String() != want {
		t.Errorf("got\n%s\nwant\n%s", b.String(), want)
	}
}

func TestText(t *testing.T) {
	f := source.NewFile("lessons/01-gloss/lesson.md", []byte("on: [tête]\r\n\tratio: 2:1 # café\r\n"))
	expectText(t, Errorf("formula/ratio", span(f, "2:1"), "ratio %q is ambiguous", "2:1").
		WithNote(span(f, "tête"), "used here").WithHelp("write 1:2"),
		`lessons/01-gloss/lesson.md:2:9: error: ratio "2:1" is ambiguous [formula/ratio]
  2 | 	ratio: 2:1 # café
    | 	       ^^^
  lessons/01-gloss/lesson.md:1:6: used here
  write 1:2
`)
}

func TestCaretUnderWideCharacters(t *testing.T) {
	f := source.NewFile("a", []byte("日本 x"))
	expectText(t, Notef("text/x", span(f, "x"), "m"), "a:1:4: note: m [text/x]\n  1 | 日本 x\n    |      ^\n")
}

func TestLongLineIsCutAroundTheCaret(t *testing.T) {
	f := source.NewFile("a", []byte(strings.Repeat("ä", 5000)+"X"+strings.Repeat("b", 5000)))
	var b strings.Builder
	if err := WriteText(&b, []Diagnostic{Notef("text/x", span(f, "X"), "m")}, TextOptions{}); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(b.String(), "\n")
	quote, caret := []rune(lines[1]), []rune(lines[2])
	if len(quote) > 200 || quote[len(caret)-1] != 'X' {
		t.Errorf("%d characters, caret under %q", len(quote), quote[len(caret)-1])
	}
}

func TestControlCharactersDoNotReachTheTerminal(t *testing.T) {
	f := source.NewFile("a", []byte("x\x1b[2Jy"))
	var b strings.Builder
	_ = WriteText(&b, []Diagnostic{Notef("text/x", span(f, "y"), "m")}, TextOptions{})
	if strings.Contains(b.String(), "\x1b") {
		t.Errorf("got %q", b.String())
	}
}

func TestSortedOnceEach(t *testing.T) {
	f := source.NewFile("a", []byte("one two"))
	one, two := Errorf("a/b", span(f, "one"), "x"), Warningf("a/b", span(f, "two"), "x")
	got := Sorted([]Diagnostic{two, one, two})
	if len(got) != 2 || got[0].Span.Text() != "one" {
		t.Errorf("got %v", got)
	}
	if !HasErrors(got) || Count(got, Warning) != 1 {
		t.Error("wrong counts")
	}
}

func TestJSON(t *testing.T) {
	f := source.NewFile("é.md", []byte("\xef\xbb\xbfé: 13 %"))
	var b strings.Builder
	d := Errorf("formula/peroxide", span(f, "13 %"), "over 12 %%").WithEdit(span(f, "13 %"), "12 %")
	if err := WriteJSON(&b, []Diagnostic{d}); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Version     int
		Diagnostics []struct {
			File  string
			Start struct{ Line, Column, Byte int }
			Notes []any
			Edits []struct{ Text string }
		}
	}
	if err := json.Unmarshal([]byte(b.String()), &got); err != nil {
		t.Fatal(err)
	}
	first := got.Diagnostics[0]
	if got.Version != 1 || first.File != "é.md" || first.Start.Column != 4 || first.Start.Byte != 7 || first.Notes == nil || first.Edits[0].Text != "12 %" {
		t.Errorf("got %s", b.String())
	}
}

func TestDidYouMean(t *testing.T) {
	keys := []string{"colour", "developer", "ratio", "amount", "time"}
	for in, want := range map[string]string{"color": "colour", "develoepr": "developer", "raito": "ratio", "zzz": "", "tim": "time", "": ""} {
		if got := DidYouMean(in, keys); got != want {
			t.Errorf("%q: got %q, want %q", in, got, want)
		}
	}
}
