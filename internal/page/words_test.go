package page

import "testing"

func TestInitial(t *testing.T) {
	for in, want := range map[string]string{
		"ash": "A", "Éclat": "E", "öl": "O", "9 vol": "0–9", "": "0–9", "日本": "日",
	} {
		if got := initial(in); got != want {
			t.Errorf("initial(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestMarkCurrent(t *testing.T) {
	links := `<a href="a.html">A</a> <a href="b.html">B</a>`
	if got, want := markCurrent(links, "b.html"), `<a href="a.html">A</a> <a aria-current="page" href="b.html">B</a>`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if got := markCurrent(links, "c.html"); got != links {
		t.Errorf("a link that is not there was marked: %s", got)
	}
}
