// Package page makes the pages of a course.
//
// [Render] turns a course and what was computed for it into a tree of output
// files. It works in two halves that know little of each other: functions that
// make views (plain structures of worded text and formatted numbers) from the
// course, and templates that show views. A course may bring templates of its own.
package page

import (
	"bytes"
	"fmt"
	"html/template"
	"io/fs"
	"path"
	"slices"
	"sync"
	"sync/atomic"
	"unicode/utf8"

	"plait/internal/artifact"
	"plait/internal/asset"
	"plait/internal/check"
	"plait/internal/course"
	"plait/internal/derive"
	"plait/internal/diag"
	"plait/internal/lesson"
	"plait/internal/paper"
	"plait/internal/parallel"
	"plait/internal/source"
)

// Options say how pages are made.
type Options struct {
	Theme   *Theme // the look
	Files   fs.FS  // the folder of the course, for its pictures
	Live    string // address of a script for all pages, for a live preview; "" for none
	Workers int    // pages made at the same time; 0 for one per processor

	// Lazy pages are made when they are asked for, so that they need not all be held. It
	// is for templates that can show every view: a fault comes to light as late.
	Lazy bool

	// Sample makes one page of each kind at once all the same, but for those that list the
	// whole course at length: most faults of templates show in any page of their kind.
	Sample bool

	Kept *Kept // from the build before; nil keeps nothing

	Found    []diag.Diagnostic // what was found in the course, sorted; none is an error
	Accepted []check.Accepted  // what its lessons let stand
}

// Render makes all pages of a course and names the files they need. The same
// input gives the same bytes, whatever the number of workers. An error is about a
// template that cannot show its view or a picture that cannot be read.
func Render(c *course.Course, d *derive.Derived, o Options) (*artifact.Tree, error) {
	b, err := newBuilder(c, d, o)
	if err != nil {
		return nil, err
	}
	jobs := b.jobs()
	const beside = 100 // files that are no pages, about
	tree := artifact.Over(b.gallery, len(jobs)+beside)
	for _, f := range append(b.worn(), o.Theme.bundle.Icon, b.work) {
		if err := tree.Add(artifact.File{Path: f.Path, Stage: artifact.Asset, Data: f.Data}); err != nil {
			return nil, err
		}
	}
	for _, f := range []artifact.File{b.index, b.asking} {
		if !o.Lazy {
			if f.Data, err = f.Bytes(); err != nil {
				return nil, err
			}
			f.Make = nil
		}
		if err := tree.Add(f); err != nil {
			return nil, err
		}
	}
	if err := b.addRecordings(tree); err != nil {
		return nil, err
	}
	if o.Lazy {
		for _, j := range jobs {
			if err := tree.Add(artifact.File{Path: j.path, Stage: artifact.Page, Make: j.page}); err != nil {
				return nil, err
			}
		}
		if o.Sample {
			_, err = run(sample(jobs), o.Workers)
		}
		return tree, err
	}
	pages, err := run(jobs, o.Workers)
	if err != nil {
		return nil, err
	}
	for i, data := range pages {
		if err := tree.Add(artifact.File{Path: jobs[i].path, Stage: artifact.Page, Data: data}); err != nil {
			return nil, err
		}
	}
	return tree, nil
}

// builder holds what the pages of one course share. But for the workings it is not changed
// once made.
type builder struct {
	workers   int
	course    *course.Course
	derived   *derive.Derived
	found     map[*source.File][]diag.Diagnostic
	accepted  map[*source.File][]check.Accepted
	templates *Templates
	scripts   map[string]asset.File // by set, as the next
	styles    map[string]asset.File
	index     artifact.File // the script of the find page
	asking    artifact.File // the script of questions
	work      asset.File    // the script of bowls and head sheets
	site      *Site
	chromes   map[dress]func() *Chrome
	fault     atomic.Pointer[error] // of what pages share
	pictures  []*pictures           // those of texts, see texts
	gallery   *artifact.Tree        // all of them
	films     map[string]string     // paths from the root of the site by path in the course
	player    player
	within    map[*course.Module]func() string // links to the lessons of a module
	places    map[*lesson.Lesson]place
	shares    []*share // of the lessons, in their order
	memory    *Kept
	workings  sync.Map     // of bowls that were asked for once
	waiting   atomic.Int64 // how many of them
}

// dress is what a page's chrome depends on.
type dress struct {
	root string // way to the root of the site
	set  string
}

// worn returns what all sets are made of.
func (b *builder) worn() []asset.File {
	var files []asset.File
	for _, set := range sets {
		files = append(files, b.scripts[set], b.styles[set])
	}
	return files
}

// place is where a lesson stands in the course.
type place struct {
	module *course.Module
	number int // of the lesson in its module, from 1
	at     int // of the lesson in the course, from 0
}

func newBuilder(c *course.Course, d *derive.Derived, o Options) (*builder, error) {
	b := &builder{
		workers:   o.Workers,
		course:    c,
		derived:   d,
		found:     byFile(o.Found, spanOf),
		accepted:  byFile(o.Accepted, spanOfAccepted),
		templates: o.Theme.templates,
		player:    o.Theme.player,
		scripts:   map[string]asset.File{},
		styles:    map[string]asset.File{},
		places:    make(map[*lesson.Lesson]place, len(c.Lessons)),
		memory:    o.Kept,
	}
	if b.memory == nil {
		b.memory = &Kept{Once: true}
	}
	b.memory.begin()
	b.memory.knowSheets(d)
	if err := b.readPictures(o.Files); err != nil {
		return nil, err
	}
	if err := b.readFilms(o.Files); err != nil {
		return nil, err
	}
	for _, m := range c.Modules {
		for i, l := range m.Lessons {
			b.places[l] = place{module: m, number: i + 1, at: len(b.places)}
		}
	}
	b.takeShares()
	shades := b.tints()
	for _, set := range sets {
		b.scripts[set] = o.Theme.bundle.Script(set)
		b.styles[set] = b.memory.style(o.Theme.bundle, set, shades)
	}
	b.index = b.findIndex(o.Theme.find)
	b.asking = b.questionScript(o.Theme.questions)
	b.work = asset.File{Path: asset.Name("work.js", o.Theme.work), Data: o.Theme.work}
	b.site = b.newSite(o.Theme.bundle.Icon, o.Live)
	b.shared()
	return b, nil
}

// tints are what the swatches of a course show beside the ladder: the shades of its
// bowls, each once.
func (b *builder) tints() []asset.Tint {
	var list []asset.Tint
	seen := map[asset.Tint]bool{}
	for _, s := range b.shares {
		for _, t := range s.tints {
			if !seen[t] {
				seen[t] = true
				list = append(list, t)
			}
		}
	}
	return list
}

// shared makes ready what many pages have in common. Each piece of it is rendered once, when
// the first page asks for it: a preview shows one page of many.
func (b *builder) shared() {
	b.chromes = map[dress]func() *Chrome{}
	for _, root := range []string{"", "../"} {
		for _, set := range sets {
			b.chromes[dress{root, set}] = sync.OnceValue(func() *Chrome {
				chrome, err := b.templates.chrome(Frame{
					Site: b.site, Root: root,
					Style: b.styles[set].Path, Script: b.scripts[set].Path,
				})
				if err != nil {
					b.fail(err)
					return &Chrome{}
				}
				return chrome
			})
		}
	}
	b.within = map[*course.Module]func() string{}
	for _, m := range b.course.Modules {
		b.within[m] = sync.OnceValue(func() string {
			html, err := b.templates.part("within", b.withinRows(m))
			if err != nil {
				b.fail(err)
			}
			return string(html)
		})
	}
}

// fail notes that something which pages share could not be rendered: no page is whole then.
func (b *builder) fail(err error) { b.fault.CompareAndSwap(nil, &err) }

// readFilms names the films of all lessons by their content.
func (b *builder) readFilms(files fs.FS) error {
	b.films = map[string]string{}
	for _, l := range b.course.Lessons {
		if l.Film == nil {
			continue
		}
		to, err := remembered(b.memory, b.memory.films, files, l.Film.Path, asset.ReadName)
		if err != nil {
			return fmt.Errorf("film of %s: %w", l.Folder, err)
		}
		b.films[l.Film.Path] = to
	}
	return nil
}

// addRecordings puts the films into the tree, and what is written about recordings.
func (b *builder) addRecordings(tree *artifact.Tree) error {
	for name, to := range b.films {
		if _, there := tree.Get(to); there {
			continue
		}
		if err := tree.Add(artifact.File{Path: to, Stage: artifact.Asset, Input: name}); err != nil {
			return err
		}
	}
	for _, f := range b.playerFiles() {
		if err := tree.Add(artifact.File{Path: f.Path, Stage: artifact.Asset, Data: f.Data}); err != nil {
			return err
		}
	}
	for _, l := range b.course.Lessons {
		for to, data := range b.recordingText(l) {
			if err := tree.Add(artifact.File{Path: to, Stage: artifact.Asset, Data: data}); err != nil {
				return err
			}
		}
	}
	return nil
}

// job makes one page.
type job struct {
	path   string
	make   func(out []byte) ([]byte, error) // appends the page
	shared *atomic.Pointer[error]           // a fault of what pages share
}

// page appends the page to out, and names it in an error.
func (j job) page(out []byte) ([]byte, error) {
	page, err := j.make(out)
	if fault := j.shared.Load(); err == nil && fault != nil {
		err = *fault
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", j.path, err)
	}
	return page, nil
}

// jobs lists all pages.
func (b *builder) jobs() []job {
	list := []job{
		{path: dataPath, make: b.data}, // first, since it takes longest
		{path: "index.html", make: b.home},
		{path: "words.html", make: b.words},
		{path: "find.html", make: b.find},
		{path: "404.html", make: b.missing},
		{path: rulesPage, make: b.rules},
		{path: revisePage, make: b.revise},
	}
	if b.hasOrder() {
		list = append(list, job{path: orderPage, make: b.order})
	}
	if b.hasOutcomes() {
		list = append(list, job{path: outcomesPage, make: b.outcomes})
	}
	for i, m := range b.course.Modules {
		list = append(list, job{path: modulePath(m), make: func(out []byte) ([]byte, error) { return b.module(out, i, m) }})
	}
	for _, l := range b.course.Lessons {
		list = append(list, job{path: lessonPath(l), make: func(out []byte) ([]byte, error) { return b.lesson(out, l) }})
		if b.hasSheets(l) {
			list = append(list, job{path: sheetPath(l), make: func(out []byte) ([]byte, error) { return b.sheet(out, l) }})
		}
	}
	for _, p := range paper.All(b.course, b.derived) {
		list = append(list, job{path: paperPath(p.Name), make: func(out []byte) ([]byte, error) { return b.paper(out, p) }})
	}
	for _, p := range b.course.Pages {
		list = append(list, job{path: standingPath(p), make: func(out []byte) ([]byte, error) { return b.standing(out, p) }})
	}
	for i := range list {
		list[i].shared = &b.fault
	}
	return list
}

// sample returns one job of each folder, and those beside them that take little.
func sample(jobs []job) []job {
	long := []string{dataPath, "find.html", revisePage, outcomesPage}
	var list []job
	taken := map[string]bool{".": false}
	for _, j := range jobs {
		if dir := path.Dir(j.path); !taken[dir] && !slices.Contains(long, j.path) {
			taken[dir] = dir != "."
			list = append(list, j)
		}
	}
	return list
}

// run makes pages side by side and returns them in the order of the jobs.
func run(jobs []job, workers int) ([][]byte, error) {
	pages := make([][]byte, len(jobs))
	err := parallel.Each(workers, len(jobs), func(_, i int) error {
		page, err := jobs[i].page(nil)
		pages[i] = bytes.Clone(page) // all are held at once, so none with room to spare
		return err
	})
	return pages, err
}

// Paths of pages from the root of the site.
func lessonPath(l *lesson.Lesson) string { return "lessons/" + l.Name + ".html" }
func modulePath(m *course.Module) string { return "modules/" + m.Name.Value + ".html" }
func paperPath(name string) string       { return "papers/" + name + ".html" }
func standingPath(p *course.Page) string { return p.Name + ".html" }

// root is the way from a page to the root of the site.
func root(page string) string {
	if path.Dir(page) == "." {
		return ""
	}
	return "../"
}

// longestTitle is how many characters of a page's title windows, tabs and bookmarks
// have room for; the name of the course gives way first.
const longestTitle = 70

// frame returns what stands round the page of a path.
func (b *builder) frame(page, kind, heading, description string) Frame {
	title := b.site.Title
	switch named := heading + " · " + title; {
	case heading == title:
	case utf8.RuneCountInString(named) <= longestTitle:
		title = named
	default:
		title = heading
	}
	chrome := *b.chromes[dress{root(page), setOf(kind)}]()
	chrome.Top = template.HTML(markCurrent(string(chrome.Top), root(page)+page))
	return Frame{
		Site: b.site, Chrome: &chrome, Root: root(page), Policy: policy(b.site.Live), Kind: kind,
		Title: title, Heading: heading, Description: description,
	}
}
