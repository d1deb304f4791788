package artifact

import "testing"

func TestAdd(t *testing.T) {
	tree := New()
	for _, path := range []string{"index.html", "assets/a.css", "lessons/é.html"} {
		if err := tree.Add(File{Path: path}); err != nil {
			t.Errorf("%s: %v", path, err)
		}
	}
	for _, path := range []string{"", ".", "/index.html", "../x", "a//b", "a/../b", "index.html", "INDEX.html"} {
		if tree.Add(File{Path: path}) == nil {
			t.Errorf("%q was taken", path)
		}
	}
	if _, ok := tree.Get("Index.html"); ok {
		t.Error("Get folds case")
	}
}

// A tree over another has the files of both, and takes no path twice.
func TestOver(t *testing.T) {
	base := New()
	if err := base.Add(File{Path: "assets/a.svg"}); err != nil {
		t.Fatal(err)
	}
	tree := Over(base, 1)
	if err := tree.Add(File{Path: "index.html", Stage: Page}); err != nil {
		t.Fatal(err)
	}
	if tree.Add(File{Path: "assets/A.svg"}) == nil {
		t.Error("a path of the other was taken again")
	}
	_, own := tree.Get("index.html")
	_, others := tree.Get("assets/a.svg")
	if files := tree.Files(); !own || !others || tree.Len() != 2 || len(files) != 2 || files[0].Path != "assets/a.svg" {
		t.Errorf("got %v, %v, %+v", own, others, files)
	}
	if base.Len() != 1 {
		t.Error("the other has grown")
	}
}

func TestFilesComeByStageThenPath(t *testing.T) {
	tree := New()
	for _, f := range []File{{Path: "b.html", Stage: Page}, {Path: "z.css"}, {Path: "a.html", Stage: Page}} {
		if err := tree.Add(f); err != nil {
			t.Fatal(err)
		}
	}
	got := ""
	for _, f := range tree.Files() {
		got += f.Path + " "
	}
	if got != "z.css a.html b.html " {
		t.Errorf("got %s", got)
	}
}
