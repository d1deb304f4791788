package derive

import (
	"slices"
	"time"

	"plait/internal/answer"
	"plait/internal/course"
	"plait/internal/diag"
	"plait/internal/exact"
	"plait/internal/formula"
	"plait/internal/lesson"
	"plait/internal/measure"
	"plait/internal/question"
	"plait/internal/shade"
	"plait/internal/source"
)

// Question is a question with everything that follows from it.
type Question struct {
	*lesson.Question
	Lesson *lesson.Lesson
	OK     bool // it could be worked out
	Solution

	// Variants ask the same with other figures, in the order of the values that vary;
	// the one with the figures of the question itself is left out.
	Variants []Variant

	paper []Variant // with the figures that are kept for papers
}

// ID names the question in the course: the lesson, a stroke and its own name.
func (q *Question) ID() string { return q.Lesson.Name + "/" + q.Name.Value }

// Variant is a question with other figures. Index counts from 0.
type Variant struct {
	Index int
	Solution
}

// Solution is a question of given figures with its answer. Where there are Options the
// answer is which of them are right, else it is the Key; order and pairs have theirs in
// the block.
type Solution struct {
	Ask     string
	Given   *question.Given
	Sought  string // the quantity worked out; empty where none was
	Key     answer.Key
	Options []Option
	Slips   []Slip

	Block    *formula.Block // the bowl it was worked out from, nil for none
	Computed Computed       // of that bowl
	Range    *shade.Range   // that codes and warmths are read by; nil for none
	Hair     formula.Hair   // that the question speaks of; zero for none
	Buy      measure.Mass   // what a class buys, where that was asked
	Sheet    *Sheet         // that a place is found on, nil for none
}

// Levels returns the level of the hair and the one aimed at, zero where there is none.
func (sol *Solution) Levels() (natural, target shade.Level) {
	target, _ = targetGiven(sol)
	return sol.Hair.Level, target
}

// Service returns how long the application takes, where the time counts from its end,
// and how long the colour stays.
func (sol *Solution) Service() (apply, stay time.Duration) {
	apply, stay, zero, _ := service(sol)
	if zero == formula.FirstTouch {
		apply = 0
	}
	return apply, stay
}

// Option is one thing to choose.
type Option struct {
	Text  string
	Right bool
	Span  source.Span // where it was typed; of hues that plait lists it is no place
}

// Slip is a tempting wrong answer with what to say to it.
type Slip struct {
	Value answer.Value
	Text  string // as it is compared with an option; of a value the value printed
	Say   string
	Span  source.Span
}

// Questions returns the questions of a lesson, those that are kept for papers too.
func (d *Derived) Questions(l *lesson.Lesson) []*Question { return d.partOf(l).questions }

// Practice returns the questions of a lesson that learners practise with: their
// answers are told. Nothing else about questions may reach a page that is not a paper.
func (d *Derived) Practice(l *lesson.Lesson) []*Question {
	var list []*Question
	for _, q := range d.partOf(l).questions {
		if !q.Paper.Alone {
			list = append(list, q)
		}
	}
	return list
}

// ForPapers returns what papers may ask of a question: all its figures where it is kept
// for them as a whole, else those that were kept for them and those that no page shows.
func (q *Question) ForPapers() []Solution {
	var list []Solution
	variants := slices.Concat(q.paper, q.Kept())
	if q.Paper.Alone {
		list, variants = append(list, q.Solution), q.Variants
	}
	asked := map[string]bool{}
	for _, v := range variants {
		if !asked[v.Ask] {
			asked[v.Ask] = true
			list = append(list, v.Solution)
		}
	}
	return list
}

// ask works out all questions of a lesson.
func (d *Derived) ask(c *course.Course, l *lesson.Lesson) []diag.Diagnostic {
	var found []diag.Diagnostic
	p := d.partOf(l)
	for _, asked := range l.Questions {
		q := &Question{Question: asked, Lesson: l, Solution: Solution{Given: &asked.Given}}
		p.questions = append(p.questions, q)
		if asked.Broken {
			continue
		}
		s := &solver{derived: d, course: c, lesson: l, block: asked.Block}
		q.Solution = s.solve(&asked.Given, asked.Ask.Value)
		if q.OK = !diag.HasErrors(s.found); q.OK {
			q.Variants = s.variants(&q.Solution, asked.Vary)
			q.paper = s.variants(&q.Solution, asked.Paper.Vary)
			q.OK = !diag.HasErrors(s.found)
		}
		found = append(found, s.found...)
	}
	return found
}

// solver works out one question of a lesson.
type solver struct {
	derived *Derived
	course  *course.Course
	lesson  *lesson.Lesson
	block   *question.Block
	found   []diag.Diagnostic
}

func (s *solver) fault(rule string, at source.Span, help, format string, args ...any) {
	s.found = append(s.found, diag.Errorf(rule, at, format, args...).WithHelp("%s", help))
}

// solve works the question out for what is given.
func (s *solver) solve(given *question.Given, ask string) Solution {
	sol := Solution{Ask: ask, Given: given}
	s.readBowl(&sol)
	if diag.HasErrors(s.found) {
		return sol
	}
	sol.Hair, _ = s.hairGiven(&sol)
	switch s.block.Kind {
	case question.Find:
		s.find(&sol, s.block.Find)
		s.hues(&sol)
	case question.Answer:
		s.typed(&sol)
	case question.Level:
		s.level(&sol)
	case question.Choose:
		s.choose(&sol)
	case question.Place:
		s.place(&sol)
	}
	if diag.HasErrors(s.found) {
		return sol
	}
	s.near(&sol)
	s.slips(&sol)
	return sol
}

// typed takes the answer that the author typed.
func (s *solver) typed(sol *Solution) {
	unit, value, err := answer.Guess(s.block.Answer.Value)
	if err != nil {
		s.fault("question/answer", s.block.Answer.Span, "write a number with its unit, a ratio such as 1:1.5 or a time of day such as 09:30", "%q is not an answer that can be judged: %v", s.block.Answer.Value, err)
		return
	}
	sol.Key = answer.Key{Unit: unit, Value: value}
}

// level takes the level that was typed, or works one out.
func (s *solver) level(sol *Solution) {
	t := s.block.Level
	if v, err := answer.Parse(t.Value, answer.Level); err == nil {
		sol.Key = answer.Key{Unit: answer.Level, Value: v}
		if !v.Number.IsInt() || v.Number.Less(exact.One) || exact.Int(int64(shade.Lightest)).Less(v.Number) {
			s.fault("question/answer", t.Span, "levels run from 1 (black) to 10 (lightest blonde)", "%q is no rung of the ladder", t.Value)
		}
		return
	}
	s.find(sol, t)
	if !diag.HasErrors(s.found) && sol.Key.Unit != answer.Level {
		s.fault("question/find", t.Span, "write a level, or one of reads, average level, shade level, result", "%s is no level", t.Value)
	}
}

// choose takes the options, and works out which is right where the author left that to
// plait.
func (s *solver) choose(sol *Solution) {
	c := s.block.Choose
	if c.Of.Value != "" {
		s.find(sol, c.Of)
		if diag.HasErrors(s.found) {
			return
		}
		s.near(sol)
	}
	for _, o := range c.Options {
		right := o.Right
		if c.Of.Value != "" {
			v, err := answer.Parse(o.Text.Value, sol.Key.Unit)
			if err != nil {
				s.fault("question/answer", o.Text.Span, "write each as the answer would be written, with its unit", "%q cannot be compared with the %s: %v", o.Text.Value, c.Of.Value, err)
				return
			}
			right = sol.Key.Agrees(v)
		}
		sol.Options = append(sol.Options, Option{Text: o.Text.Value, Right: right, Span: o.Text.Span})
	}
}

// hues lists all hues to choose from where the answer is one.
func (s *solver) hues(sol *Solution) {
	if sol.Key.Unit != answer.Word || diag.HasErrors(s.found) {
		return
	}
	for _, hue := range shade.Hues() {
		sol.Options = append(sol.Options, Option{Text: hue, Right: hue == sol.Key.Value.Word})
	}
}

// near sets the tolerance: what the author wrote, else what the unit and the scale of
// the course allow.
func (s *solver) near(sol *Solution) {
	if t := s.block.Near; t.Value != "" {
		v, err := answer.Parse(t.Value, sol.Key.Unit)
		if err != nil || v.Number.Sign() < 0 || sol.Key.Unit == answer.Word {
			s.fault("question/near", t.Span, "write how far off is still right in the unit of the answer, as in 0.5 g", "%q is no tolerance for this answer", t.Value)
			return
		}
		sol.Key.Near = v.Number
		return
	}
	sol.Key.Near = exact.Max(sol.Key.Near, usualNear(sol.Key.Unit, s.course.Scale.Grams()))
}

// usualNear is how far off is right where nothing is said: one step of the scale for a
// weight; for other figures half of the last place a learner is expected to write.
func usualNear(u answer.Unit, step exact.Number) exact.Number {
	switch u {
	case answer.Gram:
		return step
	case answer.Percent, answer.Area, answer.Centimetre, answer.Level, answer.Time:
		return exact.Of(1, 20)
	case answer.Ratio:
		return exact.Of(1, 200)
	case answer.Volume:
		return exact.Of(1, 10)
	}
	return exact.Zero
}
