package diag

import (
	"strings"
	"testing"

	"plait/internal/source"
)

// expectMended applies edits, each "old>new" at the first place of old, to a text.
func expectMended(t *testing.T, text, want string, edits ...string) {
	t.Helper()
	f := source.NewFile("a", []byte(text))
	var list []Diagnostic
	for _, e := range edits {
		old, text, _ := strings.Cut(e, ">")
		list = append(list, Errorf("a/b", span(f, old), "m").WithEdit(span(f, old), text))
	}
	got, err := Apply(list)
	switch {
	case err != nil:
		if err.Error() != want {
			t.Errorf("%q: got the error %q, want %q", edits, err, want)
		}
	case len(got) == 0 && want == text:
	case len(got) != 1 || got[0].Text != want || got[0].File != f:
		t.Errorf("%q: got %v, want %q", edits, got, want)
	}
}

func TestApply(t *testing.T) {
	text := "colour: 30 g\r\ndeveloper: 55 g of 20 vol # café\r\n"
	expectMended(t, text, text)
	expectMended(t, text, "colour: 30 g\r\ndeveloper: 60 g of 20 vol # café\r\n", "55 g>60 g")
	expectMended(t, text, "colour: 40 g\r\ndeveloper: 60 g of 30 vol # café\r\n", "20 vol>30 vol", "55 g>60 g", "30 g>40 g")
	expectMended(t, text, "colour: 30 g\r\ndeveloper: 60 g of 20 vol # café\r\n", "55 g>60 g", "55 g>60 g") // said twice
	expectMended(t, text, text, "55 g>55 g")                                                                // changes nothing
	expectMended(t, text, "colour: 30 g\r\ndeveloper: 60 of 20 vol # café\r\n", "55>60", " g of> of")       // side by side
}

func TestApplyRefusesOverlap(t *testing.T) {
	text := "colour: 30 g\ndeveloper: 55 g of 20 vol\n"
	expectMended(t, text, "two mends of a overlap at line 2, column 12; mend one of them by hand", "55 g>60 g", "55 g>61 g")
	expectMended(t, text, "two mends of a overlap at line 2, column 17; mend one of them by hand", "55 g of>60 g of", "of 20 vol>of 30 vol")
	expectMended(t, text, "two mends of a overlap at line 2, column 15; mend one of them by hand", "55 g of>60 g of", "g of 20>grams of 20")
}

func TestApplyInOrderOfFiles(t *testing.T) {
	var list []Diagnostic
	for _, name := range []string{"c", "a", "b"} {
		f := source.NewFile(name, []byte("1"))
		list = append(list, Errorf("a/b", f.Whole(), "m").WithEdit(f.Whole(), "2"))
	}
	got, err := Apply(list)
	if err != nil || len(got) != 3 || got[0].File.Name() != "a" || got[2].File.Name() != "c" || got[1].Text != "2" {
		t.Errorf("got %v, %v", got, err)
	}
}
