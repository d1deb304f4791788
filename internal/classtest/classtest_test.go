package classtest

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
	"pgregory.net/rapid"
)

// near is how close two figures are that differ in rounding alone.
const near = 1e-12

func expectFigure(t *testing.T, what string, got Figure, want, within float64) {
	t.Helper()
	if !got.Known() {
		t.Errorf("%s: no figure (%v), want %v", what, got.Why, want)
		return
	}
	if math.Abs(got.Value-want) > within {
		t.Errorf("%s: got %v, want %v", what, got.Value, want)
	}
}

func expectReason(t *testing.T, what string, got Figure, want Reason) {
	t.Helper()
	if got.Why != want || got.Value != 0 {
		t.Errorf("%s: got %v (%v), want %v", what, got.Value, got.Why, want)
	}
}

// matrix reads rows of 0 and 1.
func matrix(rows string) [][]float64 {
	var out [][]float64
	for _, row := range strings.Fields(rows) {
		marks := make([]float64, len(row))
		for i, c := range row {
			marks[i] = float64(c - '0')
		}
		out = append(out, marks)
	}
	return out
}

func totals(marks [][]float64) []float64 {
	out := make([]float64, len(marks))
	for i, row := range marks {
		for _, m := range row {
			out[i] += m
		}
	}
	return out
}

// class pairs the marks of one question with those of the whole test, or with those of
// the test without it.
func class(marks [][]float64, question int, without bool) []Answered {
	out := make([]Answered, len(marks))
	for i, total := range totals(marks) {
		out[i] = Answered{Mark: marks[i][question], Test: total}
		if without {
			out[i].Test -= out[i].Mark
		}
	}
	return out
}

// worksheet is a published school worksheet of item analysis with its answers: ten
// learners by rank, ten questions.
var worksheet = matrix("1111111111 1111111101 1101111100 0111110101 1110111001 1110110100 0110110101 0111001010 1110100001 0100010010")

func TestWorksheetDifficulty(t *testing.T) {
	for q, want := range []float64{.6, 1, .8, .5, .8, .8, .5, .6, .3, .6} {
		right := 0
		for _, row := range worksheet {
			right += int(row[q])
		}
		expectFigure(t, "p", Difficulty(right, len(worksheet)), want, near)
	}
	expectReason(t, "nobody asked", Difficulty(0, 0), NoAnswers)
}

func TestWorksheetDiscrimination(t *testing.T) {
	for q, want := range []float64{.4, 0, 0, .6, .4, .4, .6, .4, -.2, .4} {
		expectFigure(t, "D", Discrimination(class(worksheet, q, false)), want, near)
	}
}

// The worksheet prints no correlations; these were worked out from its rows by a
// script of their own.
func TestWorksheetItemTotal(t *testing.T) {
	for _, c := range []struct {
		question      int
		with, without float64
	}{{0, 0.5342, 0.3122}, {3, 0.5758, 0.3586}, {8, -0.1713, -0.3852}} {
		expectFigure(t, "r", ItemTotal(class(worksheet, c.question, false)), c.with, 5e-5)
		expectFigure(t, "corrected r", ItemTotal(class(worksheet, c.question, true)), c.without, 5e-5)
	}
	expectFigure(t, "KR-20", KR20(worksheet), 0.5297, 5e-5)
	expectFigure(t, "KR-21", KR21(totals(worksheet), 10), 0.4186, 5e-5)
	expectReason(t, "everyone right on question 2", ItemTotal(class(worksheet, 1, false)), NoSpread)
}

// A university handout on KR-20 works this matrix: Σpq 2.18, variance 5.84.
func TestHandoutKR20(t *testing.T) {
	marks := matrix("1111110110 1011011101 1111011001 0010001000 0000010010 1110111111 1101110111 1111111101 0101111101 1101101110")
	expectFigure(t, "variance", Figure{Value: stat.PopVariance(totals(marks), nil)}, 5.84, near)
	expectFigure(t, "KR-20", KR20(marks), 10.0/9*(1-2.18/5.84), near)
	expectFigure(t, "KR-20", KR20(marks), 0.696347, 5e-7)
	// With the sample variance in its place the same rows give 0.737823, as one page has it.
	if got := KR20(marks).Value; math.Abs(got-0.737823) < 1e-3 {
		t.Errorf("%v mixes the variances of class and sample", got)
	}
}

// Published web pages that work alpha through by hand.
func TestPagesAlpha(t *testing.T) {
	expectFigure(t, "four learners", Alpha(matrix("454 343 555 232")), 48.0/49, near)
	expectFigure(t, "five learners", Alpha(matrix("343 234 445 323 444")), 0.732558, 5e-7)
}

// With everyone's marks the same column for column, gonum's covariance matrix gives
// alpha another way: k/(k−1) · (1 − trace/sum).
func TestAlphaAgainstCovariance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, k := rapid.IntRange(2, 12).Draw(t, "learners"), rapid.IntRange(2, 9).Draw(t, "questions")
		marks := make([][]float64, n)
		flat := mat.NewDense(n, k, nil)
		for i := range marks {
			marks[i] = make([]float64, k)
			for j := range k {
				marks[i][j] = float64(rapid.IntRange(0, 4).Draw(t, "mark"))
				flat.Set(i, j, marks[i][j])
			}
		}
		got := Alpha(marks)
		if !got.Known() {
			if got.Why != NoSpread || spread(totals(marks)) {
				t.Fatalf("no alpha: %v", got.Why)
			}
			return
		}
		var cov mat.SymDense
		stat.CovarianceMatrix(&cov, flat, nil)
		want := float64(k) / float64(k-1) * (1 - mat.Trace(&cov)/mat.Sum(&cov))
		if math.Abs(got.Value-want) > 1e-9*max(1, math.Abs(want)) {
			t.Fatalf("got %v, the covariances give %v", got.Value, want)
		}
	})
}

func TestReliabilityWithoutAnAnswer(t *testing.T) {
	expectReason(t, "nobody", Alpha(nil), NoAnswers)
	expectReason(t, "one learner", Alpha(matrix("101")), OneLearner)
	expectReason(t, "one question", Alpha(matrix("1 0 1")), OneQuestion)
	expectReason(t, "all totals equal", Alpha(matrix("10 01")), NoSpread)
	expectReason(t, "rows of two lengths", Alpha([][]float64{{1, 0}, {1}}), Incomplete)
	expectReason(t, "half marks", KR20([][]float64{{1, 0.5}, {1, 0}}), NotRightWrong)
	expectReason(t, "KR-21 without spread", KR21([]float64{3, 3}, 5), NoSpread)
	expectReason(t, "KR-21 of one question", KR21([]float64{1, 0}, 1), OneQuestion)
	expectReason(t, "KR-21 of nobody", KR21(nil, 4), NoAnswers)
	expectReason(t, "error without reliability", StandardError([]float64{2, 2}, unknown(NoSpread)), NoSpread)
}

// σ 10 and reliability 0.91 give 3, an example that textbooks of testing like; from
// memory.
func TestStandardError(t *testing.T) {
	expectFigure(t, "SEM", StandardError([]float64{40, 60}, known(0.91)), 3, near)
	expectFigure(t, "perfect", StandardError([]float64{40, 60}, known(1)), 0, near)
	expectFigure(t, "worse than chance", StandardError([]float64{40, 60}, known(-0.5)), 10, near)
}

// The interval holds alpha, narrows as the class grows, and at one degree of freedom
// more than a table prints agrees with F(0.975; 20, 20) = 2.46 (from memory).
func TestAlphaInterval(t *testing.T) {
	iv, ok := AlphaInterval(known(0.7), 21, 2)
	if !ok || math.Abs(iv.Low-(1-0.3*2.4645)) > 1e-3 || math.Abs(iv.High-(1-0.3/2.4645)) > 1e-3 {
		t.Errorf("got %+v", iv)
	}
	wide, _ := AlphaInterval(known(0.7), 24, 20)
	narrow, _ := AlphaInterval(known(0.7), 240, 20)
	if wide.Low >= narrow.Low || wide.High <= narrow.High || wide.Low > 0.7 || wide.High < 0.7 {
		t.Errorf("24 learners %+v, 240 learners %+v", wide, narrow)
	}
	if _, ok := AlphaInterval(unknown(NoSpread), 24, 20); ok {
		t.Error("an interval round nothing")
	}
}

// Two learners of four tie across the edge: each counts half, whichever comes first.
func TestDiscriminationSharesTies(t *testing.T) {
	a, b := Answered{1, 5}, Answered{0, 5}
	top, bottom := Answered{1, 9}, Answered{0, 1}
	expectFigure(t, "one way", Discrimination([]Answered{top, a, b, bottom}), 0.5, near)
	expectFigure(t, "the other", Discrimination([]Answered{top, b, a, bottom}), 0.5, near)
	expectReason(t, "all alike", Discrimination([]Answered{a, b}), NoSpread)
	expectReason(t, "one", Discrimination([]Answered{a}), OneLearner)
	expectReason(t, "none", Discrimination(nil), NoAnswers)
}

// 27 % of a hundred, and half of thirty-nine without the one in the middle.
func TestDiscriminationGroups(t *testing.T) {
	expectFigure(t, "the best 27 right", Discrimination(ranked(100, 27)), 1, near)
	expectFigure(t, "the best 28 right", Discrimination(ranked(100, 28)), 1, near)
	expectFigure(t, "the best 26 right", Discrimination(ranked(100, 26)), 26.0/27, near)
	expectFigure(t, "the best 20 of 39 right", Discrimination(ranked(39, 20)), 1, near)
	expectFigure(t, "the best 18 of 39 right", Discrimination(ranked(39, 18)), 18.0/19, near)
}

// ranked is a class of n with different totals, of whom the best are right.
func ranked(n, right int) []Answered {
	out := make([]Answered, n)
	for i := range out {
		out[i].Test = float64(n - i)
		if i < right {
			out[i].Mark = 1
		}
	}
	return out
}

// verdicts makes pairs from a table: both yes, first alone, second alone, both no.
func verdicts(both, first, second, neither int) [][2]string {
	var out [][2]string
	for _, c := range []struct {
		n    int
		pair [2]string
	}{{both, [2]string{"yes", "yes"}}, {first, [2]string{"yes", "no"}}, {second, [2]string{"no", "yes"}}, {neither, [2]string{"no", "no"}}} {
		for range c.n {
			out = append(out, c.pair)
		}
	}
	return out
}

// The first three are tables of statistics textbooks (from memory, worked out again);
// labels and pairs are those of the documentation of statistics libraries.
func TestKappa(t *testing.T) {
	expectFigure(t, "20 5 10 15", Kappa(verdicts(20, 5, 10, 15)), 0.4, near)
	expectFigure(t, "45 15 25 15", Kappa(verdicts(45, 15, 25, 15)), 0.130435, 5e-7)
	expectFigure(t, "25 35 5 35", Kappa(verdicts(25, 35, 5, 35)), 0.259259, 5e-7)
	expectFigure(t, "labels", Kappa([][2]string{{"2", "0"}, {"0", "0"}, {"2", "2"}, {"2", "2"}, {"0", "0"}, {"1", "2"}}), 3.0/7, near)
	if got := Kappa([][2]string{{"1", "1"}, {"1", "0"}, {"1", "0"}, {"0", "0"}, {"1", "1"}, {"0", "1"}}); got != known(0) {
		t.Errorf("agreement by chance: got %v, want exactly 0", got)
	}
	expectFigure(t, "agreement", Agreement(verdicts(20, 5, 10, 15)), 0.7, near)
	expectReason(t, "always yes", Kappa(verdicts(9, 0, 0, 0)), NoChoice)
	expectReason(t, "no case", Kappa(nil), NoAnswers)
	expectReason(t, "no case", Agreement(nil), NoAnswers)
}

func TestTrust(t *testing.T) {
	for n, want := range map[int]Trust{0: TooFew, 9: TooFew, 10: Rough, 29: Rough, 30: Steady} {
		if got := TrustIn(n); got != want {
			t.Errorf("%d learners: got %d, want %d", n, got, want)
		}
	}
}

func TestReasonsHaveWords(t *testing.T) {
	seen := map[string]bool{}
	for r := Known; r <= NotRightWrong; r++ {
		if seen[r.String()] {
			t.Errorf("%q is said for two reasons", r)
		}
		seen[r.String()] = true
	}
}
