package check

import (
	"slices"
	"strings"
)

// rules is every rule, by family and name: those that look at formulas, each in a
// file of its own, and those that are reported while files are read and linked.
var rules = func() []Rule {
	list := append([]Rule{
		formulaAmount,
		formulaApplication,
		formulaCeiling,
		formulaChair,
		formulaClash,
		formulaDeveloperWeight,
		formulaDrift,
		formulaGrams,
		formulaHead,
		formulaMixed,
		formulaPair,
		formulaReads,
		formulaStart,
		formulaStrength,
		formulaTargetLevel,
		formulaUsualAmount,
		houseStrongest,
		rangeFirstTouch,
		rangeRatio,
		rangeStrength,
		rangeTerms,
		rangeTime,
	}, reading...)
	slices.SortFunc(list, func(a, b Rule) int { return strings.Compare(a.ID, b.ID) })
	return list
}()
