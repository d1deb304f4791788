package course

import (
	"maps"
	"path"
	"slices"
	"strings"
	"sync"

	"plait/internal/diag"
	"plait/internal/lesson"
	"plait/internal/markdown"
	"plait/internal/source"
)

// Parts are the read parts of a course, in the order of their files.
type Parts struct {
	Settings Settings
	Ranges   []*Range
	Words    []Word
	Pages    []*Page
	Papers   []*Paper
	Lessons  []*lesson.Lesson
	Unlisted bool // a folder could not be listed: nobody knows what else there is
}

// Link puts the parts together and reports what does not fit: names that clash or
// lead nowhere, lessons that no module names, links without a goal.
func Link(p Parts) (*Course, []diag.Diagnostic) { return new(Kept).Link(p) }

type linker struct {
	*Course
	lessons []*lesson.Lesson // all, taught or not
	found   []diag.Diagnostic
}

// place puts the lessons into their modules, or aside.
func (k *linker) place() {
	if len(k.lessons) == 0 {
		k.empty()
		return
	}
	byName := k.names(k.lessons)
	taught := k.modules(byName)
	k.strays(k.lessons, byName, taught)
}

func (k *linker) report(d diag.Diagnostic) { k.found = append(k.found, d) }

func (k *linker) empty() {
	if k.partial {
		return
	}
	k.report(diag.Errorf("course/empty", k.File.Span(0, 0), "the course has no lessons").
		WithHelp("make a folder such as lessons/01-first-bowl with a lesson.md inside; `plait start DIR` shows one"))
}

// head is where a lesson as a whole is blamed.
func head(l *lesson.Lesson) source.Span {
	if l.Title.Span.Valid() {
		return l.Title.Span
	}
	return l.File.Span(0, 0)
}

// names finds two lessons of one name: the numbers of folders only order them.
func (k *linker) names(lessons []*lesson.Lesson) map[string]*lesson.Lesson {
	byName := make(map[string]*lesson.Lesson, len(lessons))
	for _, l := range lessons {
		if first, twice := byName[l.Name]; twice {
			k.report(diag.Errorf("course/lesson-twice", head(l), "two lessons are called %q", l.Name).
				WithNote(head(first), "the first is %s", first.Folder).
				WithHelp("give one of the folders another name behind its number"))
			continue
		}
		if !isName(l.Name) {
			k.report(diag.Errorf("course/name", head(l), "the folder name %q cannot stand in an address", l.Name).
				WithHelp("use small letters, digits and hyphens, as in 04-brassy-gloss"))
		}
		byName[l.Name] = l
	}
	return byName
}

// modules puts the lessons into their modules and returns where each is named.
func (k *linker) modules(byName map[string]*lesson.Lesson) map[*lesson.Lesson]source.Span {
	taken := make(map[*lesson.Lesson]source.Span, len(byName))
	k.Lessons = make([]*lesson.Lesson, 0, len(byName))
	names := sync.OnceValue(func() []string { return slices.Sorted(maps.Keys(byName)) })
	for _, o := range k.Outline {
		m := &Module{Outline: o}
		k.Modules = append(k.Modules, m)
		for _, t := range o.Lessons {
			l, ok := byName[t.Value]
			if !ok {
				k.unknownLesson(t, names())
				continue
			}
			if at, twice := taken[l]; twice {
				k.report(diag.Errorf("course/lesson-placed-twice", t.Span, "the lesson %q is taught twice", t.Value).
					WithNote(at, "first here").WithHelp("keep it in one module; others can link to it"))
				continue
			}
			taken[l] = t.Span
			if !l.Draft {
				m.Lessons = append(m.Lessons, l)
				k.Lessons = append(k.Lessons, l)
			}
		}
	}
	return taken
}

func (k *linker) unknownLesson(t source.Text, names []string) {
	d := diag.Errorf("course/lesson", t.Span, "there is no lesson %q", t.Value)
	if near := diag.DidYouMean(t.Value, names); near != "" {
		d = d.WithHelp("did you mean %q?", near)
	} else {
		d = d.WithHelp("the lessons are: %s (a folder's name without its number)", strings.Join(names, ", "))
	}
	k.report(d)
}

// strays finds lessons that no module teaches. Nothing is said where the fault lies
// elsewhere and was reported there: in course.yaml, in a header that could not be
// read, in a name that cannot be used or that two lessons have.
func (k *linker) strays(lessons []*lesson.Lesson, byName map[string]*lesson.Lesson, taught map[*lesson.Lesson]source.Span) {
	for _, l := range lessons {
		_, named := taught[l]
		switch {
		case l.Draft:
			k.Drafts = append(k.Drafts, l)
		case k.partial, !l.Title.Span.Valid(), byName[l.Name] != l, !isName(l.Name):
		case !named:
			k.report(diag.Errorf("course/stray", head(l), "no module teaches this lesson").
				WithHelp("add %s to the lessons of a module in %s, or write ready: no in its header", l.Name, SettingsFile))
			k.Drafts = append(k.Drafts, l) // the rest of what is wrong with it is said at once
		}
	}
}

// ranges finds ranges that are named by the settings and by each other, and are not there.
func (k *linker) ranges() {
	k.knownRange(k.Course.Range)
	for _, r := range k.Ranges {
		for _, t := range r.with {
			k.knownRange(t)
		}
	}
}

// rangesOf is ranges of a lesson, whose formulas must have one.
func (k *linker) rangesOf(l *lesson.Lesson) {
	k.knownRange(l.Range)
	for _, f := range l.Formulas {
		k.knownRange(f.Range)
		if len(k.Ranges) != 1 && f.Range.Value == "" && l.Range.Value == "" && k.Course.Range.Value == "" {
			k.noRange(f)
		}
	}
}

// all returns the taught lessons and the drafts: both are checked.
func (c *Course) all() []*lesson.Lesson { return slices.Concat(c.Lessons, c.Drafts) }

// rangeIDs returns the names of all ranges.
func (c *Course) rangeIDs() []string {
	ids := make([]string, len(c.Ranges))
	for i, r := range c.Ranges {
		ids[i] = r.ID
	}
	return ids
}

func (k *linker) knownRange(t source.Text) {
	if t.Value == "" || findRange(k.Ranges, t.Value) != nil {
		return
	}
	ids := k.rangeIDs()
	d := diag.Errorf("range/unknown", t.Span, "there is no range %q", t.Value)
	if near := diag.DidYouMean(t.Value, ids); near != "" {
		k.report(d.WithHelp("did you mean %q?", near))
		return
	}
	k.report(d.WithHelp("a range is a file such as %s/%s.yaml", RangesFolder, t.Value))
}

func (k *linker) noRange(f *lesson.Formula) {
	ids := k.rangeIDs()
	d := diag.Errorf("range/unknown", f.Span, "the formula names no range of shades")
	if len(ids) == 0 {
		k.report(d.WithHelp("describe your maker's shades in a file such as %s/meadow.yaml", RangesFolder))
		return
	}
	k.report(d.WithHelp("write range: in the formula, in the lesson's header or in %s; the ranges are: %s", SettingsFile, strings.Join(ids, ", ")))
}

// Goal is where a link leads: a lesson or a standing page of the course, a file that
// plait makes by itself, or another place in the same text. Exactly one of External,
// Lesson, Page and Made is set, or none for the same text.
type Goal struct {
	External string
	Lesson   *lesson.Lesson
	Page     *Page
	Made     string // from the root of the site
	Fragment string // without its #
}

// Goal resolves the target of a link that stands in a file of the course. Links
// name files, as they lie on the author's disk.
func (c *Course) Goal(from *source.File, target string) (Goal, bool) {
	if strings.Contains(target, "://") || strings.HasPrefix(target, "mailto:") {
		return Goal{External: target}, true
	}
	file, fragment, _ := strings.Cut(target, "#")
	if file == "" {
		return Goal{Fragment: fragment}, fragment != ""
	}
	name := beside(from.Name(), file)
	if at, ok := c.texts[name]; ok {
		if page := at - len(c.Lessons); page >= 0 {
			return Goal{Page: c.Pages[page], Fragment: fragment}, true
		}
		return Goal{Lesson: c.Lessons[at], Fragment: fragment}, true
	}
	if made, ok := c.made(name); ok && fragment == "" {
		return Goal{Made: made}, true
	}
	return Goal{}, false
}

// beside is the path of a file that is named from where another lies: path.Join, at once for what
// authors write.
func beside(name, target string) string {
	dir, rest := parent(name), target
	for dir != "" {
		up, ok := strings.CutPrefix(rest, "../")
		if !ok {
			break
		}
		dir, rest = parent(dir), up
	}
	if dir == "" || rest == "" || rest[0] == '/' || rest[0] == '.' || strings.Contains(rest, "/.") || strings.Contains(rest, "//") || strings.HasSuffix(rest, "/") {
		return path.Join(path.Dir(name), target)
	}
	return dir + "/" + rest
}

// parent is the folder of a clean path, "" at the top.
func parent(name string) string { return name[:max(strings.LastIndexByte(name, '/'), 0)] }

// goals finds the texts that links can name.
func (k *linker) goals() {
	k.texts = make(map[string]int, len(k.Pages)+len(k.Lessons))
	for i, p := range k.Pages {
		k.texts[p.File.Name()] = len(k.Lessons) + i
	}
	for i, l := range k.Lessons {
		k.texts[l.File.Name()] = i
	}
}

// made returns the file of the site that lies under a name on the author's disk once
// the course is built; ok is false for one that plait does not make by itself.
func (c *Course) made(name string) (file string, ok bool) {
	file, ok = strings.CutPrefix(name, SiteFolder+"/")
	if !ok {
		return "", false
	}
	switch file {
	case "index.html", "words.html", "find.html", "rules.html", "revise.html", "course.json":
		return file, true
	case "order.html":
		return file, c.Class.Heads.Set()
	}
	if name, ok := strings.CutPrefix(strings.TrimSuffix(file, ".html"), "papers/"); ok {
		_, ok = c.Paper(name)
		return file, ok
	}
	return "", false
}

// linksOf finds links of a text that lead nowhere.
func (k *linker) linksOf(file *source.File, doc *markdown.Document) {
	for _, link := range doc.Links {
		goal, ok := k.Goal(file, link.Target.Value)
		if !ok {
			k.noGoal(file, link.Target)
			continue
		}
		k.fragment(doc, goal, link.Target)
	}
}

// noGoal reports a link to what has no page. A lesson that no module teaches has none
// either, but is a fault of its own.
func (k *linker) noGoal(from *source.File, target source.Text) {
	name, _, _ := strings.Cut(target.Value, "#")
	name = path.Join(path.Dir(from.Name()), name)
	i := slices.IndexFunc(k.lessons, func(l *lesson.Lesson) bool { return l.File.Name() == name })
	switch {
	case i < 0:
		k.report(diag.Errorf("text/link", target.Span, "the link %q leads nowhere", target.Value).
			WithHelp("name a file of the course from here, as in ../04-brassy-gloss/lesson.md, or a whole address with https://"))
	case k.lessons[i].Draft:
		k.report(diag.Errorf("text/link", target.Span, "the link %q leads to a lesson that is not ready and has no page", target.Value).
			WithHelp("take the link away until it is, or take ready: no out of its header"))
	}
}

func (k *linker) fragment(own *markdown.Document, goal Goal, target source.Text) {
	switch {
	case goal.Fragment == "" || goal.External != "":
		return
	case goal.Lesson != nil:
		own = goal.Lesson.Doc
	case goal.Page != nil:
		own = goal.Page.Doc
	}
	ids := own.IDs()
	if slices.Contains(ids, goal.Fragment) {
		return
	}
	d := diag.Errorf("text/link", target.Span, "there is no heading #%s", goal.Fragment)
	if near := diag.DidYouMean(goal.Fragment, ids); near != "" {
		d = d.WithHelp("did you mean #%s?", near)
	} else {
		d = d.WithHelp("the headings are: #%s", strings.Join(ids, ", #"))
	}
	k.report(d)
}
