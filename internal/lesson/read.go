package lesson

import (
	"errors"
	"io/fs"
	"path"
	"slices"
	"strings"

	"plait/internal/amount"
	"plait/internal/care"
	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/formula"
	"plait/internal/markdown"
	"plait/internal/measure"
	"plait/internal/source"
	"plait/internal/yamlpos"
)

// MaxBytes is the largest text that is read: far more than any lesson, and small
// enough that hostile Markdown is still read in a fraction of a second.
const MaxBytes = 256 << 10

// Blocks are the fences that mean something in a lesson.
var Blocks = []string{"formula", "question", "practical", "care", "open"}

// keys of a lesson's header, in the order the handbook gives them.
var keys = []string{
	"title", "summary", "outcomes", "hair", "recording", "chair", "uses", "kit", "range", "accept", "ready",
}

// Read reads the lesson in a folder of the course. It always answers; the
// diagnostics say what could not be read.
func Read(fsys fs.FS, folder string) (*Lesson, []diag.Diagnostic) { return read(fsys, folder, false) }

// ReadFacts is Read for whoever makes no page: the lesson's sections cannot be written.
// Writing them is a tenth of the work of reading a lesson.
func ReadFacts(fsys fs.FS, folder string) (*Lesson, []diag.Diagnostic) {
	return read(fsys, folder, true)
}

func read(fsys fs.FS, folder string, facts bool) (*Lesson, []diag.Diagnostic) {
	fsys, end := source.Near(fsys, folder)
	defer end()
	l := &Lesson{Name: nameOf(folder), Folder: folder}
	name := path.Join(folder, "lesson.md")
	file, fault := ReadText(fsys, name)
	l.File = file
	if fault != nil {
		l.Doc = &markdown.Document{}
		return l, []diag.Diagnostic{*fault}
	}
	header, body, fault := SplitHeader(file)
	r := yamlpos.NewReader()
	if fault != nil {
		r.Report(*fault)
	} else {
		l.readHeader(header, r)
	}
	l.readBody(body, facts, r)
	l.readSheets(fsys, r)
	l.checkPictures(fsys, r)
	l.readFilm(fsys, r)
	l.readCaptions(fsys, r)
	return l, r.Diagnostics()
}

// nameOf drops the number that only orders folders: "04-brassy-gloss" is
// "brassy-gloss".
func nameOf(folder string) string {
	base := path.Base(folder)
	rest := strings.TrimLeft(base, "0123456789")
	if name, ok := strings.CutPrefix(rest, "-"); ok && rest != base && name != "" {
		return name
	}
	return base
}

// ReadText reads an author's text file whole. A file that is missing, too large,
// outside the course or no UTF-8 comes back empty with the fault.
func ReadText(fsys fs.FS, name string) (*source.File, *diag.Diagnostic) {
	file, err := source.Read(fsys, name, MaxBytes)
	if err != nil {
		d := unreadable(name, err)
		return d.Span.File(), &d
	}
	if at, bad := file.Invalid(); bad {
		d := diag.Errorf("text/utf-8", at, "the byte 0x%x is not UTF-8 text", at.Text()[0]).
			WithHelp("save the file as UTF-8")
		return source.NewFile(name, nil), &d
	}
	return file, nil
}

// unreadable explains why a file of the course cannot be read, at its first line.
func unreadable(name string, err error) diag.Diagnostic {
	at := source.NewFile(name, nil).Whole()
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return diag.Errorf("text/missing", at, "%s is missing", name).
			WithHelp("add the file, or take its folder away")
	case errors.Is(err, source.ErrTooLarge):
		return diag.Errorf("text/size", at, "the file is larger than %d KiB", MaxBytes>>10).
			WithHelp("split it into several lessons; film and pictures are files of their own")
	}
	return diag.Errorf("text/unreadable", at, "cannot read the file: %v", Reason(err)).
		WithHelp("a file must lie inside the course and be readable; a link that leads out of the course is not followed")
}

// Reason strips the path from a file error: the message stands at it already.
func Reason(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

// SplitHeader cuts a text into its YAML header, between two lines of three
// hyphens, and what follows.
func SplitHeader(file *source.File) (header *source.Fragment, body source.Span, fault *diag.Diagnostic) {
	text := file.Text()
	first, _ := cutLine(text)
	if strings.TrimRight(first, " \t") != "---" {
		d := diag.Errorf("text/header", file.Span(0, len(first)), "the file does not begin with a header").
			WithHelp("begin with a line ---, then title: and summary:, then a line ---")
		return nil, file.Whole(), &d
	}
	start := lineEnd(text, 0)
	for at := start; at < len(text); at = lineEnd(text, at) {
		line, _ := cutLine(text[at:])
		if strings.TrimRight(line, " \t") == "---" {
			span := file.Span(start, at)
			return source.NewFragment(file.Span(0, 3), span), file.Span(lineEnd(text, at), len(text)), nil
		}
	}
	d := diag.Errorf("text/header", file.Span(0, 3), "the header is not closed").
		WithHelp("put a line --- behind the last key of the header")
	return nil, file.Span(len(text), len(text)), &d
}

func cutLine(s string) (line, rest string) {
	line, rest, _ = strings.Cut(s, "\n")
	return strings.TrimSuffix(line, "\r"), rest
}

// lineEnd returns the offset behind the line that holds at.
func lineEnd(s string, at int) int {
	if i := strings.IndexByte(s[at:], '\n'); i >= 0 {
		return at + i + 1
	}
	return len(s)
}

func (l *Lesson) readHeader(header *source.Fragment, r *yamlpos.Reader) {
	node, faults := yamlpos.Parse(header)
	r.Report(faults...)
	f := r.Fields(node, "a lesson's header", keys...)
	l.Title, _ = f.Need("title")
	l.Summary, _ = f.Need("summary")
	if f.Has("outcomes") {
		for _, p := range f.Entries("outcomes") {
			if t, ok := r.Text(p.Value, "an outcome"); ok {
				l.Outcomes = append(l.Outcomes, Outcome{Name: p.Key, Text: t})
			}
		}
	}
	if f.Has("hair") {
		l.Hair = readHair(f.Node("hair"), r)
	}
	if f.Has("recording") {
		l.Recording = readRecording(f.Node("recording"), r)
	}
	if t, ok := f.Text("chair"); ok {
		l.Chair = readChair(t, r)
	}
	if f.Has("uses") {
		l.Uses = readUses(f.Texts("uses"), r)
	}
	if f.Has("kit") {
		l.Kit = f.Texts("kit")
	}
	l.Range, _ = f.Text("range")
	if f.Has("accept") {
		l.readAccept(f.Nodes("accept"), r)
	}
	if ready, ok := f.Flag("ready"); ok {
		l.Draft = !ready
	}
}

// readUses keeps the uses that bring cautions.
func readUses(texts []source.Text, r *yamlpos.Reader) []source.Text {
	var out []source.Text
	for _, t := range texts {
		if !slices.Contains(care.Uses(), care.Use(t.Value)) {
			r.Report(diag.Errorf("care/uses", t.Span, "%q brings no cautions", t.Value).
				WithHelp("the uses are: %s", joined(care.Uses())))
			continue
		}
		out = append(out, t)
	}
	return out
}

// joined lists uses as words.
func joined(uses []care.Use) string {
	words := make([]string, len(uses))
	for i, u := range uses {
		words[i] = string(u)
	}
	return strings.Join(words, ", ")
}

// hairWords are the keys of the hair as a whole; all others are zones of the head.
var hairWords = []string{"warmth", "white", "length", "density", "porous"}

func readHair(node *yamlpos.Node, r *yamlpos.Reader) Hair {
	var h Hair
	for _, p := range r.Entries(node, "`hair`") {
		t, ok := r.Text(p.Value, "`hair`")
		if !ok {
			continue
		}
		switch p.Key.Value {
		case "warmth":
			h.Warmth = t
		case "white":
			h.White = t
			share, err := measure.ParsePercent(t.Value)
			switch {
			case err != nil:
				r.Report(diag.FromError("formula/hair", t.Span, err))
			case exact.One.Less(share):
				r.Report(diag.Errorf("formula/hair", t.Span, "%s white is more than all of it", t.Value).WithHelp("write a share of 100 %% or less"))
			}
		case "length":
			h.Length = oneWord(t, amount.ParseLength, amount.Lengths(), "length", r)
		case "density":
			h.Density = oneWord(t, amount.ParseDensity, amount.Densities(), "density", r)
		case "porous":
			h.Porous, _ = r.Flag(p.Value, "`porous`")
		default:
			state, faults := formula.ParseHair(t)
			if len(faults) > 0 {
				if near := diag.DidYouMean(p.Key.Value, hairWords); near != "" {
					r.Report(diag.Errorf("text/unknown-key", p.Key.Span, "`hair` has no key %q", p.Key.Value).
						WithHelp("did you mean %q? other keys are zones, as in lengths: 8 lightened", near))
					continue
				}
			}
			r.Report(faults...)
			h.Zones = append(h.Zones, Zone{Name: p.Key, Hair: state})
		}
	}
	return h
}

// oneWord returns a text that is one of the words of the trade for a property of
// hair, and reports any other.
func oneWord[T ~string](t source.Text, parse func(string) (T, bool), words []T, property string, r *yamlpos.Reader) source.Text {
	if _, ok := parse(t.Value); ok {
		return t
	}
	names := make([]string, len(words))
	for i, w := range words {
		names[i] = string(w)
	}
	d := diag.Errorf("formula/head", t.Span, "%q is no %s of hair", t.Value, property)
	list := "the words are: " + strings.Join(names, ", ")
	if near := diag.DidYouMean(t.Value, names); near != "" {
		list = "did you mean " + near + "? " + list
	}
	r.Report(d.WithHelp("%s", list))
	return source.Text{}
}

// readChair reads how long the client is said to sit, one time or a span.
func readChair(t source.Text, r *yamlpos.Reader) source.Stated[measure.Span] {
	span, err := measure.ParseSpan(t.Value)
	if err == nil && span.Max == 0 {
		r.Report(diag.Errorf("formula/time", t.Span, "no time in the chair at all").
			WithHelp("write the time from the first touch to the last rinse, as in 65 min, or leave it out"))
		return source.Stated[measure.Span]{}
	}
	if err != nil {
		r.Report(diag.FromError("formula/time", t.Span, err))
		return source.Stated[measure.Span]{}
	}
	return source.Stated[measure.Span]{Value: span, Span: t.Span}
}

func (l *Lesson) readAccept(nodes []*yamlpos.Node, r *yamlpos.Reader) {
	for _, n := range nodes {
		f := r.Fields(n, "an accepted finding", "rule", "at", "because")
		a := Acceptance{Span: f.Span()}
		var named, reasoned bool
		a.Rule, named = f.Need("rule")
		a.Because, reasoned = f.Need("because")
		a.At, _ = f.Text("at")
		if named && reasoned {
			l.Accept = append(l.Accept, a)
		}
	}
}

func (l *Lesson) readBody(body source.Span, facts bool, r *yamlpos.Reader) {
	doc, faults := markdown.Parse(l.File, body, markdown.Options{Blocks: Blocks, Steps: true, Facts: facts})
	r.Report(faults...)
	l.Doc, l.Intro = doc, doc.Intro
	if doc.Intro != nil {
		l.readBlocks(doc.Intro, nil, r)
	}
	for i, section := range doc.Sections {
		step := &Step{Section: section, Number: i + 1}
		step.Time = readStretch(section.Stamp, r)
		l.Steps = append(l.Steps, step)
		l.readBlocks(section, step, r)
	}
	if len(l.Steps) == 0 && !diag.HasErrors(r.Diagnostics()) {
		r.Report(diag.Errorf("text/steps", body.Sub(0, 0), "the lesson has no steps").
			WithHelp("begin each step with a heading such as ## 0:42 Mix the gloss"))
	}
}

// readStretch reads "0:42" or "0:42-2:10".
func readStretch(stamp source.Text, r *yamlpos.Reader) Stretch {
	if stamp.Value == "" {
		return Stretch{}
	}
	s := Stretch{Span: stamp.Span}
	from, until, isSpan := stamp.Cut("-")
	if !isSpan {
		from, until, isSpan = stamp.Cut("–")
	}
	var err error
	if s.From, err = measure.ParseClock(from.Value); err != nil {
		r.Report(diag.FromError("recording/time", from.Span, err))
		return Stretch{}
	}
	if !isSpan {
		return s
	}
	if s.Until, err = measure.ParseClock(until.Value); err != nil {
		r.Report(diag.FromError("recording/time", until.Span, err))
		return Stretch{}
	}
	if s.Until <= s.From {
		r.Report(diag.Errorf("recording/time", stamp.Span, "the step ends before it begins").
			WithHelp("write the start first, as in 0:42-2:10"))
		return Stretch{}
	}
	return s
}

func (l *Lesson) readBlocks(section *markdown.Section, step *Step, r *yamlpos.Reader) {
	for _, b := range section.Blocks {
		switch b.Kind {
		case "formula":
			l.readFormula(b, step, r)
		case "question":
			l.readQuestion(b, step, r)
		case "practical":
			l.readPractical(b, step, r)
		case "care":
			node, faults := yamlpos.Parse(b.Body)
			r.Report(faults...)
			l.Care = append(l.Care, r.Texts(node, "a care block")...)
		case "open":
			r.Report(diag.Errorf("text/open", b.Span, "what was heard and not placed is still listed here").
				WithHelp("put what matters where it belongs, and delete the block"))
		}
	}
}

func (l *Lesson) readFormula(b *markdown.Block, step *Step, r *yamlpos.Reader) {
	block, faults := formula.Read(b.Name, b.Body)
	r.Report(faults...)
	f := &Formula{Block: block, Fence: b, Step: step}
	if f.Name.Value == "" {
		r.Report(diag.Errorf("formula/name", b.Span, "the formula has no name").
			WithHelp("write ```formula gloss, so that the text can speak of it"))
		return
	}
	if first, twice := l.Formula(f.Name.Value); twice {
		r.Report(diag.Errorf("formula/name", f.Name.Span, "this lesson has two formulas called %q", f.Name.Value).
			WithNote(first.Name.Span, "the first is here").WithHelp("give one of them another name"))
		return
	}
	l.Formulas = append(l.Formulas, f)
}

// checkPictures reports every picture whose file is not in the course.
func (l *Lesson) checkPictures(fsys fs.FS, r *yamlpos.Reader) {
	for _, img := range l.Doc.Images {
		if IsSheet(img.Target.Value) {
			l.readDrawing(img, r)
			continue
		}
		name, small, fault := Picture(fsys, l.Folder, img.Target)
		switch {
		case fault != nil:
			r.Report(*fault)
		case small != nil:
			if l.Small == nil {
				l.Small = map[string][]byte{}
			}
			l.Small[name] = small
		}
	}
}

// pictureTypes are the endings of files that can stand as pictures.
var pictureTypes = []string{".svg", ".png", ".jpg", ".jpeg", ".webp", ".gif", ".avif"}

// Picture returns the path in the course of a picture that a text in a folder
// names, and all bytes of a small drawing, which had to be read: to open it once more takes
// longer than to keep it.
func Picture(fsys fs.FS, folder string, target source.Text) (name string, small []byte, fault *diag.Diagnostic) {
	name = path.Join(folder, target.Value)
	fail := func(rule, help, format string, args ...any) (string, []byte, *diag.Diagnostic) {
		d := diag.Errorf(rule, target.Span, format, args...).WithHelp("%s", help)
		return "", nil, &d
	}
	switch {
	case strings.Contains(target.Value, "://"):
		return fail("text/picture", "save the picture into the folder of the text; pages load nothing from elsewhere",
			"the picture %q lies on another site", target.Value)
	case path.IsAbs(target.Value) || !fs.ValidPath(name):
		return fail("text/picture", "copy it into the folder of the text", "the picture %q lies outside the course", target.Value)
	case !slices.Contains(pictureTypes, strings.ToLower(path.Ext(name))):
		return fail("text/picture", "use one of "+strings.Join(pictureTypes, " "), "%q is not a picture", target.Value)
	}
	drawing := strings.EqualFold(path.Ext(name), ".svg")
	look := fs.Stat
	var opened fs.File
	if drawing {
		look = func(fsys fs.FS, name string) (info fs.FileInfo, err error) {
			if opened, err = fsys.Open(name); err != nil {
				return nil, err
			}
			return opened.Stat()
		}
	}
	info, err := look(fsys, name)
	if opened != nil {
		defer opened.Close()
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fail("text/picture", "add the file, or mend its name", "there is no picture %q", target.Value)
	case err != nil:
		return fail("text/picture", "copy it into the folder of the text; a link that leads out of the course is not followed",
			"cannot read the picture %q: %v", target.Value, Reason(err))
	case !info.Mode().IsRegular():
		return fail("text/picture", "name a file", "%q is a folder, not a picture", target.Value)
	case drawing:
		if small, err = readDrawing(opened); err != nil {
			return fail("text/picture", "save it again as plain SVG, without scripts and below 4 MB", "the drawing %q %v", target.Value, err)
		}
	}
	return name, small, nil
}
