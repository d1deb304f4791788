package register

import (
	"slices"
	"strings"

	"plait/internal/classtest"
)

// Analysis is what the marks of a class say about a paper.
type Analysis struct {
	Paper     string
	Sittings  []Sitting // those that count
	Questions []Question
	Modules   []string // that the paper asks about, in the order of its questions

	Common    int // questions that everybody was asked
	KR20      classtest.Figure
	KR20Range classtest.Interval // of KR20 where that is known
	KR21      classtest.Figure   // for the whole paper, where questions were drawn
	Alpha     classtest.Figure   // of the marks by module
	StdError  classtest.Figure   // in marks, of the whole paper
	Drawn     bool               // not everybody was asked the same questions
	Asked     int                // questions on each learner's paper
}

// Question is what the marks say about one question.
type Question struct {
	ID, Module, Outcome string
	Asked, Right, Blank int
	Difficulty          classtest.Figure // share of those asked who were right
	Discrimination      classtest.Figure
	ItemRest            classtest.Figure // correlation with the rest of the paper
}

// Analyse looks at the sittings of a paper that count.
func (r *Register) Analyse(paper string) Analysis {
	a := Analysis{Paper: paper, Sittings: r.Counting(paper)}
	a.questions()
	a.reliability()
	return a
}

// questions gathers the questions in the order of their modules and names, and their
// figures.
func (a *Analysis) questions() {
	at := map[string]int{}
	classes := map[string][]answered{}
	for _, s := range a.Sittings {
		for _, x := range s.Answers {
			i, known := at[x.Question]
			if !known {
				i = len(a.Questions)
				at[x.Question] = i
				a.Questions = append(a.Questions, Question{ID: x.Question, Module: x.Module, Outcome: x.Outcome})
			}
			q := &a.Questions[i]
			q.Asked++
			q.Right += one(x.Right)
			q.Blank += one(x.Given == "")
			classes[x.Question] = append(classes[x.Question], answered{one(x.Right), s.Right, s.Of})
			if !slices.Contains(a.Modules, x.Module) {
				a.Modules = append(a.Modules, x.Module)
			}
		}
	}
	for i := range a.Questions {
		q := &a.Questions[i]
		class := classes[q.ID]
		q.Difficulty = classtest.Difficulty(q.Right, q.Asked)
		q.Discrimination = classtest.Discrimination(each(class, answered.withTest))
		q.ItemRest = classtest.ItemTotal(each(class, answered.withRest))
	}
	slices.SortStableFunc(a.Questions, func(x, y Question) int {
		if x.Module != y.Module {
			return slices.Index(a.Modules, x.Module) - slices.Index(a.Modules, y.Module)
		}
		return strings.Compare(x.ID, y.ID)
	})
}

// answered is one learner's mark on a question and on the paper.
type answered struct{ mark, right, of int }

// withTest and withRest put the mark beside the share of the paper, and of the paper
// without the question, that the learner had right. Shares, because papers may differ in
// length between editions.
func (x answered) withTest() classtest.Answered {
	return classtest.Answered{Mark: float64(x.mark), Test: share(x.right, x.of)}
}

func (x answered) withRest() classtest.Answered {
	return classtest.Answered{Mark: float64(x.mark), Test: share(x.right-x.mark, x.of-1)}
}

func share(n, of int) float64 {
	if of == 0 {
		return 0
	}
	return float64(n) / float64(of)
}

func each(class []answered, f func(answered) classtest.Answered) []classtest.Answered {
	out := make([]classtest.Answered, len(class))
	for i, x := range class {
		out[i] = f(x)
	}
	return out
}

func one(b bool) int {
	if b {
		return 1
	}
	return 0
}

// reliability works out how far the marks can be trusted: KR-20 over the questions that
// everybody was asked, KR-21 for the whole where questions were drawn.
func (a *Analysis) reliability() {
	n := len(a.Sittings)
	var common []string
	for _, q := range a.Questions {
		if q.Asked == n {
			common = append(common, q.ID)
		}
	}
	a.Common = len(common)
	a.Drawn = a.Common < len(a.Questions)
	marks := make([][]float64, n)
	totals := make([]float64, n)
	parts := make([][]float64, n)
	alike := true
	for i, s := range a.Sittings {
		marks[i] = s.marksOf(common)
		totals[i] = float64(s.Right)
		parts[i] = s.sharesOf(a.Modules)
		alike = alike && s.Of == a.Sittings[0].Of
	}
	a.KR20 = classtest.KR20(marks)
	a.KR20Range, _ = classtest.AlphaInterval(a.KR20, n, a.Common)
	a.Alpha = classtest.Alpha(parts)
	if n == 0 {
		a.KR21, a.StdError = classtest.Figure{Why: classtest.NoAnswers}, classtest.Figure{Why: classtest.NoAnswers}
		return
	}
	a.Asked = a.Sittings[0].Of
	if !alike {
		a.KR21, a.StdError = classtest.Figure{Why: classtest.Incomplete}, classtest.Figure{Why: classtest.Incomplete}
		return
	}
	a.KR21 = classtest.KR21(totals, a.Asked)
	whole := a.KR20
	if a.Drawn {
		whole = a.KR21
	}
	a.StdError = classtest.StandardError(totals, whole)
}

// marksOf returns the marks of the questions, all of which were asked.
func (s Sitting) marksOf(questions []string) []float64 {
	out := make([]float64, len(questions))
	for _, x := range s.Answers {
		if i := slices.Index(questions, x.Question); i >= 0 {
			out[i] = float64(one(x.Right))
		}
	}
	return out
}

// sharesOf returns the share right in each of the modules; nil where one was not asked
// about.
func (s Sitting) sharesOf(modules []string) []float64 {
	var out []float64
	for _, m := range modules {
		right, of := s.In(m)
		if of == 0 {
			return nil
		}
		out = append(out, share(right, of))
	}
	return out
}

// In returns how many answers of a module were right, and of how many.
func (s Sitting) In(module string) (right, of int) {
	for _, x := range s.Answers {
		if x.Module == module {
			right += one(x.Right)
			of++
		}
	}
	return right, of
}

// Shown returns how many answers to questions of an outcome were right, and of how many.
func (s Sitting) Shown(outcome string) (right, of int) {
	for _, x := range s.Answers {
		if x.Outcome == outcome {
			right += one(x.Right)
			of++
		}
	}
	return right, of
}

// Outcomes returns the outcomes that the paper's questions test, by module and name.
func (a *Analysis) Outcomes() []string {
	var names []string
	for _, q := range a.Questions {
		if !slices.Contains(names, q.Outcome) {
			names = append(names, q.Outcome)
		}
	}
	return names
}
