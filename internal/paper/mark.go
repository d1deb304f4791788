package paper

import (
	"fmt"
	"slices"
	"strconv"
	"time"

	"plait/internal/answerfile"
	"plait/internal/course"
	"plait/internal/exact"
	"plait/internal/register"
)

// Book is what answer files of a course are marked by: its papers and its practicals.
type Book struct {
	course *course.Course
	papers map[string]*Paper
}

// NewBook returns the book of a course's papers.
func NewBook(c *course.Course, papers []*Paper) *Book {
	b := &Book{course: c, papers: map[string]*Paper{}}
	for _, p := range papers {
		b.papers[p.Name] = p
	}
	return b
}

// Mark marks an answer file. The error, a *[answerfile.Fault], says why it cannot be
// marked: it belongs to another course, to a paper that is not there, or was sat when
// the paper read otherwise.
func (b *Book) Mark(f *answerfile.File) (register.Sitting, error) {
	refuse := func(help, format string, args ...any) (register.Sitting, error) {
		return register.Sitting{}, &answerfile.Fault{File: f.Name, What: fmt.Sprintf(format, args...), Help: help}
	}
	p, ok := b.papers[f.Paper]
	switch {
	case f.Course != b.course.ID():
		return refuse("mark it with --course and the folder of its own course", "it was handed in for the course %q, and this is %q", f.Course, b.course.ID())
	case !ok:
		return refuse("look whether the paper was renamed", "this course has no paper %q", f.Paper)
	case f.Text != p.Text:
		return refuse("mark it with the course as it was when the paper was sat", "the questions of this paper have changed since it was sat in edition %q", f.Edition)
	}
	seed, err := strconv.ParseUint(f.Seed, 16, 64)
	if err != nil || f.Seed != SeedText(seed) {
		return refuse("ask for the file as the page of the paper saved it", "%q is not what questions are drawn by", f.Seed)
	}
	return p.sitting(b, f, seed), nil
}

// sitting marks a file that belongs to the paper. The questions are those that its own
// seed draws, since those are what the learner saw.
func (p *Paper) sitting(b *Book, f *answerfile.File, seed uint64) register.Sitting {
	s := register.Sitting{
		Name: f.Learner.Name, Class: f.Learner.Class, Paper: p.Name, Edition: f.Edition, Text: f.Text,
		Started: f.Started, Saved: f.Saved, Digest: f.Digest, File: f.Name,
		Missed: []string{}, Doubts: []register.Doubt{}, Answers: []register.Answer{}, SignOff: []register.SignOff{}, Before: []register.Marking{},
	}
	doubt := func(d register.Doubt, when bool) {
		if when {
			s.Doubts = append(s.Doubts, d)
		}
	}
	strange := p.answers(&s, f.Answers, p.Draw(seed))
	for _, signed := range f.SignOff {
		o, ok := b.signOff(signed)
		if !ok {
			strange = true
			continue
		}
		s.SignOff = append(s.SignOff, o)
	}
	timed := p.Time.Set() && !f.Started.IsZero() && !f.Saved.IsZero()
	doubt(register.Damaged, f.Damaged)
	doubt(register.OtherDraw, seed != p.Seed(f.Learner))
	doubt(register.Unknown, strange)
	doubt(register.Overtime, timed && f.Saved.Sub(f.Started) > p.Time.Value+grace)
	doubt(register.Early, !f.Saved.IsZero() && f.Saved.Before(f.Started))
	s.Needed = p.Needed(s.Of)
	mark, _ := p.PassMark.Mul(exact.Int(10_000)).Round(exact.One).Int64()
	s.Mark = int(mark)
	s.Passed = s.Of > 0 && s.Right >= s.Needed && len(s.Missed) == 0
	return s
}

// answers marks what was given to the questions that were asked. Strange is set where
// something was answered that was not asked, or not with these figures.
func (p *Paper) answers(s *register.Sitting, list []answerfile.Answer, draw []Asked) (strange bool) {
	given := map[string]answerfile.Answer{}
	for _, a := range list {
		given[a.Question] = a
	}
	for _, asked := range draw {
		q := p.Questions[asked.Question]
		a, answered := given[q.ID()]
		delete(given, q.ID())
		if answered && a.Figures != asked.Figures {
			strange, a.Given = true, ""
		}
		mark := register.Answer{
			Question: q.ID(), Module: q.Module.Name.Value, Outcome: q.Lesson.Name + "/" + q.Tests.Value, Figures: asked.Figures,
			Given: a.Given, Right: a.Given != "" && q.Judge(asked.Figures, a.Given),
		}
		s.Answers = append(s.Answers, mark)
		s.Of++
		if mark.Right {
			s.Right++
		} else if p.must(mark.Outcome) && !slices.Contains(s.Missed, mark.Outcome) {
			s.Missed = append(s.Missed, mark.Outcome)
		}
	}
	return strange || len(given) > 0
}

// grace is what saving may take when the time is up. Common practice, no source.
const grace = time.Minute

func (p *Paper) must(outcome string) bool {
	for _, t := range p.Must {
		if t.Value == outcome {
			return true
		}
	}
	return false
}

// signOff finds what was signed off in the course. What was shown counts each point
// once.
func (b *Book) signOff(signed answerfile.SignOff) (register.SignOff, bool) {
	p, ok := practical(b.course, signed.Practical)
	if !ok {
		return register.SignOff{}, false
	}
	points := slices.DeleteFunc(slices.Clone(signed.Shown), func(i int) bool { return i >= len(p.Show) })
	slices.Sort(points)
	return register.SignOff{
		Practical: p.ID(), Outcome: p.Lesson.Name + "/" + p.Tests.Value, Assessor: signed.Assessor, Date: signed.Date,
		Verdict: signed.Outcome, Points: len(slices.Compact(points)), Of: len(p.Show),
	}, true
}
