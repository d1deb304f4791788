package mix

import (
	"plait/internal/exact"
	"plait/internal/measure"
)

// Verdict says how a typed value compares with the computed one.
type Verdict uint8

// The verdicts: the same value (exactly, or as the scale shows it), near enough
// for the scale, or wrong.
const (
	Same Verdict = iota
	Near
	Wrong
)

// nearShare is the share of a weight that a claim may be off by: 2 %.
var nearShare = exact.Of(2, 100)

// Compare judges a weight claimed for one part of a bowl. What the bowl says to
// weigh is the same value, also where making parts add up moved it by a step.
func (p Part) Compare(claimed, step measure.Mass) Verdict {
	if claimed.Cmp(p.Weighed) == 0 {
		return Same
	}
	return CompareMass(claimed, p.Exact, step)
}

// CompareMass judges a claimed weight: Same where it is the exact or the weighed
// value, Near within the larger of one scale step and 2 % of the truth, else
// Wrong.
func CompareMass(claimed, truth, step measure.Mass) Verdict {
	rounded := measure.Grams(truth.Grams().Round(step.Grams()))
	if claimed.Cmp(truth) == 0 || claimed.Cmp(rounded) == 0 {
		return Same
	}
	allowed := exact.Max(step.Grams(), truth.Grams().Mul(nearShare))
	if allowed.Less(claimed.Sub(truth).Grams().Abs()) {
		return Wrong
	}
	return Near
}
