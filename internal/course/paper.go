package course

import (
	"io/fs"
	"path"
	"slices"
	"strings"
	"time"

	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/lesson"
	"plait/internal/measure"
	"plait/internal/question"
	"plait/internal/source"
	"plait/internal/yamlpos"
)

// PapersFolder is where papers lie.
const PapersFolder = "content/papers"

// Paper is a set of questions that is sat for marks, as it was written.
type Paper struct {
	Name    string
	File    *source.File
	Title   source.Text
	Summary source.Text
	Edition source.Text                  // of the paper; empty for the course's own
	Time    source.Stated[time.Duration] // that learners have; none for as long as it takes
	Pass    source.Stated[exact.Number]  // the share that has to be right, above 0 and at most 1
	Must    []source.Text                // outcomes, as lesson/name, whose questions must all be right
	Draws   []Draw
	Signed  []source.Text // practicals, as lesson/name, that an assessor signs off on the same sheet
	Partial bool          // it has errors: what it was meant to ask is not known
}

// Draw asks for some of the questions that lessons keep for papers. What is empty does
// not narrow the choice.
type Draw struct {
	Span       source.Span
	Questions  source.Stated[int]
	Module     source.Text
	Lesson     source.Text
	Outcome    source.Text // as lesson/name
	Kinds      []source.Text
	Difficulty source.Text
}

const (
	rulePaperTime    = "paper/time"
	rulePaperPass    = "paper/pass"
	rulePaperDraw    = "paper/draw"
	rulePaperUnknown = "paper/unknown"
)

// MostQuestions bounds what one draw, and a whole paper, asks for.
const MostQuestions = 100

// PaperFiles returns the files of the papers, in order.
func PaperFiles(fsys fs.FS) ([]string, error) { return filesIn(fsys, PapersFolder, ".yaml") }

// ReadPaper reads a paper.
func ReadPaper(fsys fs.FS, name string) (*Paper, []diag.Diagnostic) {
	p := &Paper{Name: strings.TrimSuffix(path.Base(name), ".yaml")}
	file, fault := lesson.ReadText(fsys, name)
	p.File = file
	if fault != nil {
		p.Partial = true
		return p, []diag.Diagnostic{*fault}
	}
	node, faults := yamlpos.Parse(file.Fragment())
	r := yamlpos.NewReader(faults...)
	f := r.Fields(node, "a paper", "title", "summary", "edition", "time", "pass", "must", "draw", "practicals")
	p.Title, _ = f.Need("title")
	p.Summary, _ = f.Text("summary")
	p.Edition, _ = f.Text("edition")
	p.readTime(f, r)
	p.readPass(f, r)
	if f.Has("must") {
		p.Must = f.Texts("must")
	}
	if f.Has("practicals") {
		p.Signed = f.Texts("practicals")
	}
	if f.Require("draw") {
		for _, n := range f.Nodes("draw") {
			p.readDraw(n, r)
		}
	}
	if !isName(p.Name) {
		r.Report(diag.Errorf("course/name", p.File.Span(0, 0), "the paper name %q cannot stand in an address", p.Name).
			WithHelp("call the file with small letters, digits and hyphens, as in first-colours.yaml"))
	}
	p.Partial = diag.HasErrors(r.Diagnostics())
	return p, r.Diagnostics()
}

func (p *Paper) readTime(f *yamlpos.Fields, r *yamlpos.Reader) {
	t, ok := f.Text("time")
	if !ok {
		return
	}
	v, err := measure.ParseSpan(t.Value)
	switch {
	case err != nil:
		r.Report(diag.FromError(rulePaperTime, t.Span, err))
	case v.Min != v.Max || v.Max < time.Minute:
		r.Report(diag.Errorf(rulePaperTime, t.Span, "%q is not a time in which a paper can be sat", t.Value).
			WithHelp("write one time, as in time: 40 min"))
	default:
		p.Time = source.Stated[time.Duration]{Value: v.Max, Span: t.Span}
	}
}

// readPass reads the pass mark. There is no usual one, so each paper states its own.
func (p *Paper) readPass(f *yamlpos.Fields, r *yamlpos.Reader) {
	t, ok := f.Need("pass")
	if !ok {
		return
	}
	v, fault := passMark(rulePaperPass, t)
	if fault != nil {
		r.Report(*fault)
		return
	}
	p.Pass = v
}

// passMark reads a share above nothing and up to all.
func passMark(rule string, t source.Text) (source.Stated[exact.Number], *diag.Diagnostic) {
	v, err := measure.ParsePercent(t.Value)
	if err != nil {
		d := diag.FromError(rule, t.Span, err)
		return source.Stated[exact.Number]{}, &d
	}
	if v.IsZero() || exact.One.Less(v) {
		d := diag.Errorf(rule, t.Span, "a pass mark of %s passes everybody or nobody", t.Value).WithHelp("write a share of the questions, as in 70 %%")
		return source.Stated[exact.Number]{}, &d
	}
	return source.Stated[exact.Number]{Value: v, Span: t.Span}, nil
}

func (p *Paper) readDraw(n *yamlpos.Node, r *yamlpos.Reader) {
	f := r.Fields(n, "a draw", "questions", "module", "lesson", "outcome", "kinds", "difficulty")
	d := Draw{Span: f.Span()}
	if f.Require("questions") {
		if count, ok := f.Whole("questions", 1, MostQuestions); ok {
			d.Questions = source.Stated[int]{Value: count, Span: f.Node("questions").Span}
		}
	}
	d.Module, _ = f.Text("module")
	d.Lesson, _ = f.Text("lesson")
	d.Outcome, _ = f.Text("outcome")
	d.Difficulty, _ = f.Text("difficulty")
	if f.Has("kinds") {
		d.Kinds = f.Texts("kinds")
	}
	kinds := words(question.Kinds())
	for _, k := range d.Kinds {
		if fault := oneOf(rulePaperDraw, k, "kind of question", kinds); fault != nil {
			r.Report(*fault)
		}
	}
	if d.Difficulty.Value != "" {
		if fault := oneOf(rulePaperDraw, d.Difficulty, "difficulty", words([]question.Difficulty{question.Easy, question.Middle, question.Hard})); fault != nil {
			r.Report(*fault)
		}
	}
	p.Draws = append(p.Draws, d)
}

func words[T ~string](list []T) []string {
	out := make([]string, len(list))
	for i, w := range list {
		out[i] = string(w)
	}
	return out
}

// oneOf reports a text that is none of the words.
func oneOf(rule string, t source.Text, what string, words []string) *diag.Diagnostic {
	if slices.Contains(words, t.Value) {
		return nil
	}
	d := diag.Errorf(rule, t.Span, "there is no %s %q", what, t.Value)
	if near := diag.DidYouMean(t.Value, words); near != "" {
		d = d.WithHelp("did you mean %q?", near)
	} else {
		d = d.WithHelp("there are: %s", strings.Join(words, ", "))
	}
	return &d
}

// papers reports names in papers that lead nowhere.
func (k *linker) papers() {
	if k.partial || len(k.Papers) == 0 {
		return
	}
	modules := make([]string, len(k.Modules))
	for i, m := range k.Modules {
		modules[i] = m.Name.Value
	}
	lessons, outcomes, practicals := k.taughtNames()
	known := func(t source.Text, what string, names []string) {
		if t.Value == "" {
			return
		}
		if fault := oneOf(rulePaperUnknown, t, what, names); fault != nil {
			k.report(*fault)
		}
	}
	for _, p := range k.Papers {
		for _, d := range p.Draws {
			known(d.Module, "module", modules)
			known(d.Lesson, "taught lesson", lessons)
			known(d.Outcome, "outcome", outcomes)
		}
		for _, t := range p.Must {
			known(t, "outcome", outcomes)
		}
		for _, t := range p.Signed {
			known(t, "practical", practicals)
		}
	}
}

// taughtNames lists the names of taught lessons, and those of their outcomes and
// practicals with the lesson before them.
func (k *linker) taughtNames() (lessons, outcomes, practicals []string) {
	for _, l := range k.Lessons {
		lessons = append(lessons, l.Name)
		for _, o := range l.Outcomes {
			outcomes = append(outcomes, l.Name+"/"+o.Name.Value)
		}
		for _, p := range l.Practicals {
			practicals = append(practicals, l.Name+"/"+p.Name.Value)
		}
	}
	return lessons, outcomes, practicals
}

// Paper returns the paper of a name.
func (c *Course) Paper(name string) (*Paper, bool) {
	for _, p := range c.Papers {
		if p.Name == name {
			return p, true
		}
	}
	return nil, false
}
