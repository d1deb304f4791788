package report

import (
	"fmt"

	"plait/internal/classtest"
	"plait/internal/register"
)

// trust says what a class of this size can say.
func trust(learners int) string {
	switch classtest.TrustIn(learners) {
	case classtest.TooFew:
		return fmt.Sprintf("%d %s: too few to say anything about the questions. The figures below are arithmetic, and chance decides them.",
			learners, plural(learners, "sitting is", "sittings are"))
	case classtest.Rough:
		return fmt.Sprintf("%d sittings: enough to point at a question that wants looking at, too few to prove anything against it.", learners)
	}
	return fmt.Sprintf("%d sittings: enough for figures that would come out much the same again.", learners)
}

// The bands of difficulty and discrimination, as item-analysis handbooks have them.
const (
	hard        = 0.20 // a smaller share right tells little
	easy        = 0.80 // nor does a larger one
	fairlyApart = 0.20 // discrimination from which a question is fair
	wellApart   = 0.40 // and excellent
)

// verdict says in a sentence what to make of a question, and whether to look at it.
func verdict(q register.Question) (says string, look bool) {
	p, d := q.Difficulty.Value, q.Discrimination
	switch {
	case q.Asked < classtest.FewestLearners:
		return "Asked too rarely to say.", false
	case !d.Known():
		return "Cannot be said: " + d.Why.String() + ".", false
	case d.Value < 0:
		return "Those who know more get it wrong more often: look at its key and its wording first.", true
	case p < hard:
		return "Hardly anybody gets it: not taught yet, or badly put.", true
	case p > easy && d.Value < fairlyApart:
		return "Nearly everybody gets it. Good for what must be known; it tells nobody apart.", false
	case d.Value < fairlyApart:
		return "It hardly tells those who know from those who do not: look at its wording.", true
	case d.Value < wellApart:
		return "It tells fairly well who knows.", false
	}
	return "It tells well who knows.", false
}

// figures are the figures of a whole paper, with what they mean.
func figures(a register.Analysis) []figureRow {
	n := len(a.Sittings)
	rows := []figureRow{{
		Name: "KR-20", Value: number(a.KR20), Says: reliability(a.KR20, n),
		Formula: "k/(k − 1) · (1 − Σpq/σ²), σ² over the class", Source: "Kuder and Richardson, Psychometrika 2, 1937",
	}}
	if a.Drawn {
		rows[0].Name = fmt.Sprintf("KR-20 of the %d questions that everybody was asked", a.Common)
	}
	if a.KR20.Known() && classtest.TrustIn(n) > classtest.TooFew {
		rows[0].Says += fmt.Sprintf(" In 95 of 100 such classes it would lie between %.2f and %.2f.", a.KR20Range.Low, a.KR20Range.High)
	}
	if a.Drawn {
		rows = append(rows, figureRow{
			Name: "KR-21 of the whole paper", Value: number(a.KR21), Says: "Each learner had questions of their own, so only the totals can be compared; this is the careful side of KR-20. " + reliability(a.KR21, n),
			Formula: "k/(k − 1) · (1 − μ(k − μ)/(kσ²))", Source: "Kuder and Richardson, 1937; for questions drawn by lot, F. M. Lord, 1957",
		})
	}
	return append(rows,
		figureRow{
			Name: "Cronbach’s alpha of the modules", Value: number(a.Alpha), Says: modulesAgree(a.Alpha, n),
			Formula: "k/(k − 1) · (1 − Σσᵢ²/σ²), a part for each module", Source: "L. J. Cronbach, Psychometrika 16, 1951; Feldt’s interval for KR-20 and alpha, 1965",
		},
		figureRow{
			Name: "Standard error of measurement", Value: number(a.StdError), Says: standardError(a),
			Formula: "σ · √(1 − reliability), in marks", Source: "classical test theory, as textbooks have it",
		},
	)
}

// reliability words a reliability, by the usual labels.
func reliability(f classtest.Figure, learners int) string {
	switch {
	case !f.Known():
		return "Cannot be said: " + f.Why.String() + "."
	case classtest.TrustIn(learners) == classtest.TooFew:
		return "The class is too small to say."
	case f.Value >= 0.9:
		return "Excellent: sat again, the paper would put these learners in almost the same order."
	case f.Value >= 0.8:
		return "Good: sat again, the paper would put these learners in much the same order."
	case f.Value >= 0.7:
		return "Acceptable: a mark or two is chance."
	case f.Value >= 0.5:
		return "Weak: chance has a good part in these marks. Do not let one mark decide."
	}
	return "Poor: chance has most of the say. The questions ask for different things, are too easy, or are too few."
}

func modulesAgree(f classtest.Figure, learners int) string {
	switch {
	case !f.Known():
		return "Cannot be said: " + f.Why.String() + "."
	case classtest.TrustIn(learners) == classtest.TooFew:
		return "The class is too small to say."
	case f.Value >= 0.7:
		return "Who is good in one module is good in the others."
	case f.Value >= 0.4:
		return "The modules go together in part: look at progress by module, not at the total alone."
	}
	return "The modules have little to do with each other: the total hides who is behind in which."
}

func standardError(a register.Analysis) string {
	if !a.StdError.Known() {
		return "Cannot be said: " + a.StdError.Why.String() + "."
	}
	if classtest.TrustIn(len(a.Sittings)) == classtest.TooFew {
		return "The class is too small to say."
	}
	return fmt.Sprintf("By about so many marks, of %d, a learner’s mark would wander if they could sit again. Who is nearer than that to the pass mark has neither surely passed nor surely failed.", a.Asked)
}

// agreement words how far two assessors agree, by the usual labels of kappa.
func agreement(p register.Pairing) string {
	switch {
	case !p.Kappa.Known():
		return "Beyond chance nothing can be said: " + p.Kappa.Why.String() + "."
	case p.Cases < classtest.FewestLearners:
		return "Too few cases to say."
	case p.Kappa.Value <= 0:
		return "No better than chance: go through the checklist together."
	case p.Kappa.Value <= 0.2:
		return "Slight agreement beyond chance: go through the checklist together."
	case p.Kappa.Value <= 0.4:
		return "Fair agreement beyond chance: settle what each point asks for."
	case p.Kappa.Value <= 0.6:
		return "Moderate agreement beyond chance."
	case p.Kappa.Value <= 0.8:
		return "Substantial agreement beyond chance."
	}
	return "Almost perfect agreement beyond chance."
}
