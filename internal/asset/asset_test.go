package asset

import (
	"bytes"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"plait/layouts"
)

func build(t *testing.T, files fs.FS) *Bundle {
	t.Helper()
	b, err := Build(files)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestBuildGivesTheSameBytes(t *testing.T) {
	a, b := build(t, layouts.FS), build(t, layouts.FS)
	if a.Script.Path != b.Script.Path || !bytes.Equal(a.Script.Data, b.Script.Data) {
		t.Error("the script differs from build to build")
	}
	x, y := a.Style(everyTint()), b.Style(everyTint())
	if x.Path != y.Path || !bytes.Equal(x.Data, y.Data) {
		t.Error("the style sheet differs from build to build")
	}
}

// A page from a folder runs classic scripts only and reads no other file.
func TestBundleStandsAlone(t *testing.T) {
	b := build(t, layouts.FS)
	for _, forbidden := range []string{"import ", "import(", "fetch(", "XMLHttpRequest", "eval(", "http://", "https://"} {
		if strings.Contains(string(b.Script.Data), forbidden) {
			t.Errorf("the script has %q", forbidden)
		}
	}
	for _, forbidden := range []string{"@import", "https://"} {
		if strings.Contains(string(b.Style(nil).Data), forbidden) {
			t.Errorf("the style sheet has %q", forbidden)
		}
	}
	if !strings.HasPrefix(string(b.Script.Data), "(()=>{") {
		t.Errorf("the script is not one closed function: %.20s", b.Script.Data)
	}
}

func TestBuildSaysWhereAScriptIsWrong(t *testing.T) {
	own := fstest.MapFS{"scripts/plait.js": {Data: []byte("let a = 1;\nlet = ;\n")}}
	_, err := Build(Overlay(own, layouts.FS))
	if err == nil || !strings.HasPrefix(err.Error(), "scripts/plait.js:2:") {
		t.Errorf("got %v, want an error at scripts/plait.js:2", err)
	}
}

func TestOverlay(t *testing.T) {
	own := fstest.MapFS{"styles/plait.css": {Data: []byte("body{color:red}")}}
	b := build(t, Overlay(own, layouts.FS))
	if !strings.HasPrefix(string(b.Style(nil).Data), "body{color:red}") {
		t.Errorf("the course's own style sheet is not used: %.40s", b.Style(nil).Data)
	}
	if !bytes.Equal(b.Script.Data, build(t, layouts.FS).Script.Data) {
		t.Error("the script changed, though the course has none of its own")
	}
}

func TestNameChangesWithContent(t *testing.T) {
	// The sum is SHA-256 of "abc" (FIPS 180-4, example B.1): ba7816bf 8f01cfea …
	expectName(t, "lessons/x/Plan.PNG", "abc", "assets/plan-ba7816bf8f.png")
	expectName(t, "Übung 1 (neu).svg", "abc", "assets/-bung-1--neu--ba7816bf8f.svg")
	expectName(t, "plait.css", "abc", "assets/plait-ba7816bf8f.css")
	if Name("a.svg", []byte("abc")) == Name("a.svg", []byte("abd")) {
		t.Error("two contents have one name")
	}
}

func expectName(t *testing.T, name, content, want string) {
	t.Helper()
	if got := Name(name, []byte(content)); got != want {
		t.Errorf("Name(%q) = %q, want %q", name, got, want)
	}
}

func BenchmarkBuild(b *testing.B) {
	for b.Loop() {
		if _, err := Build(layouts.FS); err != nil {
			b.Fatal(err)
		}
	}
}
