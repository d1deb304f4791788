package page

import (
	"encoding/json"
	"fmt"
	"html/template"

	"plait/internal/answer"
	"plait/internal/derive"
	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/paper"
	"plait/internal/question"
	"plait/internal/shade"
)

// PaperView is a paper: every question it can draw, of which its script shows those of
// one learner. It holds no key, and nothing to make one from.
type PaperView struct {
	Frame
	Lead       string
	Facts      []Fact
	Asked      string // how many of how many questions a learner is asked
	Must       bool   // there are outcomes that must be right
	Questions  []PaperQuestion
	Practicals []PaperPractical
	Data       template.JS // [paperData] as JSON
}

// PaperQuestion is a question of a paper with all its figures.
type PaperQuestion struct {
	Name    string // in answer files
	Lesson  string
	Figures []PaperFigures
}

// PaperFigures is a question asked in one way. Kind says how it is answered: choose,
// order, pairs, level or number.
type PaperFigures struct {
	ID, Name string
	Code     string // by which the printed key finds it
	Kind     string
	Ask      string
	Unit     string // behind the field of a number
	Decimal  bool   // the field wants a number, and a keypad for it
	Input    string // radio, or checkbox where several are right
	Hint     string
	Options  []string
	Lefts    []string // what options are paired with, or brought into places
	Rungs    []Rung
	Heads    []HeadDrawing // on which a place can be tapped
}

// PaperPractical is a practical that is signed off on the same sheet, by one assessor
// or by two.
type PaperPractical struct {
	Name, Title, Outcome string
	Show                 []string
	Assessors            []PaperAssessor
}

// PaperAssessor is where one assessor signs.
type PaperAssessor struct{ ID, Title string }

// paperData is what the script draws by.
type paperData struct {
	Paper   string      `json:"paper"`
	Course  string      `json:"course"`
	Edition string      `json:"edition"`
	Text    string      `json:"text"`
	Minutes int         `json:"minutes"` // 0 for as long as it takes
	Draws   []paperDraw `json:"draws"`
	Figures []int       `json:"figures"` // how many each question has
}

type paperDraw struct {
	N    int   `json:"n"`
	Pool []int `json:"pool"`
}

// paper makes the page of a paper.
func (b *builder) paper(out []byte, p *paper.Paper) ([]byte, error) {
	v := PaperView{
		Frame: b.frame(paperPath(p.Name), "paper", p.Title.Value, p.Summary.Value),
		Lead:  p.Summary.Value,
		Facts: paperFacts(p),
		Must:  len(p.Must) > 0,
		Asked: "Every learner is asked the same questions, with figures of their own.",
	}
	if p.Asked < len(p.Questions) {
		v.Asked = fmt.Sprintf("%d of %d questions are drawn for each learner, with figures of their own.", p.Asked, len(p.Questions))
	}
	data := paperData{Paper: p.Name, Course: p.CourseID, Edition: p.Edition, Text: p.Text, Minutes: int(p.Time.Value.Minutes())}
	for _, d := range p.Draws {
		data.Draws = append(data.Draws, paperDraw{N: d.Questions.Value, Pool: d.Pool})
	}
	for i, q := range p.Questions {
		v.Questions = append(v.Questions, b.paperQuestion(i, q))
		data.Figures = append(data.Figures, len(q.Figures))
	}
	for i, signed := range p.Signed {
		v.Practicals = append(v.Practicals, paperPractical(i, signed))
	}
	text, err := json.Marshal(data)
	if err != nil {
		return nil, err
	}
	v.Data = template.JS(text)
	return b.templates.page(out, "paper", v)
}

func paperFacts(p *paper.Paper) []Fact {
	facts := []Fact{count(p.Asked, "question")}
	if p.Time.Set() {
		facts = append(facts, Fact{Value: spaced(measure.Minutes(p.Time.Value)), Text: "to answer them"})
	}
	facts = append(facts, Fact{
		Value: p.PassMark.Mul(exact.Int(100)).Decimal(1) + nbsp + "%",
		Text:  fmt.Sprintf("to pass: %d right", p.Needed(p.Asked)),
	})
	if edition := p.Paper.Edition.Value; edition != "" {
		facts = append(facts, Fact{Value: edition, Text: "edition"})
	}
	return facts
}

func (b *builder) paperQuestion(i int, q *paper.Question) PaperQuestion {
	v := PaperQuestion{Name: q.ID(), Lesson: q.Lesson.Title.Value}
	for j := range q.Figures {
		f := paperFigures(q, &q.Figures[j])
		f.ID = fmt.Sprintf("question_%d_%d", i, j)
		f.Name = q.ID()
		f.Code = paper.Code(i, j)
		f.Heads = b.headsToTap(q.Figures[j].Sheet, f.ID)
		v.Figures = append(v.Figures, f)
	}
	return v
}

// paperFigures shows a question in one way. Of the answer it takes only what a learner
// has to know to give one: the unit, and whether one option is right or several.
func paperFigures(q *paper.Question, f *paper.Figures) PaperFigures {
	v := PaperFigures{Ask: bound(f.Ask)}
	switch {
	case q.Kind == question.Order:
		v.Kind, v.Lefts = "order", f.Shown
		for i := range f.Shown {
			v.Options = append(v.Options, fmt.Sprint(i+1))
		}
	case q.Kind == question.Pairs:
		v.Kind, v.Lefts, v.Options = "pairs", f.Shown, f.Beside
	case len(f.Options) > 0:
		v.Kind, v.Options = "choose", f.Shown
		v.Input, v.Hint = "radio", "Choose one"
		if f.Several() {
			v.Input, v.Hint = "checkbox", "Choose all that are right"
		}
		if q.Kind == question.Place {
			v.Hint = "Choose the section"
		}
	case q.Kind == question.Level:
		v.Kind = "level"
		for level := shade.Darkest; level <= shade.Lightest; level++ {
			v.Rungs = append(v.Rungs, Rung{Level: int(level), Swatch: levelSwatch(level)})
		}
	default:
		v.Kind = "number"
		v.unit(f.Solution)
	}
	return v
}

func (v *PaperFigures) unit(s derive.Solution) {
	switch s.Key.Unit {
	case answer.Ratio:
		v.Unit = "such as 1:1.5"
	case answer.Moment:
		v.Unit = "such as 10:52"
	case answer.Level:
		v.Unit, v.Decimal = "(a level)", true
	default:
		v.Unit, v.Decimal = string(s.Key.Unit), true
	}
}

func paperPractical(i int, p *paper.Practical) PaperPractical {
	outcome, _ := p.Lesson.Outcome(p.Tests.Value)
	v := PaperPractical{Name: p.ID(), Title: bowlTitle(p.Name.Value), Outcome: outcome.Text.Value}
	for _, t := range p.Show {
		v.Show = append(v.Show, t.Value)
	}
	for j, title := range []string{"Assessor", "Second assessor"} {
		v.Assessors = append(v.Assessors, PaperAssessor{ID: fmt.Sprintf("practical_%d_%d", i, j), Title: title})
	}
	return v
}
