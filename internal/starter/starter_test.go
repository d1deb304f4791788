package starter_test

import (
	"io/fs"
	"testing"
	"unicode/utf8"

	"plait/internal/starter"
)

func TestFilesHoldWholeCourse(t *testing.T) {
	expectFiles(t, starter.Files(), []string{
		"content/about.md",
		"content/course.yaml",
		"content/ranges/example.yaml",
		"content/safety.md",
		"content/words.yaml",
		"lessons/01-first-bowl/bowl.svg",
		"lessons/01-first-bowl/lesson.md",
	})
}

func TestFilesAreText(t *testing.T) {
	files := starter.Files()
	for _, name := range names(t, files) {
		content, err := fs.ReadFile(files, name)
		if err != nil {
			t.Fatal(err)
		}
		if len(content) == 0 || content[len(content)-1] != '\n' {
			t.Errorf("%s: is empty or does not end its last line", name)
		}
		if !utf8.Valid(content) {
			t.Errorf("%s: is not UTF-8", name)
		}
	}
}

func expectFiles(t *testing.T, files fs.FS, want []string) {
	t.Helper()
	got := names(t, files)
	if len(got) != len(want) {
		t.Fatalf("files are %q, want %q", got, want)
	}
	for i, name := range want {
		if got[i] != name {
			t.Errorf("file %d is %q, want %q", i, got[i], name)
		}
	}
}

// names lists the files in the order of their names.
func names(t *testing.T, files fs.FS) []string {
	t.Helper()
	var list []string
	err := fs.WalkDir(files, ".", func(name string, entry fs.DirEntry, err error) error {
		if err == nil && !entry.IsDir() {
			list = append(list, name)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return list
}
