package derive

import (
	"math"

	"plait/internal/exact"
	"plait/internal/measure"
	"plait/internal/mix"
	"plait/internal/sheet"
)

// What is taken where a sheet with `product` does not say otherwise: assumptions of
// ours, to be set by who knows better. The hair is 70 µm thick and weighs 1.32 g for
// a cm³ (from memory).
const (
	usualDensity = 200.0   // hairs for a cm²
	usualCoat    = 0.05    // g for a cm² of scalp
	usualRatio   = 1.2     // g of product for a g of hair
	hairWeight   = 5.08e-5 // g for a cm of one hair: π · (35e−4 cm)² · 1.32 g/cm³
)

// products returns what each section would take by the model of a sheet's `product`,
// in whole grams that add up, nil where the sheet does not ask. A section takes
//
//	area · (coat + density · length · weight of hair · ratio).
//
// It is a picture to compare sections by; no bowl is sized by it.
func products(p sheet.Product, sections []SheetSection, cut *Cut) []measure.Mass {
	if !p.Set() {
		return nil
	}
	or := func(value, usual float64, set bool) float64 {
		if set {
			return value
		}
		return usual
	}
	density := or(p.Density.Value, usualDensity, p.Density.Set())
	coat := or(p.Coat.Value, usualCoat, p.Coat.Set())
	ratio := or(p.Ratio.Value, usualRatio, p.Ratio.Set())
	masses := make([]measure.Mass, len(sections))
	for i, s := range sections {
		length := p.Length.Value
		if cut != nil && s.Cut != nil && cut.Lengths[i].Mean > 0 {
			length = cut.Lengths[i].Mean
		}
		onHair := float64(density * length * hairWeight * ratio) // wrapped, so that no machine fuses it into the sum
		grams := float64(s.Area * (coat + onHair))
		masses[i] = measure.Grams(exact.Of(int64(math.Round(1000*grams)), 1000))
	}
	return mix.Split(masses, gram)
}
