package cli

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"plait/internal/artifact"
	"plait/internal/build"
	"plait/internal/diag"
	"plait/internal/preview"
	"plait/internal/starter"
	"plait/internal/watch"
	"plait/layouts"
)

var (
	edits    = flag.Int("edits", 12, "how often TestIncrementalIsExact changes its course")
	editSeed = flag.Uint64("editseed", 0, "the changes that TestIncrementalIsExact makes; 0 for others each time")
)

// edited is a course that is changed at random. Each of its numbers is a state of some
// part of it.
type edited struct {
	lessons                                []editedLesson
	settings, words, about, paper, pricing int
	address, own, second, third            bool // an address, own layouts, a second range, a third page
	look                                   int  // of the own layouts
	breach                                 func(files map[string]string)
}

type editedLesson struct {
	name                                  string
	folder                                int // the number in front of its folder's name
	text, grams, picture, sheet, captions int
	film, asks                            bool
}

// changes are the ways in which a course is changed.
var changes = []func(e *edited, r *rand.Rand) string{
	func(e *edited, r *rand.Rand) string { return "nothing" },
	func(e *edited, r *rand.Rand) string { return "nothing at all" },
	func(e *edited, r *rand.Rand) string { e.one(r).text++; return "text" },
	func(e *edited, r *rand.Rand) string { e.one(r).grams += 6; return "bowl" },
	func(e *edited, r *rand.Rand) string { e.one(r).picture++; return "picture" },
	func(e *edited, r *rand.Rand) string { l := e.one(r); l.sheet = (l.sheet + 1) % 4; return "head sheet" },
	func(e *edited, r *rand.Rand) string { e.one(r).captions++; return "captions" },
	func(e *edited, r *rand.Rand) string { l := e.one(r); l.film = !l.film; return "film" },
	func(e *edited, r *rand.Rand) string { l := e.one(r); l.asks = !l.asks; return "question" },
	func(e *edited, r *rand.Rand) string { e.one(r).folder = 10 + r.IntN(80); return "folder" },
	func(e *edited, r *rand.Rand) string {
		e.one(r).name = fmt.Sprintf("lesson-%d", r.IntN(1000))
		return "name"
	},
	func(e *edited, r *rand.Rand) string {
		if len(e.lessons) == 4 {
			return "enough lessons"
		}
		e.lessons = append(e.lessons, editedLesson{name: fmt.Sprintf("lesson-%d", r.IntN(1000)), folder: 10 + r.IntN(80), grams: 24})
		return "new lesson"
	},
	func(e *edited, r *rand.Rand) string {
		if len(e.lessons) > 1 {
			i := r.IntN(len(e.lessons))
			e.lessons = slices.Delete(e.lessons, i, i+1)
		}
		return "lesson gone"
	},
	func(e *edited, r *rand.Rand) string {
		r.Shuffle(len(e.lessons), func(i, j int) { e.lessons[i], e.lessons[j] = e.lessons[j], e.lessons[i] })
		return "order"
	},
	func(e *edited, r *rand.Rand) string { e.settings++; return "course.yaml" },
	func(e *edited, r *rand.Rand) string { e.address = !e.address; return "address" },
	func(e *edited, r *rand.Rand) string { e.words = (e.words + 1) % 4; return "words" },
	func(e *edited, r *rand.Rand) string { e.about++; return "page" },
	func(e *edited, r *rand.Rand) string { e.third = !e.third; return "page comes or goes" },
	func(e *edited, r *rand.Rand) string { e.paper = (e.paper + 1) % 4; return "paper" },
	func(e *edited, r *rand.Rand) string { e.pricing++; return "range" },
	func(e *edited, r *rand.Rand) string { e.second = !e.second; return "range comes or goes" },
	func(e *edited, r *rand.Rand) string { e.own = !e.own; return "own layouts" },
	func(e *edited, r *rand.Rand) string { e.look++; return "layout" },
	func(e *edited, r *rand.Rand) string { return e.breakAny(r) },
	func(e *edited, r *rand.Rand) string { return e.breakAny(r) },
	func(e *edited, r *rand.Rand) string { return e.breakAny(r) },
}

// one is a lesson that is to be changed.
func (e *edited) one(r *rand.Rand) *editedLesson { return &e.lessons[r.IntN(len(e.lessons))] }

// breakAny breaks a file of the course until the next change.
func (e *edited) breakAny(r *rand.Rand) string {
	nth, way := r.IntN(1000), r.IntN(4)
	e.breach = func(files map[string]string) {
		names := slices.Sorted(maps.Keys(files))
		name := names[nth%len(names)]
		switch way {
		case 0:
			files[name] = ""
		case 1:
			delete(files, name)
		case 2:
			files[name] = strings.Replace(files[name], "title", "titel", 1)
		case 3:
			files[name] = files[name][:len(files[name])/2]
		}
	}
	return "breach"
}

// files are the files of the course.
func (e *edited) files(t *testing.T) map[string]string {
	t.Helper()
	files := map[string]string{}
	for _, name := range []string{"content/course.yaml", "content/ranges/example.yaml", "content/words.yaml", "content/about.md", "content/safety.md", lessonFile} {
		data, err := fs.ReadFile(starter.Files(), name)
		if err != nil {
			t.Fatal(err)
		}
		files[name] = string(data)
	}
	lesson := files[lessonFile]
	delete(files, lessonFile)
	var list []string
	taken := map[string]bool{}
	for _, l := range e.lessons {
		for taken[l.name] {
			l.name += "x"
		}
		taken[l.name] = true
		list = append(list, l.name)
		l.write(files, fmt.Sprintf("lessons/%02d-%s/", l.folder, l.name), lesson)
	}
	settings := strings.Replace(files["content/course.yaml"], "[first-bowl]", "["+strings.Join(list, ", ")+"]", 1)
	settings = strings.Replace(settings, "first edition", fmt.Sprintf("edition %d", e.settings), 1)
	settings = strings.Replace(settings, "heads: 6", fmt.Sprintf("heads: %d", 1+e.settings%9), 1)
	if e.address {
		settings += "\naddress: https://course.example/\n"
	}
	if e.own {
		settings += "\nlayouts: look\n"
	}
	files["content/course.yaml"] = settings
	files["look/templates/foot.html"] = fmt.Sprintf("{{define \"foot\"}}<footer><p>Look %d</p></footer>{{end}}", e.look)
	files["content/about.md"] += fmt.Sprintf("\nState %d.\n", e.about)
	files["content/ranges/example.yaml"] = strings.Replace(files["content/ranges/example.yaml"], "8.00 GBP", fmt.Sprintf("%d.50 GBP", 1+e.pricing), 1)
	if e.second {
		files["content/ranges/second.yaml"] = strings.Replace(files["content/ranges/example.yaml"], "name: Example", "name: Second", 1)
	}
	if e.third {
		files["content/third.md"] = "---\ntitle: A third page\nsummary: It comes and goes.\n---\n\nNo more than this.\n"
	}
	if e.words > 0 {
		files["content/words.yaml"] = strings.Repeat("\n", e.words) + fmt.Sprintf("- {term: bowl, meaning: What is mixed %d.}\n", e.words)
	}
	if e.paper > 0 && slices.ContainsFunc(e.lessons, func(l editedLesson) bool { return l.asks }) {
		files["content/papers/first.yaml"] = fmt.Sprintf("title: A paper\nsummary: What was learnt.\ntime: %d min\npass: 50 %%\ndraw: [{questions: 1, module: first-steps}]\n", 10*e.paper)
	}
	if e.breach != nil {
		e.breach(files)
	}
	return files
}

// write adds the files of a lesson, whose text is made out of the one of the starter.
func (l editedLesson) write(files map[string]string, folder, text string) {
	lesson := strings.Replace(text, "Your first bowl", fmt.Sprintf("Bowl %d of %s", l.text, l.name), 1)
	lesson = strings.Replace(lesson, "24 g colour", fmt.Sprintf("%d g colour", l.grams), 1)
	lesson = strings.Replace(lesson, "mixed: 72 g", fmt.Sprintf("mixed: %d g", 3*l.grams), 1)
	files[folder+"bowl.svg"] = fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d 40"><title>A bowl</title></svg>`, 40+l.picture)
	if l.sheet > 0 {
		files[folder+"plan.head.yaml"] = fmt.Sprintf("title: Where it goes, %d\nsections:\n  - {part: horseshoe, gives: [top, lengths]}\ndraw:\n  views: [left]\n  number: [lengths]\n", l.sheet)
		lesson = strings.Replace(lesson, `on: ["lengths"]`, "on: [lengths]", 1) + "\n![Where it goes](plan.head.yaml \"left\")\n"
	}
	if l.film {
		files[folder+"talk.vtt"] = fmt.Sprintf("WEBVTT\n\n00:00.000 --> 00:30.000\nRead the hair, %d.\n\n00:30.000 --> 00:50.000\nWeigh the bowl.\n", l.captions)
		lesson = strings.Replace(lesson, "uses: ", "recording: {link: \"https://film.example/a\", captions: talk.vtt, length: \"0:50\"}\nuses: ", 1)
	}
	if l.asks {
		lesson += "\n```question more\nask: How much for 40 g of colour?\ngiven: {formula: gloss, colour: 40 g}\nfind: developer\ntests: weighs-bowl\npaper: yes\nbecause: Twice as much.\n```\n"
	}
	files[folder+"lesson.md"] = lesson
}

// incremental is a course on the disk with all that is kept from build to build.
type incremental struct {
	t       *testing.T
	dir     string
	minute  time.Time // a clock that is far from ours and never stands still
	site    map[string]string
	show    *previewer
	batches chan []string
}

// TestIncrementalIsExact changes a course at random. After each change the next build
// and the preview that goes on have byte for byte what a build without a memory has;
// where the change has broken the course both have what was there before.
func TestIncrementalIsExact(t *testing.T) {
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	t.Setenv("HOME", t.TempDir())
	seed := *editSeed
	for seed == 0 {
		seed = rand.Uint64()
	}
	t.Logf("seed: -editseed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	in := &incremental{t: t, dir: t.TempDir(), minute: time.Date(2001, 1, 1, 0, 0, 0, 0, time.UTC), batches: make(chan []string)}
	e := &edited{lessons: []editedLesson{{name: "one", folder: 10, grams: 24, asks: true}, {name: "two", folder: 20, grams: 30, film: true, sheet: 1}}, paper: 1}
	in.save(e.files(t), r)
	in.show = &previewer{dir: in.dir, console: console{out: io.Discard, err: io.Discard}, server: preview.New()}
	watcher, err := watch.New(in.dir, notWatched)
	if err != nil {
		t.Fatal(err)
	}
	go func() { _ = watcher.Run(t.Context(), in.batches) }()
	in.show.build(t.Context(), nil)
	good, broken, recalled := 0, 0, 0
	for i := range *edits {
		var what []string
		for range 1 + r.IntN(2) {
			e.breach = nil
			what = append(what, changes[r.IntN(len(changes))](e, r))
		}
		in.save(e.files(t), r)
		if r.IntN(10) == 0 {
			what = append(what, in.spoil(r))
		}
		if remembered(in.dir) {
			recalled++
		}
		if in.expectExact(e.breach != nil) {
			good++
		} else {
			broken++
		}
		if t.Failed() {
			t.Fatalf("change %d: %q", i, what)
		}
	}
	t.Logf("%d changes: %d good courses, %d broken ones, %d builds from memory", *edits, good, broken, recalled)
	if good == 0 {
		t.Error("no course was without errors")
	}
}

// save brings the folder to the given files, by writing in place or by renaming a new
// file over the old one. A time of change is a minute later with each save.
func (in *incremental) save(files map[string]string, r *rand.Rand) {
	in.t.Helper()
	must := func(err error) {
		if err != nil {
			in.t.Helper()
			in.t.Fatal(err)
		}
	}
	public := filepath.Join(in.dir, "public")
	var old []string
	must(filepath.WalkDir(in.dir, func(file string, entry fs.DirEntry, err error) error {
		if file == public {
			return fs.SkipDir
		}
		old = append(old, file)
		return err
	}))
	slices.Reverse(old) // what is in a folder comes before it
	for name, text := range files {
		file := filepath.Join(in.dir, filepath.FromSlash(name))
		if data, err := os.ReadFile(file); err == nil && string(data) == text {
			continue
		}
		must(os.MkdirAll(filepath.Dir(file), 0o777))
		if r.IntN(2) == 0 {
			must(os.WriteFile(file, []byte(text), 0o666))
			continue
		}
		must(os.WriteFile(file+"~", []byte(text), 0o666))
		must(os.Rename(file+"~", file))
	}
	for _, file := range old {
		name, err := filepath.Rel(in.dir, file)
		must(err)
		if _, kept := files[filepath.ToSlash(name)]; !kept {
			_ = os.Remove(file) // a folder with files in it stays
		}
	}
	in.age()
}

// age gives all of the course that was changed since the last time the next time of our
// clock, so that it is old enough to be remembered.
func (in *incremental) age() {
	in.t.Helper()
	in.minute = in.minute.Add(time.Minute)
	err := filepath.WalkDir(in.dir, func(file string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if file == filepath.Join(in.dir, "public") {
			return fs.SkipDir
		}
		if info, err := entry.Info(); err == nil && info.ModTime().Year() > 2015 {
			return os.Chtimes(file, in.minute, in.minute)
		}
		return nil
	})
	if err != nil {
		in.t.Fatal(err)
	}
}

// spoil damages a file of the site.
func (in *incremental) spoil(r *rand.Rand) string {
	names := slices.Sorted(maps.Keys(in.site))
	if len(names) == 0 {
		return "no site"
	}
	name := names[r.IntN(len(names))]
	file := filepath.Join(in.dir, "public", filepath.FromSlash(name))
	if r.IntN(2) == 0 {
		_ = os.Remove(file)
		delete(in.site, name)
		return "page gone"
	}
	in.site[name] = "spoilt"
	if err := os.WriteFile(file, []byte("spoilt"), 0o666); err != nil {
		in.t.Fatal(err)
	}
	return "page spoilt"
}

// expectExact builds again with what is kept, and compares with a build that keeps
// nothing. It reports whether the course has no errors, which it may only have where it
// was broken.
func (in *incremental) expectExact(breached bool) bool {
	in.t.Helper()
	var said bytes.Buffer
	code := run(in.t.Context(), []string{"build", "--course", in.dir}, console{out: &said, err: &said})
	clean, good := in.clean("")
	if good != (code == exitFine) {
		in.t.Errorf("exit %d, and a clean build is good: %v\n%s", code, good, &said)
		return good
	}
	if !good && !breached {
		in.t.Errorf("a course that should be good is not:\n%s", &said)
	}
	if good {
		in.site = clean
	}
	in.expectSite("build", in.site, in.written())
	in.age()
	shown, good := in.clean(preview.Script)
	// The watcher tells of the change when it has become quiet.
	for end := time.Now().Add(20 * time.Second); ; {
		differing := in.shownOtherwise(shown, good)
		if differing == "" {
			return good
		}
		select {
		case changed := <-in.batches:
			in.show.build(in.t.Context(), changed)
		case <-time.After(time.Until(end)):
			in.t.Errorf("preview: %s differs from a clean build", differing)
			return good
		}
	}
}

// clean builds the course with nothing kept, and returns the files of its site.
func (in *incremental) clean(live string) (site map[string]string, good bool) {
	in.t.Helper()
	course, err := readCourse(context.Background(), in.dir, build.Options{Layouts: layouts.FS, Live: live})
	if err != nil {
		in.t.Fatal(err)
	}
	defer course.close()
	if diag.HasErrors(course.Diagnostics) {
		return nil, false
	}
	tree, err := course.Pages()
	if err != nil {
		return nil, false
	}
	site = map[string]string{}
	for _, f := range tree.Files() {
		site[f.Path] = string(in.bytesOf(course, f))
	}
	return site, true
}

func (in *incremental) bytesOf(course opened, f artifact.File) []byte {
	in.t.Helper()
	if f.Input == "" {
		return f.Data
	}
	data, err := fs.ReadFile(course.folder, f.Input)
	if err != nil {
		in.t.Fatal(err)
	}
	return data
}

// written returns the files of the folder public, without plait's own list.
func (in *incremental) written() map[string]string {
	in.t.Helper()
	site := map[string]string{}
	public := filepath.Join(in.dir, "public")
	if _, err := os.Stat(public); err != nil {
		return site
	}
	err := fs.WalkDir(os.DirFS(public), ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || name == ".plait" {
			return err
		}
		data, err := os.ReadFile(filepath.Join(public, filepath.FromSlash(name)))
		site[name] = string(data)
		return err
	})
	if err != nil {
		in.t.Fatal(err)
	}
	return site
}

func (in *incremental) expectSite(who string, want, got map[string]string) {
	in.t.Helper()
	for name := range want {
		if got[name] != want[name] {
			in.t.Errorf("%s: %s differs from a clean build", who, name)
		}
	}
	for name := range got {
		if _, ok := want[name]; !ok {
			in.t.Errorf("%s: %s is in no clean build", who, name)
		}
	}
}

// shownOtherwise names a file that the preview shows otherwise than it should, "" where
// there is none. Of a broken course only that is wanted: that it is known as one.
func (in *incremental) shownOtherwise(want map[string]string, good bool) string {
	page := func(name string) (int, string) {
		answer := httptest.NewRecorder()
		request := httptest.NewRequest(http.MethodGet, "http://127.0.0.1/"+name, nil)
		in.show.server.Handler().ServeHTTP(answer, request)
		return answer.Code, answer.Body.String()
	}
	_, list := page("-/problems")
	if broken := strings.Contains(list, "error"); broken == good {
		return "the list of problems"
	}
	if !good {
		return ""
	}
	for name, text := range want {
		if code, got := page(name); code != http.StatusOK || got != text {
			return name
		}
	}
	return ""
}
