// Package report writes what a class has shown as pages of their own: [Page] the report
// on a register, [Key] the key to a paper.
//
// Each is one file that holds everything it needs, for the manager alone: it names
// learners, or tells answers, and never belongs to the site. Its policy lets nothing in
// and nothing out but its own style sheet.
package report

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"html/template"
	"io/fs"
	"slices"
	"strings"

	"plait/internal/asset"
	"plait/internal/classtest"
	"plait/internal/course"
	"plait/internal/paper"
	"plait/internal/register"
)

// Input is what a report is made from.
type Input struct {
	Course   *course.Course
	Papers   []*paper.Paper
	Register *register.Register
	Refused  []string // answer files that could not be marked, and why
	Layouts  fs.FS
}

// frame is what both pages have around their main part.
type frame struct {
	Language string
	Title    string
	Course   string
	Edition  string
	Policy   string
	Style    template.CSS
}

type page struct {
	frame
	Refused []string
	Papers  []paperView
	Signed  []signedRow
	Pairs   []pairRow
}

// paperView is the part of a report on one paper.
type paperView struct {
	ID, Title string
	Facts     []fact
	Trust     string // what a class of this size can say
	Learners  []learnerRow
	Modules   []string // titles, the columns of the learners' progress
	Doubts    []doubtRow
	Marks     histogram
	Progress  strips
	Items     scatter
	Questions []questionRow
	Figures   []figureRow
	Earlier   int // sittings that a later one replaced
}

type fact struct{ Value, Text string }

type learnerRow struct {
	Name, Class string
	Right, Of   int
	Share       string
	Width       int // of the bar, in per cent
	Passed      bool
	Missed      []string // outcomes that must be right and were not
	Doubted     bool
	Modules     []cell
	Earlier     string // what the same answers were marked before
}

// cell is a learner's share of a module.
type cell struct {
	Text string
	Low  bool // below the pass mark
}

type doubtRow struct{ Name, File, Says string }

type questionRow struct {
	Number                               int // in the paper; 0 for one that it no longer asks
	Ask, Name                            string
	Asked, Right, Blank                  int
	Difficulty, Discrimination, ItemRest string
	Says                                 string
	Look                                 bool // somebody should look at it
}

// figureRow is one figure of the whole paper: what it is, what it means, and whence.
type figureRow struct{ Name, Value, Says, Formula, Source string }

type signedRow struct {
	Name, Class, Practical, Verdict, Points, Assessor, Date string
	Shown                                                   bool
}

type pairRow struct {
	Who, Agreement, Kappa, Says string
	Cases                       int
}

// Page returns the report on a register. The same register gives the same bytes.
func Page(in Input) ([]byte, error) {
	v := page{Refused: in.Refused}
	for _, name := range in.Register.Papers() {
		v.Papers = append(v.Papers, onPaper(in, name))
	}
	v.practicals(in)
	f, err := newFrame(in, "Marks")
	if err != nil {
		return nil, err
	}
	v.frame = f
	return render(in.Layouts, "report", v)
}

func newFrame(in Input, title string) (frame, error) {
	style, err := asset.Sheet(in.Layouts, "styles/report.css")
	if err != nil {
		return frame{}, err
	}
	sum := sha256.Sum256(style)
	return frame{
		Language: in.Course.Language.Value, Title: title, Course: in.Course.Title.Value, Edition: in.Course.Edition.Value,
		Policy: "default-src 'none'; base-uri 'none'; form-action 'none'; style-src 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'",
		Style:  template.CSS(style),
	}, nil
}

func render(layouts fs.FS, name string, view any) ([]byte, error) {
	t, err := template.ParseFS(layouts, "templates/"+name+".html", "templates/reportbase.html")
	if err != nil {
		return nil, fmt.Errorf("report: %w", err)
	}
	var out bytes.Buffer
	if err := t.ExecuteTemplate(&out, "report", view); err != nil {
		return nil, fmt.Errorf("report: %w", err)
	}
	return out.Bytes(), nil
}

// onPaper reports on the sittings of one paper. A paper that the course no longer has is
// reported from the register alone.
func onPaper(in Input, name string) paperView {
	a := in.Register.Analyse(name)
	p := find(in.Papers, name)
	v := paperView{ID: "paper_" + name, Title: name, Trust: trust(len(a.Sittings))}
	if p != nil {
		v.Title = p.Title.Value
	}
	for _, m := range a.Modules {
		v.Modules = append(v.Modules, moduleTitle(in.Course, m))
	}
	passed, right, of := 0, 0, 0
	for _, s := range a.Sittings {
		v.Learners = append(v.Learners, learner(s, a.Modules, in.Course))
		for _, d := range s.Doubts {
			v.Doubts = append(v.Doubts, doubtRow{Name: s.Name, File: s.File, Says: d.Says()})
		}
		right, of = right+s.Right, of+s.Of
		if s.Passed {
			passed++
		}
	}
	for _, s := range in.Register.Sittings {
		if s.Paper == name && s.Replaced {
			v.Earlier++
		}
	}
	v.Facts = []fact{
		{fmt.Sprint(len(a.Sittings)), plural(len(a.Sittings), "learner", "learners")},
		{fmt.Sprintf("%d of %d", passed, len(a.Sittings)), "passed"},
		{register.Share(right, of) + " %", "right on average"},
		{percentOf(a.Sittings), "to pass"},
	}
	order := orderOf(p)
	v.Marks = marksPlot(a.Sittings)
	v.Progress = progressPlot(a, v.Modules)
	v.Items = itemsPlot(a.Questions, order)
	for _, q := range a.Questions {
		v.Questions = append(v.Questions, question(q, p, order))
	}
	slices.SortStableFunc(v.Questions, func(a, b questionRow) int { return order[a.Name] - order[b.Name] })
	v.Figures = figures(a)
	return v
}

func find(papers []*paper.Paper, name string) *paper.Paper {
	for _, p := range papers {
		if p.Name == name {
			return p
		}
	}
	return nil
}

func moduleTitle(c *course.Course, name string) string {
	for _, m := range c.Modules {
		if m.Name.Value == name {
			return m.Title.Value
		}
	}
	return name
}

// outcomeText words an outcome, named lesson/outcome. One that the course no longer has
// keeps its name.
func outcomeText(c *course.Course, id string) string {
	lesson, name, _ := strings.Cut(id, "/")
	if l, ok := c.Lesson(lesson); ok {
		if o, ok := l.Outcome(name); ok {
			return o.Text.Value
		}
	}
	return id
}

// percentOf is the pass mark that the sittings were held to.
func percentOf(sittings []register.Sitting) string {
	if len(sittings) == 0 {
		return "–"
	}
	return strings.TrimSuffix(register.Share(sittings[len(sittings)-1].Mark, 10_000), ".0") + " %"
}

func learner(s register.Sitting, modules []string, c *course.Course) learnerRow {
	row := learnerRow{
		Name: s.Name, Class: s.Class, Right: s.Right, Of: s.Of, Share: register.Share(s.Right, s.Of),
		Passed: s.Passed, Doubted: len(s.Doubts) > 0,
	}
	for _, id := range s.Missed {
		row.Missed = append(row.Missed, outcomeText(c, id))
	}
	if s.Of > 0 {
		row.Width = 100 * s.Right / s.Of
	}
	for _, m := range modules {
		right, of := s.In(m)
		c := cell{Text: "–"}
		if of > 0 {
			c = cell{Text: fmt.Sprintf("%d/%d", right, of), Low: 10_000*right < s.Mark*of}
		}
		row.Modules = append(row.Modules, c)
	}
	if n := len(s.Before); n > 0 {
		row.Earlier = fmt.Sprintf("marked %d of %d before the key was changed", s.Before[n-1].Right, s.Before[n-1].Of)
	}
	return row
}

// orderOf numbers the questions of a paper, from 1, as its pages do.
func orderOf(p *paper.Paper) map[string]int {
	order := map[string]int{}
	if p == nil {
		return order
	}
	for i, q := range p.Questions {
		order[q.ID()] = i + 1
	}
	return order
}

func question(q register.Question, p *paper.Paper, order map[string]int) questionRow {
	row := questionRow{
		Number: order[q.ID], Name: q.ID, Ask: q.ID, Asked: q.Asked, Right: q.Right, Blank: q.Blank,
		Difficulty: number(q.Difficulty), Discrimination: number(q.Discrimination), ItemRest: number(q.ItemRest),
	}
	if p != nil {
		for _, own := range p.Questions {
			if own.ID() == q.ID {
				row.Ask = own.Figures[0].Ask
			}
		}
	}
	row.Says, row.Look = verdict(q)
	return row
}

// number prints a figure to two places, and a dash where there is none.
func number(f classtest.Figure) string {
	if !f.Known() {
		return "–"
	}
	return strings.Replace(fmt.Sprintf("%.2f", f.Value), "-", "−", 1)
}

func (v *page) practicals(in Input) {
	for _, s := range in.Register.SignedOff() {
		v.Signed = append(v.Signed, signedRow{
			Name: s.Learner.Name, Class: s.Learner.Class, Practical: s.Practical, Verdict: string(s.Verdict),
			Points: fmt.Sprintf("%d of %d", s.Points, s.Of), Assessor: s.Assessor, Date: s.Date, Shown: s.Verdict == "shown",
		})
	}
	for _, p := range in.Register.Pairings() {
		row := pairRow{Who: p.First + " and " + p.Second, Cases: p.Cases, Kappa: number(p.Kappa), Says: agreement(p)}
		if p.Agreement.Known() {
			row.Agreement = fmt.Sprintf("%.0f %%", 100*p.Agreement.Value)
		}
		v.Pairs = append(v.Pairs, row)
	}
}

func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}
