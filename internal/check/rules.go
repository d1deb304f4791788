package check

import (
	"slices"
	"strings"
)

// rules is every rule, by family and name: those that look at formulas, each in a
// file of its own, and those that are reported while files are read and linked.
var rules = func() []Rule {
	list := slices.Concat(readingCourse, readingFormula, readingQuestion, readingRange, readingRecording, readingText, []Rule{
		courseClass,
		courseStock,
		formulaAmount,
		formulaApplication,
		formulaBase,
		formulaBlended,
		formulaCeiling,
		formulaChair,
		formulaClash,
		formulaDeveloperWeight,
		formulaDrift,
		formulaFillerHue,
		formulaFillerNatural,
		formulaFilling,
		formulaGrams,
		formulaHead,
		formulaHighLift,
		formulaLift,
		formulaLiftsColoured,
		formulaLightener,
		formulaLightenerClock,
		formulaMixed,
		formulaMoreMixer,
		formulaNaturalShare,
		formulaNeedlessStrength,
		formulaOverStrength,
		formulaPair,
		formulaRatioUsual,
		formulaReads,
		formulaSectionTime,
		formulaStart,
		formulaStrength,
		formulaTargetLevel,
		formulaUsualAmount,
		formulaUsualTime,
		formulaWhiteCover,
		houseLongest,
		houseLooser,
		houseStrongest,
		houseTests,
		houseWithout,
		lawIngredient,
		lawIngredientsTogether,
		rangeFirstTouch,
		rangeApart,
		rangeMixed,
		rangePowder,
		rangeRatio,
		rangeStrength,
		rangeTerms,
		rangeTime,
		recordingBeyond,
		recordingCaptionGap,
		recordingCaptionLines,
		recordingCaptionOverlap,
		recordingCaptionSpeed,
		recordingCaptionTime,
		recordingLength,
		recordingOrder,
		recordingOverlap,
		recordingShortStep,
		recordingUncaptioned,
	})
	slices.SortFunc(list, func(a, b Rule) int { return strings.Compare(a.ID, b.ID) })
	return list
}()
