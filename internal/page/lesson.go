package page

import (
	"errors"
	"fmt"
	"html"
	"html/template"
	"path"
	"slices"
	"strconv"
	"strings"
	"time"

	"plait/internal/asset"
	"plait/internal/course"
	"plait/internal/exact"
	"plait/internal/formula"
	"plait/internal/highlight"
	"plait/internal/lesson"
	"plait/internal/markdown"
	"plait/internal/shade"
	"plait/internal/source"
)

// lesson makes the page of a lesson.
func (b *builder) lesson(out []byte, l *lesson.Lesson) ([]byte, error) {
	at := b.places[l]
	v := LessonView{
		Frame:    b.lessonFrame(l),
		Film:     b.film(l),
		Module:   Link{Text: at.module.Title.Value, Path: modulePath(at.module)},
		Place:    fmt.Sprintf("Lesson %d of %d", at.number, len(at.module.Lessons)),
		Lead:     l.Summary.Value,
		Facts:    b.lessonFacts(l),
		Ladder:   ladder(l),
		Clock:    b.clock(l),
		Care:     b.care(l),
		Hair:     hairTerms(l),
		Kit:      values(l.Kit),
		Patterns: len(l.Formulas) > 0,
		Asking:   b.askingOf(l),
		Work:     "../" + b.work.Path,
		Within:   template.HTML(markCurrent(b.within[at.module](), path.Base(lessonPath(l)))),
	}
	for _, o := range l.Outcomes {
		v.Outcomes = append(v.Outcomes, o.Text.Value)
	}
	if b.hasSheets(l) {
		v.Sheet = "../" + sheetPath(l)
	}
	b.neighbours(&v, at.at)
	faults := b.addText(&v, l)
	out, err := b.templates.page(out, "lesson", v)
	return out, errors.Join(append(*faults, err)...)
}

// lessonFrame is the frame of a lesson's page; one with a recording may load its film.
func (b *builder) lessonFrame(l *lesson.Lesson) Frame {
	f := b.frame(lessonPath(l), "lesson", l.Title.Value, l.Summary.Value)
	if l.Recording.Set() {
		f.Policy = policy(b.site.Live, filmSources(l)...)
		f.Private = l.Film == nil
	}
	return f
}

// askingOf is the way to the script of questions, empty for a lesson that asks nothing.
func (b *builder) askingOf(l *lesson.Lesson) string {
	if len(l.Questions)+len(l.Practicals) == 0 {
		return ""
	}
	return "../" + b.asking.Path
}

// neighbours links the lessons before and after, also over the border of a module.
func (b *builder) neighbours(v *LessonView, at int) {
	all := b.course.Lessons
	link := func(before string, l *lesson.Lesson) *Link {
		return &Link{Before: before, Text: l.Title.Value, Path: path.Base(lessonPath(l))}
	}
	if at > 0 {
		v.Previous = link("Lesson before", all[at-1])
	}
	if at+1 < len(all) {
		v.Next = link("Next lesson", all[at+1])
	}
}

// addText adds the lesson's text with its bowls. What is wrong with them is known once the
// page is written.
func (b *builder) addText(v *LessonView, l *lesson.Lesson) (faults *[]error) {
	faults = new([]error)
	hooks := b.hooks(l.File, l.Folder, "../", b.pictures[b.places[l].at])
	hooks.Value = func(value *markdown.Value) string {
		text, _ := b.derived.Value(l, value.Text)
		return together(text)
	}
	picture := hooks.Image
	hooks.Image = func(img *markdown.Image) string {
		if !lesson.IsSheet(img.Target.Value) {
			return picture(img)
		}
		text, err := b.figure(l, img)
		*faults = append(*faults, err)
		return text
	}
	hooks.Block = func(out []byte, block *markdown.Block) []byte {
		out, err := b.block(out, l, block)
		*faults = append(*faults, err)
		return out
	}
	text := func(s *markdown.Section) Prose {
		return func(out []byte) []byte { return s.AppendHTML(out, hooks) }
	}
	if l.Intro != nil {
		v.Opening = text(l.Intro)
	}
	v.Steps = make([]StepView, 0, len(l.Steps))
	for _, s := range l.Steps {
		step := StepView{
			ID:     s.ID,
			Number: s.Number,
			Title:  template.HTML(s.TitleHTML(hooks)),
			Body:   text(s.Section),
		}
		if s.Time.Set() {
			step.Time = b.stepTime(l, s)
		}
		v.Steps = append(v.Steps, step)
	}
	if l.Doc.Notes != nil {
		v.Notes = text(l.Doc.Notes)
	}
	return faults
}

// hooks says how the pictures, links and samples of a text are written on a page
// that far from the root.
func (b *builder) hooks(file *source.File, folder, root string, shown *pictures) markdown.Hooks {
	return markdown.Hooks{
		Code: highlight.HTML,
		Image: func(img *markdown.Image) string {
			if lesson.IsSheet(img.Target.Value) {
				return html.EscapeString(img.Alt.Value)
			}
			return picture(shown.of(path.Join(folder, img.Target.Value)), img, root)
		},
		Link: func(l *markdown.Link) string {
			goal, _ := b.course.Goal(file, l.Target.Value)
			return address(goal, root)
		},
	}
}

// picture writes a picture with its size, so that the page keeps room for it.
func picture(p asset.Picture, img *markdown.Image, root string) string {
	size := ""
	if p.Width > 0 {
		size = fmt.Sprintf(` width="%d" height="%d"`, p.Width, p.Height)
	}
	tag := `<img src="` + root + p.Path + `" alt="` + html.EscapeString(img.Alt.Value) + `"` + size + `>`
	if !img.Alone || img.Title.Value == "" {
		return tag
	}
	return `<figure>` + tag + `<figcaption>` + html.EscapeString(img.Title.Value) + `</figcaption></figure>`
}

// address is where a link leads from a page that far from the root.
func address(goal course.Goal, root string) string {
	to := ""
	switch {
	case goal.External != "":
		return goal.External
	case goal.Lesson != nil:
		to = root + lessonPath(goal.Lesson)
	case goal.Page != nil:
		to = root + standingPath(goal.Page)
	case goal.Made != "":
		to = root + goal.Made
	}
	if goal.Fragment != "" {
		to += "#" + goal.Fragment
	}
	return to
}

// block appends a formula block as its bowl, a question and a practical as their cards, and
// a care block as a caution.
func (b *builder) block(out []byte, l *lesson.Lesson, block *markdown.Block) ([]byte, error) {
	if block.Kind == "care" {
		return append(out, caution(l, block)...), nil
	}
	for _, f := range l.Formulas {
		if f.Fence == block {
			return b.bowl(out, f)
		}
	}
	for _, q := range l.Questions {
		if q.Fence == block {
			return b.question(out, l, q)
		}
	}
	for _, p := range l.Practicals {
		if p.Fence == block {
			return b.practical(out, l, p)
		}
	}
	return out, nil
}

// caution writes the sentences of a care block.
func caution(l *lesson.Lesson, block *markdown.Block) string {
	var out strings.Builder
	out.WriteString(`<ul class="care">`)
	for _, t := range l.Care {
		if block.Body.Whole().Contains(t.Span) {
			out.WriteString("<li>" + html.EscapeString(t.Value) + "</li>")
		}
	}
	out.WriteString("</ul>\n")
	return out.String()
}

// lessonFacts are what to know before choosing a lesson.
func (b *builder) lessonFacts(l *lesson.Lesson) []Fact {
	facts := []Fact{count(len(l.Steps), "step")}
	if length, _, ok := l.RecordingLength(); ok {
		facts = append(facts, Fact{Value: clock(length), Text: "recording"})
	}
	switch len(l.Formulas) {
	case 0:
	case 1:
		f := l.Formulas[0]
		if f.Time.Set() {
			facts = append(facts, Fact{Value: minutes(f.Time.Value), Text: "on the hair"})
		}
		if d, ok := b.computed(f); ok {
			facts = append(facts, Fact{Value: grams(d.Bowl.WeighedTotal()), Text: "in one bowl"})
		}
	default:
		facts = append(facts, count(len(l.Formulas), "bowl"))
	}
	return facts
}

// count is a number of things as a fact.
func count(n int, thing string) Fact {
	if n != 1 {
		thing += "s"
	}
	return Fact{Value: fmt.Sprint(n), Text: thing}
}

// hairTerms are what the header says of the hair beside its levels, which stand on
// the ladder.
func hairTerms(l *lesson.Lesson) []Term {
	var terms []Term
	for _, t := range []struct {
		name string
		text source.Text
	}{{"Warmth", l.Hair.Warmth}, {"White", l.Hair.White}, {"Length", l.Hair.Length}, {"Density", l.Hair.Density}} {
		if t.text.Value != "" {
			terms = append(terms, Term{Term: t.name, Value: spaced(t.text.Value)})
		}
	}
	return terms
}

// ladder places the zones of the hair and the targets of the bowls on the ladder
// of levels; nil where the lesson names none.
func ladder(l *lesson.Lesson) *LadderView {
	v := &LadderView{}
	var marked []shade.Level
	mark := func(level shade.Level, text string) {
		m := Mark{Chip: chip(levelSwatch(level), ""), Level: strconv.Itoa(int(level)), Text: text}
		if level > 0 && !slices.Contains(v.Marks, m) {
			marked = append(marked, level)
			v.Marks = append(v.Marks, m)
		}
	}
	for _, z := range l.Hair.Zones {
		mark(z.Hair.Value.Level, strings.Join(append([]string{z.Name.Value}, hairWords(z.Hair.Value)...), ", "))
	}
	for _, f := range l.Formulas {
		if f.Target.Set() {
			mark(f.Target.Value.Level, strings.TrimSuffix("target, "+f.Target.Value.Tone, ", "))
		}
	}
	if len(v.Marks) == 0 {
		return nil
	}
	for level := shade.Darkest; level <= max(shade.Lightest, slices.Max(marked)); level++ {
		v.Rungs = append(v.Rungs, Rung{Level: int(level), Swatch: levelSwatch(level), Marked: slices.Contains(marked, level)})
	}
	return v
}

// hairWords says what hair is beside its level: lightened, a third white.
func hairWords(h formula.Hair) []string {
	var words []string
	if h.State != "" {
		words = append(words, string(h.State))
	}
	if h.White.Sign() > 0 {
		words = append(words, h.White.Mul(exact.Int(100)).Decimal(0)+nbsp+"% white")
	}
	return words
}

// hairText is hair in one line: 8, lightened.
func hairText(h formula.Hair) string {
	return strings.Join(append([]string{strconv.Itoa(int(h.Level))}, hairWords(h)...), ", ")
}

// timeView is a time of the recording.
func timeView(s lesson.Stretch) *TimeView {
	v := &TimeView{Text: clock(s.From), Duration: "PT" + strconv.Itoa(int(s.From.Seconds())) + "S"}
	if s.Until > 0 {
		v.Text += "–" + clock(s.Until)
	}
	return v
}

// clock prints a time of a recording: 0:42, 1:02:03.
func clock(d time.Duration) string {
	s := int(d.Seconds())
	if s < 3600 {
		return strconv.Itoa(s/60) + ":" + strconv.Itoa(100 + s%60)[1:]
	}
	return fmt.Sprintf("%d:%02d:%02d", s/3600, s/60%60, s%60)
}

// values are the values of texts.
func values(texts []source.Text) []string {
	out := make([]string, len(texts))
	for i, t := range texts {
		out[i] = t.Value
	}
	return out
}
