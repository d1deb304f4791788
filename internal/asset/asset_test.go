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
	b, err := Build(files, nil, "plait", "plait-lesson")
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestBuildGivesTheSameBytes(t *testing.T) {
	a, b := build(t, layouts.FS), build(t, layouts.FS)
	for _, set := range []string{"plait", "plait-lesson"} {
		if a.Script(set).Path != b.Script(set).Path || !bytes.Equal(a.Script(set).Data, b.Script(set).Data) {
			t.Errorf("the script of %s differs from build to build", set)
		}
		x, y := a.Style(set, everyTint()), b.Style(set, everyTint())
		if x.Path != y.Path || !bytes.Equal(x.Data, y.Data) {
			t.Errorf("the style sheet of %s differs from build to build", set)
		}
	}
}

// A page from a folder runs classic scripts only and reads no other file.
func TestBundleStandsAlone(t *testing.T) {
	b := build(t, layouts.FS)
	for _, set := range []string{"plait", "plait-lesson"} {
		script, style := string(b.Script(set).Data), string(b.Style(set, nil).Data)
		expectNone(t, set+".js", script, "import ", "import(", "fetch(", "XMLHttpRequest", "eval(", "http://", "https://")
		expectNone(t, set+".css", style, "@import", "https://")
		if !strings.HasPrefix(script, "(()=>{") {
			t.Errorf("the script of %s is not one closed function: %.20s", set, script)
		}
	}
}

func expectNone(t *testing.T, name, text string, forbidden ...string) {
	t.Helper()
	for _, f := range forbidden {
		if strings.Contains(text, f) {
			t.Errorf("%s has %q", name, f)
		}
	}
}

func TestBuildSaysWhereAScriptIsWrong(t *testing.T) {
	own := fstest.MapFS{"scripts/plait.js": {Data: []byte("let a = 1;\nlet = ;\n")}}
	_, err := Build(Overlay(own, layouts.FS), nil, "plait")
	if err == nil || !strings.HasPrefix(err.Error(), "scripts/plait.js:2:") {
		t.Errorf("got %v, want an error at scripts/plait.js:2", err)
	}
}

func TestOverlay(t *testing.T) {
	own := fstest.MapFS{"styles/plait.css": {Data: []byte("body{color:red}")}}
	b := build(t, Overlay(own, layouts.FS))
	if !strings.HasPrefix(string(b.Style("plait", nil).Data), "body{color:red}") {
		t.Errorf("the course's own style sheet is not used: %.40s", b.Style("plait", nil).Data)
	}
	if !bytes.Equal(b.Script("plait").Data, build(t, layouts.FS).Script("plait").Data) {
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
		if _, err := Build(layouts.FS, nil, "plait", "plait-lesson"); err != nil {
			b.Fatal(err)
		}
	}
}
