package page

import (
	"slices"

	"plait/internal/lesson"
)

const (
	outcomesPage  = "outcomes.html"
	outcomesTitle = "What tests which outcome"
)

// OutcomesView is the page on which a manager sees what every outcome is tested by.
type OutcomesView struct {
	Frame
	Lead    string
	Facts   []Fact
	Modules []OutcomeGroup
}

// OutcomeGroup is the outcomes of one module.
type OutcomeGroup struct {
	Title   string
	Lessons []OutcomeLesson
}

// OutcomeLesson is a lesson with its outcomes.
type OutcomeLesson struct {
	Link Link
	Rows []OutcomeRow
}

// OutcomeRow is one outcome and what tests it.
type OutcomeRow struct {
	Text       string
	Questions  []Link // without a path where only papers ask it
	Practicals []Link
}

// hasOutcomes reports whether any lesson names an outcome.
func (b *builder) hasOutcomes() bool {
	return slices.ContainsFunc(b.course.Lessons, func(l *lesson.Lesson) bool { return len(l.Outcomes) > 0 })
}

// outcomes makes the manager's page of outcomes.
func (b *builder) outcomes(out []byte) ([]byte, error) {
	v := OutcomesView{
		Frame: b.frame(outcomesPage, "standing", outcomesTitle, "Every outcome of the course, and the questions and practicals that test it."),
		Lead:  "Every outcome of the course with the questions that ask for it and the practicals that show it.",
	}
	outcomes, questions, practicals := 0, 0, 0
	for _, m := range b.course.Modules {
		group := OutcomeGroup{Title: m.Title.Value}
		for _, l := range m.Lessons {
			group.Lessons = append(group.Lessons, OutcomeLesson{Link: Link{Text: l.Title.Value, Path: lessonPath(l)}, Rows: outcomeRows(l)})
			outcomes += len(l.Outcomes)
			questions += len(l.Questions)
			practicals += len(l.Practicals)
		}
		v.Modules = append(v.Modules, group)
	}
	v.Facts = []Fact{count(outcomes, "outcome"), count(questions, "question"), count(practicals, "practical")}
	return b.templates.page(out, "outcomes", v)
}

func outcomeRows(l *lesson.Lesson) []OutcomeRow {
	var rows []OutcomeRow
	for _, o := range l.Outcomes {
		row := OutcomeRow{Text: o.Text.Value}
		for _, q := range l.Questions {
			if q.Tests.Value == o.Name.Value && q.Paper.Alone {
				row.Questions = append(row.Questions, Link{Text: "in papers only"})
			} else if q.Tests.Value == o.Name.Value {
				row.Questions = append(row.Questions, Link{Text: bowlTitle(q.Name.Value), Path: lessonPath(l) + "#question_" + q.Name.Value})
			}
		}
		for _, p := range l.Practicals {
			if p.Tests.Value == o.Name.Value {
				row.Practicals = append(row.Practicals, Link{Text: bowlTitle(p.Name.Value), Path: lessonPath(l) + "#practical_" + p.Name.Value})
			}
		}
		rows = append(rows, row)
	}
	return rows
}
