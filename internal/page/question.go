package page

import (
	"fmt"
	"slices"
	"strings"

	"plait/internal/answer"
	"plait/internal/derive"
	"plait/internal/lesson"
	"plait/internal/lot"
	"plait/internal/question"
	"plait/internal/shade"
	"plait/internal/source"
	"plait/internal/working"
)

// QuestionView is the card of one question. Kind says how it is answered: number, level,
// order, pairs, choose or place. Without a script everything stands there to be read.
type QuestionView struct {
	ID, Card string // of the element; under which progress is kept
	Kind     string
	Tag      string // the words over the question
	Ask      string
	Unit     string // behind the field of a number
	Decimal  bool   // the field wants a number, and a keypad for it
	Hint     string
	Input    string   // radio, or checkbox where several are right
	Options  []string // to choose, to order or to pair, as shown
	Lefts    []string // what options are paired with
	Rungs    []Rung
	Heads    []HeadDrawing // on which a place can be tapped
	More     bool          // there are variants
	Truth    string
	Because  string
	Working  []string

	sheet *derive.Sheet // that a place is found on, nil for none
	data  questionData  // for the script
}

// questionData is what the script judges by. A number has its unit, its value and how
// far off is right, as exact numbers; a list has the numbers of its right options: in
// order for an order, for each left side for pairs.
type questionData struct {
	Unit     string        `json:"unit,omitempty"`
	Value    string        `json:"value,omitempty"`
	Near     string        `json:"near,omitempty"`
	Right    []int         `json:"right,omitempty"`
	Slips    [][2]string   `json:"slips,omitempty"` // value or number of the option, and what to say
	Variants []variantData `json:"variants,omitempty"`
}

// variantData is the same question with other figures.
type variantData struct {
	Ask     string      `json:"ask"`
	Value   string      `json:"value,omitempty"`
	Near    string      `json:"near,omitempty"`
	Right   []int       `json:"right,omitempty"`
	Truth   string      `json:"truth"`
	Working []string    `json:"working,omitempty"`
	Slips   [][2]string `json:"slips,omitempty"`
}

// question appends the card of a question of a lesson, nothing for one that cannot be asked.
func (b *builder) question(out []byte, l *lesson.Lesson, q *lesson.Question) ([]byte, error) {
	for _, a := range b.shares[b.places[l].at].asks {
		if a.question == q {
			return b.templates.appendPart(out, "question", b.withHeads(a.view, a.view.ID))
		}
	}
	return out, nil
}

// withHeads returns a view with an id and the drawings that its place is tapped on.
func (b *builder) withHeads(v *QuestionView, id string) *QuestionView {
	whole := *v
	whole.ID, whole.Heads = id, b.headsToTap(v.sheet, id)
	return &whole
}

// questionView returns the card of a question, nil for one that cannot be asked.
func questionView(q *derive.Question) *QuestionView {
	if !q.OK {
		return nil
	}
	v := &QuestionView{
		ID:      "question_" + q.Name.Value,
		Card:    q.ID(),
		Tag:     "Question",
		Ask:     bound(q.Ask),
		More:    len(q.Practice()) > 0,
		Because: bound(q.Because.Value),
		Working: lines(&q.Solution),
	}
	data := &v.data
	data.Slips = slips(&q.Solution, nil)
	switch {
	case q.Kind == question.Order:
		v.shuffled(q, data, values(q.Order))
		v.Kind = "order"
		v.Truth = strings.Join(values(q.Order), " → ")
	case q.Kind == question.Pairs:
		v.pairs(q, data)
	case len(q.Options) > 0:
		v.choose(q, data)
	case q.Kind == question.Level:
		v.Kind = "level"
		for level := shade.Darkest; level <= shade.Lightest; level++ {
			v.Rungs = append(v.Rungs, Rung{Level: int(level), Swatch: levelSwatch(level)})
		}
	case q.Kind == question.Find || q.Kind == question.Answer:
		v.Kind = "number"
		v.number(q.Key.Unit)
	default:
		return nil
	}
	if v.Kind == "number" || v.Kind == "level" {
		data.Unit = string(q.Key.Unit)
		data.Value, data.Near = q.Key.Value.Number.String(), q.Key.Near.String()
		v.Truth = truth(q.Key)
	}
	for _, variant := range q.Practice() {
		data.Variants = append(data.Variants, v.variant(&variant.Solution))
	}
	return v
}

// truth is the answer as it is told.
func truth(k answer.Key) string {
	text := spaced(k.String())
	if k.Unit == answer.Level {
		return "Level " + text
	}
	return text
}

// number says what to write into the field.
func (v *QuestionView) number(u answer.Unit) {
	switch u {
	case answer.Ratio:
		v.Unit = "such as 1:1.5"
	case answer.Moment:
		v.Unit = "such as 10:52"
	case answer.Level:
		v.Unit, v.Decimal = "(a level)", true
	default:
		v.Unit, v.Decimal = string(u), true
	}
}

// shuffled shows options in an order that is drawn by the name of the question, so that
// two builds agree, and returns the numbers the right order has then. A list that came
// out in its own order is turned by one.
func (v *QuestionView) shuffled(q *derive.Question, data *questionData, texts []string) {
	order := lot.New(lot.Seed(q.ID())).Draw(len(texts), len(texts))
	if slices.IsSorted(order) {
		order = append(order[1:], order[0])
	}
	data.Right = make([]int, len(texts))
	for shown, own := range order {
		v.Options = append(v.Options, texts[own])
		data.Right[own] = shown
	}
}

func (v *QuestionView) pairs(q *derive.Question, data *questionData) {
	v.Kind = "pairs"
	var rights, told []string
	for _, p := range q.Pairs {
		v.Lefts = append(v.Lefts, p.Left.Value)
		rights = append(rights, p.Right.Value)
		told = append(told, p.Left.Value+" – "+p.Right.Value)
	}
	v.shuffled(q, data, rights)
	v.Truth = strings.Join(told, "; ")
}

// choose shows a list to choose from. Hues stay in the order of the wheel, and figures in
// theirs; other options are shuffled.
func (v *QuestionView) choose(q *derive.Question, data *questionData) {
	v.Kind, v.Input, v.Hint = "choose", "radio", "Choose one"
	if q.Kind == question.Place {
		v.Kind, v.Hint, v.sheet = "place", "Choose the section", q.Sheet
	}
	texts := make([]string, len(q.Options))
	for i, o := range q.Options {
		texts[i] = o.Text
	}
	at := make([]int, len(texts)) // where each option is shown
	if q.Kind == question.Choose && q.Choose.Of.Value == "" {
		drawn := questionData{}
		v.shuffled(q, &drawn, texts)
		at = drawn.Right
	} else {
		v.Options = texts
		for i := range at {
			at[i] = i
		}
	}
	var right []string
	for i, o := range q.Options {
		if o.Right {
			data.Right = append(data.Right, at[i])
			right = append(right, o.Text)
		}
	}
	slices.Sort(data.Right)
	if len(right) > 1 {
		v.Input, v.Hint = "checkbox", "Choose all that are right"
	}
	v.Truth = bound(strings.Join(right, "; "))
	data.Slips = slips(&q.Solution, v.Options)
	for i, o := range v.Options {
		v.Options[i] = bound(o)
	}
}

// variant is what the script needs to ask once more with other figures.
func (v *QuestionView) variant(s *derive.Solution) variantData {
	d := variantData{Ask: bound(s.Ask), Truth: truth(s.Key), Working: lines(s), Slips: slips(s, nil)}
	if len(s.Options) == 0 {
		d.Value, d.Near = s.Key.Value.Number.String(), s.Key.Near.String()
		return d
	}
	for i, o := range s.Options {
		if o.Right {
			d.Right = append(d.Right, i)
			d.Truth = bound(o.Text)
		}
	}
	d.Slips = slips(s, v.Options)
	return d
}

// slips lists tempting wrong answers with what to say: by their value, or by their number
// among the options shown.
func slips(s *derive.Solution, options []string) [][2]string {
	var out [][2]string
	for _, slip := range s.Slips {
		if len(s.Options) == 0 {
			out = append(out, [2]string{slip.Value.Number.String(), bound(slip.Say)})
			continue
		}
		for i, o := range options {
			if strings.EqualFold(plainSpaces(o), slip.Text) {
				out = append(out, [2]string{fmt.Sprint(i), bound(slip.Say)})
			}
		}
	}
	return out
}

// units are what can stand behind a figure.
var units = []string{"g", "kg", "vol", "min", "h", "cm", "mm"}

// bound keeps figures and their units on one line.
func bound(s string) string {
	var out strings.Builder
	done := 0
	for i := 1; i < len(s)-1; i++ {
		if s[i] == ' ' && s[i-1] >= '0' && s[i-1] <= '9' && isUnit(s[i+1:]) {
			out.WriteString(s[done:i])
			out.WriteString(nbsp)
			done = i + 1
		}
	}
	if done == 0 {
		return s
	}
	out.WriteString(s[done:])
	return out.String()
}

// isUnit reports whether a text begins with a unit that is a word, or with %.
func isUnit(s string) bool {
	word := strings.IndexFunc(s, func(r rune) bool {
		return r != '_' && (r < '0' || r > '9') && (r < 'A' || r > 'Z') && (r < 'a' || r > 'z')
	})
	if word < 0 {
		word = len(s)
	}
	return s[0] == '%' || slices.Contains(units, s[:word])
}

// plainSpaces undoes [bound].
func plainSpaces(s string) string { return strings.ReplaceAll(s, nbsp, " ") }

// lines is how an answer comes about.
func lines(s *derive.Solution) []string {
	var out []string
	for _, l := range working.Question(s) {
		out = append(out, bound(l.String()))
	}
	return out
}

// PracticalView is a checklist for an assessor.
type PracticalView struct {
	ID, Card string
	Title    string
	Outcome  string
	Show     []string
}

// practical appends the checklist of a practical.
func (b *builder) practical(out []byte, l *lesson.Lesson, p *lesson.Practical) ([]byte, error) {
	return b.templates.appendPart(out, "practical", practicalView(l, p))
}

func practicalView(l *lesson.Lesson, p *lesson.Practical) PracticalView {
	return PracticalView{
		ID:      "practical_" + p.Name.Value,
		Card:    l.Name + "/" + p.Name.Value,
		Title:   bowlTitle(p.Name.Value),
		Outcome: outcomeText(l, p.Tests),
		Show:    values(p.Show),
	}
}

// outcomeText is an outcome in words.
func outcomeText(l *lesson.Lesson, name source.Text) string {
	o, _ := l.Outcome(name.Value)
	return o.Text.Value
}
