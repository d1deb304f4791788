package browsertest

import (
	"fmt"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
)

// site is a built course.
type site struct {
	dir     string
	files   []string // every file, as a slash path from dir, sorted
	address string   // of a site that a server shows; else it is opened from dir
}

// built gives the demo course of this repository, built once for all tests.
func built(t *testing.T) *site {
	t.Helper()
	s, err := demo()
	if err != nil {
		t.Fatal(err)
	}
	return s
}

var demo = sync.OnceValues(func() (*site, error) {
	if dir := os.Getenv("PLAIT_SITE"); dir != "" {
		return readSite(dir)
	}
	scratch, err := os.MkdirTemp("", "browsertest")
	if err != nil {
		return nil, err
	}
	atEnd = append(atEnd, func() { os.RemoveAll(scratch) })
	out := filepath.Join(scratch, "site")
	if err := buildDemo(scratch, out); err != nil {
		return nil, err
	}
	return readSite(out)
})

// buildDemo builds the program and lets it build the course, as an author does.
func buildDemo(scratch, out string) error {
	bin := filepath.Join(scratch, "plait")
	for _, cmd := range [][]string{
		{"go", "build", "-o", bin, "plait/cmd/plait"},
		{bin, "build", "--course", repository(), "--out", out},
	} {
		if said, err := exec.Command(cmd[0], cmd[1:]...).CombinedOutput(); err != nil {
			return fmt.Errorf("%s: %w\n%s", strings.Join(cmd, " "), err, said)
		}
	}
	return nil
}

// repository is the root of the repository, which is the folder of the demo.
func repository() string {
	dir, err := filepath.Abs(filepath.Join("..", ".."))
	if err != nil {
		panic(err) // the working folder is gone
	}
	return dir
}

func readSite(dir string) (*site, error) {
	s, err := readFolder(dir)
	if err == nil && !s.has("index.html") {
		err = fmt.Errorf("%s holds no index.html", dir)
	}
	return s, err
}

// readFolder lists pages that need not be a whole site.
func readFolder(dir string) (*site, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	s := &site{dir: dir}
	err = fs.WalkDir(os.DirFS(dir), ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			s.files = append(s.files, name)
		}
		return err
	})
	return s, err
}

// withSuffix lists the files whose name ends in one of the suffixes.
func (s *site) withSuffix(suffixes ...string) []string {
	var names []string
	for _, name := range s.files {
		if slices.ContainsFunc(suffixes, func(suffix string) bool { return strings.HasSuffix(name, suffix) }) {
			names = append(names, name)
		}
	}
	return names
}

// pages lists the HTML pages.
func (s *site) pages() []string { return s.withSuffix(".html") }

// lessons lists the lesson pages.
func (s *site) lessons() []string {
	return slices.DeleteFunc(s.pages(), func(name string) bool { return path.Dir(name) != "lessons" })
}

func (s *site) has(name string) bool { return slices.Contains(s.files, name) }

// paths gives the names as paths on the disk.
func (s *site) paths(names []string) []string {
	paths := make([]string, len(names))
	for i, name := range names {
		paths[i] = filepath.Join(s.dir, filepath.FromSlash(name))
	}
	return paths
}

// served gives the site from a server of files, as it stands on the web.
func served(t *testing.T) *site {
	t.Helper()
	s := *built(t)
	server := httptest.NewServer(http.FileServer(http.Dir(s.dir)))
	t.Cleanup(server.Close)
	s.address = server.URL
	return &s
}

// url is the address of a page when the site is opened from its folder. The
// name may end in a fragment.
func (s *site) url(name string) string {
	name, fragment, _ := strings.Cut(name, "#")
	name, query, _ := strings.Cut(name, "?")
	if s.address != "" {
		return strings.TrimSuffix(s.address+"/"+name, "/")
	}
	u := url.URL{Scheme: "file", Path: path.Join(filepath.ToSlash(s.dir), name), RawQuery: query, Fragment: fragment}
	return u.String()
}
