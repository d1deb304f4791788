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
