package check

import (
	"plait/internal/derive"
	"plait/internal/hair"
	"plait/internal/shade"
	"plait/internal/source"
)

// undertone returns the warmth found at a level, by the maker's table where there is
// one.
func undertone(f *derive.Formula, level shade.Level) shade.Hue {
	if f.Range != nil {
		return f.Range.Undertone(level)
	}
	return shade.Undertone(level)
}

// lightest returns the lightest level of the formula's ranges.
func lightest(f *derive.Formula) shade.Level {
	if f.Range == nil {
		return shade.Lightest
	}
	lightest := f.Range.Lightest
	for _, r := range f.Also {
		lightest = max(lightest, r.Lightest)
	}
	return lightest
}

// liftsHair reports whether the kind of colour is made to lift by itself.
func liftsHair(kind shade.Kind) bool { return kind == shade.Permanent || kind == shade.HighLift }

// onNatural reports whether the formula goes on hair that colour can lift.
func onNatural(f *derive.Formula) bool { return f.Hair.Set() && f.Hair.Value.State == hair.Natural }

// liftWanted returns how many levels lighter the hair is to become; ok is false where
// hair or target is not stated.
func liftWanted(f *derive.Formula) (levels int, ok bool) {
	if !f.Hair.Set() || !f.Target.Set() {
		return 0, false
	}
	return hair.LiftWanted(f.Hair.Value.Level, f.Target.Value.Level), true
}

// shades returns the stretch of text that lists the shades.
func shades(f *derive.Formula) source.Span {
	return f.Colour[0].Span.To(f.Colour[len(f.Colour)-1].Span)
}

// deposits reports whether a kind of colour leaves dye and is not made to lighten
// alone.
func deposits(kind shade.Kind) bool { return kind != shade.Lightener && kind != shade.HighLift }

// mixedAt returns where a bowl says how far colour is thinned.
func mixedAt(f *derive.Formula) source.Span {
	if f.Ratio.Set() {
		return f.Ratio.Span
	}
	return f.Developer.Span
}
