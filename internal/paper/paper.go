// Package paper is what a paper asks, of whom, and what the answers are worth.
//
// [Make] gathers the questions that lessons keep for papers and that a paper may draw.
// [Paper.Draw] says which of them a learner is asked: by lot, and for one learner always
// the same; the page of the paper draws alike. [Book.Mark] marks an answer file.
//
// Keys stay here and in what `mark` writes. What a page shows of a question is
// [Figures.Ask], [Figures.Shown] and [Figures.Beside], and nothing of them tells an
// answer: lists stand in the order of the alphabet, whatever order they were written in.
package paper

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"plait/internal/answerfile"
	"plait/internal/course"
	"plait/internal/derive"
	"plait/internal/exact"
	"plait/internal/lesson"
	"plait/internal/lot"
	"plait/internal/question"
	"plait/internal/source"
)

// Paper is a paper with all it can ask.
type Paper struct {
	*course.Paper
	CourseID  string
	Edition   string
	Questions []*Question
	Draws     []Draw
	Asked     int          // questions each learner is asked
	PassMark  exact.Number // the share to pass, the stricter of the paper's own and the house's
	Signed    []*Practical
	Text      string // a fingerprint of all that learners can read
}

// Draw is how many questions are drawn, and from which: indexes into the paper's.
type Draw struct {
	course.Draw
	Pool []int
}

// Question is a question that the paper can ask.
type Question struct {
	*derive.Question
	Module  *course.Module
	Figures []Figures
}

// Figures is one way the question can be asked.
type Figures struct {
	derive.Solution
	Shown  []string // what there is to choose, to order or to pair, in alphabetical order
	Beside []string // the other sides of pairs, in alphabetical order
}

// Practical is a practical that is signed off with the paper.
type Practical struct {
	*lesson.Practical
	Lesson *lesson.Lesson
}

// ID names the practical in the course: the lesson, a stroke and its own name.
func (p *Practical) ID() string { return p.Lesson.Name + "/" + p.Name.Value }

// All makes every paper of a course.
func All(c *course.Course, d *derive.Derived) []*Paper {
	list := make([]*Paper, len(c.Papers))
	for i, p := range c.Papers {
		list[i] = Make(c, d, p)
	}
	return list
}

// Make gathers what a paper can ask. It always answers; a draw whose pool is too small
// is for a rule to report.
func Make(c *course.Course, d *derive.Derived, written *course.Paper) *Paper {
	p := &Paper{Paper: written, CourseID: c.ID(), Edition: c.Edition.Value, PassMark: exact.Max(written.Pass.Value, c.House.Pass.Value)}
	for _, draw := range written.Draws {
		p.Draws = append(p.Draws, Draw{Draw: draw})
		p.Asked += draw.Questions.Value
	}
	for _, l := range c.Lessons {
		module, _ := c.ModuleOf(l)
		for _, q := range d.Questions(l) {
			p.add(q, module)
		}
	}
	p.sign(c)
	p.Text = p.fingerprint()
	return p
}

// add takes a question into every pool that it belongs to.
func (p *Paper) add(q *derive.Question, m *course.Module) {
	solutions := q.ForPapers()
	if !q.OK || len(solutions) == 0 {
		return
	}
	wanted := false
	for i := range p.Draws {
		if d := &p.Draws[i]; d.takes(q, m) {
			d.Pool = append(d.Pool, len(p.Questions))
			wanted = true
		}
	}
	if !wanted {
		return
	}
	asked := &Question{Question: q, Module: m}
	for _, s := range solutions {
		asked.Figures = append(asked.Figures, show(q, s))
	}
	p.Questions = append(p.Questions, asked)
}

func (d *Draw) takes(q *derive.Question, m *course.Module) bool {
	fits := func(wanted, has string) bool { return wanted == "" || wanted == has }
	return fits(d.Module.Value, m.Name.Value) && fits(d.Lesson.Value, q.Lesson.Name) &&
		fits(d.Outcome.Value, q.Lesson.Name+"/"+q.Tests.Value) && fits(d.Difficulty.Value, string(q.Hard)) &&
		(len(d.Kinds) == 0 || slices.ContainsFunc(d.Kinds, func(k source.Text) bool { return k.Value == string(q.Kind) }))
}

// show brings what a learner sees of a question into an order that says nothing.
func show(q *derive.Question, s derive.Solution) Figures {
	f := Figures{Solution: s}
	for _, o := range s.Options {
		f.Shown = append(f.Shown, o.Text)
	}
	switch q.Kind {
	case question.Order:
		for _, t := range q.Order {
			f.Shown = append(f.Shown, t.Value)
		}
	case question.Pairs:
		for _, pair := range q.Pairs {
			f.Shown = append(f.Shown, pair.Left.Value)
			f.Beside = append(f.Beside, pair.Right.Value)
		}
	}
	slices.SortFunc(f.Shown, alphabetical)
	slices.SortFunc(f.Beside, alphabetical)
	return f
}

// alphabetical orders texts: first those that begin with a number, by the number, then the rest.
func alphabetical(a, b string) int {
	x, errX := exact.Parse(leading(a))
	y, errY := exact.Parse(leading(b))
	switch {
	case errX == nil && errY != nil:
		return -1
	case errX != nil && errY == nil:
		return 1
	case errX == nil && !x.Equal(y):
		return x.Cmp(y)
	}
	if c := strings.Compare(strings.ToLower(a), strings.ToLower(b)); c != 0 {
		return c
	}
	return strings.Compare(a, b)
}

// leading returns the number that a text begins with.
func leading(s string) string {
	number, _, _ := strings.Cut(s, " ")
	return number
}

// sign gathers the practicals. Names that lead nowhere were reported.
func (p *Paper) sign(c *course.Course) {
	for _, t := range p.Paper.Signed {
		if found, ok := practical(c, t.Value); ok {
			p.Signed = append(p.Signed, found)
		}
	}
}

// practical returns the practical of an id.
func practical(c *course.Course, id string) (*Practical, bool) {
	in, name, _ := strings.Cut(id, "/")
	l, ok := c.Lesson(in)
	if !ok {
		return nil, false
	}
	for _, p := range l.Practicals {
		if p.Name.Value == name {
			return &Practical{Practical: p, Lesson: l}, true
		}
	}
	return nil, false
}

// fingerprint is of everything that learners can read and that the draw goes by. An
// answer file carries it, so that answers to other questions are never marked by this
// key; the key itself has no part in it.
func (p *Paper) fingerprint() string {
	sum := sha256.New()
	line := func(parts ...string) { fmt.Fprintf(sum, "%q\n", parts) }
	for _, d := range p.Draws {
		line(fmt.Sprint(d.Questions.Value, d.Pool))
	}
	for _, q := range p.Questions {
		line(q.ID(), string(q.Kind))
		for _, f := range q.Figures {
			line(f.Ask)
			line(f.Shown...)
			line(f.Beside...)
			if f.Sheet != nil {
				line(string(f.Sheet.File.Text())) // a place is found on its drawing
			}
		}
	}
	return hex.EncodeToString(sum.Sum(nil)[:8])
}

// Asked is a question that a learner is asked, and with which figures: indexes into the
// paper's questions and into the question's figures.
type Asked struct{ Question, Figures int }

// Seed returns what a learner's questions are drawn by.
func (p *Paper) Seed(l answerfile.Learner) uint64 { return lot.Seed(p.Name, l.Name, l.Class) }

// SeedText writes a seed as an answer file has it.
func SeedText(seed uint64) string { return fmt.Sprintf("%016x", seed) }

// Draw returns what is asked by a seed, in order. Where a pool is too small, which no
// course without errors has, all of it is asked.
func (p *Paper) Draw(seed uint64) []Asked {
	lots := lot.New(seed)
	taken := make([]bool, len(p.Questions))
	var asked []Asked
	for _, d := range p.Draws {
		var free []int
		for _, q := range d.Pool {
			if !taken[q] {
				free = append(free, q)
			}
		}
		for _, i := range lots.Draw(min(d.Questions.Value, len(free)), len(free)) {
			taken[free[i]] = true
			asked = append(asked, Asked{Question: free[i], Figures: lots.Below(len(p.Questions[free[i]].Figures))})
		}
	}
	return asked
}

// Needed returns how many of so many questions have to be right to pass, rounded up.
func (p *Paper) Needed(of int) int {
	n, _ := p.PassMark.Mul(exact.Int(int64(of))).Ceil(exact.One).Int64()
	return int(n)
}

// Code names a question and its figures on printed papers and in the printed key, both
// counted from 0: 7b for the seventh question with its second figures, 7bb for the
// twenty-eighth.
func Code(question, figures int) string {
	letter := string(rune('a' + figures%26))
	return strconv.Itoa(question+1) + strings.Repeat(letter, 1+figures/26)
}
