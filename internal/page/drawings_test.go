package page

import (
	"bytes"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"plait/internal/artifact"
	"plait/internal/check"
	"plait/internal/diag"
	"plait/internal/head"
)

// The area and the share of the nape below the occipital bone come from classifying a
// grid of 4000 by 2000 angles point by point, without a net (see package scalp).
func TestHeadSheetStandsInItsLesson(t *testing.T) {
	tree := render(t, 0)
	for _, name := range []string{"lessons/white-third.html", "sheets/white-third.html"} {
		file, ok := tree.Get(name)
		if !ok {
			t.Fatalf("there is no %s", name)
		}
		page := strings.ReplaceAll(string(file.Data), "\u00a0", " ")
		for _, want := range []string{
			`data-section="nape" data-area="88.2"`, "<td>88</td><td>14.6 %</td>", "<b>1</b>hairline",
			`data-bowl="bowl_cover"`, "nape: 14.6 % of the scalp, 88 cm²", "<td>603 cm²</td>",
		} {
			if !strings.Contains(page, want) {
				t.Errorf("%s lacks %s", name, want)
			}
		}
	}
}

// A sheet can be drawn several times on a page, and each drawing is named by its own
// title and description.
func TestDrawingsHaveIDsOfTheirOwn(t *testing.T) {
	id := regexp.MustCompile(` id="([^"]*)"`)
	labelled := regexp.MustCompile(`aria-labelledby="(heads_[^ "]+|sheet_[^ "]+) ([^"]+)"`)
	pages := 0
	for _, f := range render(t, 0).Files() {
		if !bytes.Contains(f.Data, []byte(`class="heads"`)) {
			continue
		}
		pages++
		seen := map[string]bool{}
		for _, m := range id.FindAllStringSubmatch(string(f.Data), -1) {
			if seen[m[1]] {
				t.Errorf("%s has the id %q twice", f.Path, m[1])
			}
			seen[m[1]] = true
		}
		drawings := labelled.FindAllStringSubmatch(string(f.Data), -1)
		for _, m := range drawings {
			if !seen[m[1]] || !seen[m[2]] {
				t.Errorf("%s: a drawing is labelled by %q and %q, which are not there", f.Path, m[1], m[2])
			}
		}
		if len(drawings) == 0 {
			t.Errorf("%s has a figure without drawings", f.Path)
		}
	}
	if pages == 0 {
		t.Error("no page shows a head sheet")
	}
}

// The name of a file is no part of the page's marks, whatever it holds.
func TestNameOfASheetIsNoMarkup(t *testing.T) {
	name := `a b" onclick="c.head.yaml`
	files := fstest.MapFS{
		"content/course.yaml":          {Data: []byte("title: A\nlanguage: en\nmodules: [{name: m, title: M, lessons: [a]}]\n")},
		"lessons/01-a/lesson.md":       {Data: []byte("---\ntitle: A\nsummary: B\n---\n\n## Work\n\nText.\n")},
		"lessons/01-a/plain.head.yaml": {Data: []byte("sections: []\n")},
		"lessons/01-a/" + name:         {Data: []byte("sections: [{part: centre}]\n")},
	}
	c, d := readCourse(t, files)
	tree, err := Render(c, d, Options{Theme: theme(t), Files: files})
	if err != nil {
		t.Fatal(err)
	}
	expectIn(t, tree, "sheets/a.html", `<figure class="heads" id="sheet_1"`, `<figure class="heads" id="sheet_2"`)
	file, _ := tree.Get("sheets/a.html")
	if bytes.Contains(file.Data, []byte(`onclick="c`)) {
		t.Error("the name of a file makes an attribute")
	}
}

// A second build draws nothing that it has drawn already, and gives the same pages.
func TestDrawingsAreKept(t *testing.T) {
	files, c, d := demo(t)
	found, accepted := check.Run(c, d)
	kept := &Kept{}
	o := Options{Theme: theme(t), Files: files, Found: diag.Sorted(found), Accepted: accepted, Kept: kept}
	first, err := Render(c, d, o)
	if err != nil {
		t.Fatal(err)
	}
	drawnFirst := len(kept.now)
	again := func(key string) bool {
		redrawn := false
		kept.get(key, func() *drawn { redrawn = true; return &drawn{} })
		return redrawn
	}
	if drawnFirst == 0 {
		t.Fatal("nothing was drawn")
	}
	for key := range kept.now {
		if again(key) {
			t.Error("a drawing was not kept")
		}
	}
	second, err := Render(c, d, o)
	if err != nil {
		t.Fatal(err)
	}
	if len(kept.now) != drawnFirst {
		t.Errorf("the second build has %d sheets, the first %d", len(kept.now), drawnFirst)
	}
	if _, ok := kept.Work(); ok {
		t.Error("the second build says that it drew something")
	}
	kept.fresh = true
	data, ok := kept.Work()
	if !ok {
		t.Fatal("there are no drawings to take along")
	}
	elsewhere := &Kept{}
	elsewhere.LoadWork(data[:len(data)/2]) // is as good as none
	elsewhere.LoadWork(data)
	o.Kept = elsewhere
	third, err := Render(c, d, o)
	if err != nil {
		t.Fatal(err)
	}
	if _, ok := elsewhere.Work(); ok {
		t.Error("a build with loaded drawings says that it drew something")
	}
	for _, f := range first.Files() {
		for build, tree := range map[string]*artifact.Tree{"second": second, "third": third} {
			if other, _ := tree.Get(f.Path); !bytes.Equal(other.Data, f.Data) {
				t.Errorf("%s differs in the %s build", f.Path, build)
			}
		}
	}
}

// What the last build did not ask for is gone in the next.
func TestDrawingsAreForgotten(t *testing.T) {
	kept := &Kept{}
	count := 0
	ask := func() { kept.get("a", func() *drawn { count++; return &drawn{} }) }
	for _, asked := range []bool{true, true, false, true} {
		kept.begin()
		if asked {
			ask()
		}
	}
	if count != 2 {
		t.Errorf("drawn %d times, want 2: at first and after a build without it", count)
	}
}

func TestNumbersInOrder(t *testing.T) {
	in := []string{"", "10", "2", "1"}
	for i, a := range in {
		for k, b := range in {
			if got := cmpNumbers(a, b); (got > 0) != (i < k) || (got == 0) != (i == k) {
				t.Errorf("cmpNumbers(%q, %q) = %d", a, b, got)
			}
		}
	}
}

func TestReferenceHeadIsNamed(t *testing.T) {
	file, _ := render(t, 0).Get("sheets/white-third.html")
	if want := "reference head, 55.5 cm round"; head.ReferenceCircumference != 55.5 || !bytes.Contains(file.Data, []byte(want)) {
		t.Errorf("the sheet does not say %q", want)
	}
}
