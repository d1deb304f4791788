package lesson

import (
	"plait/internal/diag"
	"plait/internal/markdown"
	"plait/internal/question"
	"plait/internal/source"
	"plait/internal/yamlpos"
)

// Question is a question block and where in the lesson it stands.
type Question struct {
	*question.Block
	Fence *markdown.Block
	Step  *Step // nil before the first step
}

// Practical is a practical block and where in the lesson it stands.
type Practical struct {
	*question.Practical
	Fence *markdown.Block
	Step  *Step // nil before the first step
}

// Outcome returns the outcome of a name.
func (l *Lesson) Outcome(name string) (Outcome, bool) {
	for _, o := range l.Outcomes {
		if o.Name.Value == name {
			return o, true
		}
	}
	return Outcome{}, false
}

func (l *Lesson) readQuestion(b *markdown.Block, step *Step, r *yamlpos.Reader) {
	block, faults := question.Read(b.Name, b.Body)
	r.Report(faults...)
	if l.hasName(b, "question", r) {
		l.Questions = append(l.Questions, &Question{Block: block, Fence: b, Step: step})
	}
}

func (l *Lesson) readPractical(b *markdown.Block, step *Step, r *yamlpos.Reader) {
	block, faults := question.ReadPractical(b.Name, b.Body)
	r.Report(faults...)
	if l.hasName(b, "practical", r) {
		l.Practicals = append(l.Practicals, &Practical{Practical: block, Fence: b, Step: step})
	}
}

// hasName reports a block that is asked without a name, or by one that a question or a
// practical of the lesson has already: marks and progress are kept under it.
func (l *Lesson) hasName(b *markdown.Block, what string, r *yamlpos.Reader) bool {
	if b.Name.Value == "" {
		r.Report(diag.Errorf("question/name", b.Span, "the %s has no name", what).
			WithHelp("write ```%s weigh: marks and progress are kept under the name", what))
		return false
	}
	if first, twice := l.asked(b.Name.Value); twice {
		r.Report(diag.Errorf("question/name", b.Name.Span, "this lesson asks %q twice", b.Name.Value).
			WithNote(first, "the first is here").WithHelp("give one of them another name"))
		return false
	}
	return true
}

// asked returns where the lesson names a question or a practical.
func (l *Lesson) asked(name string) (source.Span, bool) {
	for _, q := range l.Questions {
		if q.Name.Value == name {
			return q.Name.Span, true
		}
	}
	for _, p := range l.Practicals {
		if p.Name.Value == name {
			return p.Name.Span, true
		}
	}
	return source.Span{}, false
}
