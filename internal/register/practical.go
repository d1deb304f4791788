package register

import (
	"cmp"
	"slices"
	"strings"

	"plait/internal/answerfile"
	"plait/internal/classtest"
)

// Signed is a sign-off with its learner.
type Signed struct {
	Learner answerfile.Learner
	SignOff
}

// SignedOff returns every sign-off once, by learner, practical, date and assessor. One
// that stands in several files of a learner is one.
func (r *Register) SignedOff() []Signed {
	var list []Signed
	for _, s := range r.Sittings {
		for _, p := range s.SignOff {
			list = append(list, Signed{s.Learner(), p})
		}
	}
	order := func(a, b Signed) int {
		x, y := a.Learner.Key(), b.Learner.Key()
		return cmp.Or(
			strings.Compare(x.Class, y.Class), strings.Compare(x.Name, y.Name), strings.Compare(a.Practical, b.Practical),
			strings.Compare(a.Date, b.Date), strings.Compare(a.Assessor, b.Assessor), strings.Compare(string(a.Verdict), string(b.Verdict)), a.Points-b.Points,
		)
	}
	slices.SortStableFunc(list, order)
	return slices.CompactFunc(list, func(a, b Signed) bool { return order(a, b) == 0 })
}

// Pairing is how two assessors judged the same practicals of the same learners on the
// same day.
type Pairing struct {
	First, Second string
	Cases         int
	Agreement     classtest.Figure // the share on which they agree
	Kappa         classtest.Figure
}

// Pairings compares every two assessors who judged the same.
func (r *Register) Pairings() []Pairing {
	type sitting struct {
		learner         answerfile.Learner
		practical, date string
	}
	cases := map[sitting][]Signed{}
	for _, p := range r.SignedOff() {
		at := sitting{p.Learner.Key(), p.Practical, p.Date}
		cases[at] = append(cases[at], p)
	}
	verdicts := map[[2]string][][2]string{}
	for _, list := range cases {
		for i, a := range list {
			for _, b := range list[i+1:] {
				if a.Assessor == b.Assessor {
					continue
				}
				if a.Assessor > b.Assessor {
					a, b = b, a
				}
				who := [2]string{a.Assessor, b.Assessor}
				verdicts[who] = append(verdicts[who], [2]string{string(a.Verdict), string(b.Verdict)})
			}
		}
	}
	var out []Pairing
	for who, pairs := range verdicts {
		out = append(out, Pairing{First: who[0], Second: who[1], Cases: len(pairs), Agreement: classtest.Agreement(pairs), Kappa: classtest.Kappa(pairs)})
	}
	slices.SortFunc(out, func(a, b Pairing) int {
		return cmp.Or(strings.Compare(a.First, b.First), strings.Compare(a.Second, b.Second))
	})
	return out
}
